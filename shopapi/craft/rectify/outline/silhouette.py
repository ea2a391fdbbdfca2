"""The board's silhouette: one long four-sided patch that stands out from the floor."""

from dataclasses import dataclass
from typing import Any

import cv2
import numpy as np
from numpy.typing import NDArray

from shopapi.craft.rectify.corners import Points
from shopapi.craft.rectify.outline.floor import Field

_LEAST_AWAY = 5.0
_LEAST_SHARE = 0.004
_GREATEST_SHARE = 0.85


@dataclass(frozen=True, eq=False)
class Silhouette:
    """corners: (4, 2) in the shrunk photo, anticlockwise as seen, starting at the butt end's lower corner. patch: 1
    where the board is. cut_off: how much of its outline lies on the photo's border. contrast: how far it is from the
    floor, in spreads."""

    corners: Points
    patch: NDArray[np.uint8]
    cut_off: float
    contrast: float

    def filled(self, corners: Points) -> float:
        """How well a four-sided shape and the patch cover each other: what both cover by what either does."""
        # Pixel centres lie at halves; in sixteenths of a pixel.
        places = ((corners - 0.5) * 16).round().clip(-(2**20), 2**20).astype(np.int32)
        shape: Any = cv2.fillConvexPoly(np.zeros_like(self.patch), places, 1, cv2.LINE_8, 4)
        return float((self.patch & shape).sum() / max(1, (self.patch | shape).sum()))


def silhouette(away: Field) -> Silhouette | None:
    """The largest patch that is farther from the floor than chance, as a four-sided shape."""
    level = _level(away)
    if level is None:
        return None
    mask: Any = (away > level).astype(np.uint8)
    mask = cv2.morphologyEx(mask, cv2.MORPH_CLOSE, np.ones((5, 5), np.uint8))
    mask = cv2.morphologyEx(mask, cv2.MORPH_OPEN, np.ones((3, 3), np.uint8))
    outlines, _ = cv2.findContours(mask, cv2.RETR_EXTERNAL, cv2.CHAIN_APPROX_NONE)
    if not outlines:
        return None
    outline = max(outlines, key=cv2.contourArea)
    share = cv2.contourArea(outline) / away.size
    if not _LEAST_SHARE <= share <= _GREATEST_SHARE:
        return None
    corners = _four_sided(outline)
    if corners is None:
        return None
    patch = cv2.drawContours(np.zeros_like(mask), [outline], -1, 1, cv2.FILLED).astype(np.uint8, copy=False)
    contrast = float(np.median(away[patch > 0]))
    return Silhouette(_in_order(corners + 0.5), patch, _cut_off(outline, away.shape), contrast)


def _level(away: Field) -> float | None:
    """Otsu's threshold, where it parts something from the floor at all."""
    steps = np.clip(away * 4, 0, 255).astype(np.uint8)
    level, _ = cv2.threshold(steps, 0, 255, cv2.THRESH_BINARY | cv2.THRESH_OTSU)
    return max(level / 4, _LEAST_AWAY) if float(away.max()) > _LEAST_AWAY else None


def _four_sided(outline: NDArray[Any]) -> Points | None:
    """The hull with its slightest corners dropped until four are left."""
    hull = cv2.convexHull(outline)
    around = cv2.arcLength(hull, closed=True)
    for share in np.geomspace(0.002, 0.08, 40):
        corners = cv2.approxPolyDP(hull, share * around, closed=True)[:, 0].astype(float)
        if len(corners) == 4:
            return corners
        if len(corners) < 4:
            break
    corners = cv2.boxPoints(cv2.minAreaRect(outline)).astype(float)
    return corners if cv2.contourArea(corners.astype(np.float32)) > 0 else None


def _in_order(corners: Points) -> Points:
    """Anticlockwise as seen, from the butt end's lower corner: the left end, or the nearer one of a board that runs
    away from the camera."""
    if cv2.contourArea(corners.astype(np.float32), oriented=True) > 0:  # y runs down: a clockwise round
        corners = corners[::-1]
    sides = np.roll(corners, -1, axis=0) - corners
    lengths = np.hypot(*sides.T)
    long = int(lengths[1] + lengths[3] > lengths[0] + lengths[2])
    # The two long sides run in opposite directions; the lower edge is the one along which the board runs on.
    first, second = sides[long], sides[(long + 2) % 4]
    run = first - second
    towards = run[0] if abs(run[0]) >= abs(run[1]) else -run[1]
    start = long if towards > 0 else (long + 2) % 4
    return np.roll(corners, -start, axis=0)


def _cut_off(outline: NDArray[Any], shape: tuple[int, ...]) -> float:
    x, y = outline[:, 0].T
    at_border = (x <= 1) | (y <= 1) | (x >= shape[1] - 2) | (y >= shape[0] - 2)
    return float(at_border.mean())
