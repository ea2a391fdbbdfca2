"""Markers found in a photo, their corners to a tenth of a pixel."""

from typing import Any

import cv2
import numpy as np
from numpy.typing import NDArray

from shopapi.craft.rectify.cards.print_model import DICTIONARY, MARKER_CELLS, MARKER_IDS
from shopapi.craft.rectify.corners import Points
from shopapi.craft.rectify.warp import Picture

_ACROSS = 24
_PROFILES = 24


def find_markers(image: Picture) -> tuple[Points, Points] | None:
    """The corners of both markers (upper left first, clockwise as printed), or None where one is not seen."""
    grey: Any = cv2.cvtColor(image, cv2.COLOR_BGR2GRAY) if image.ndim == 3 else image
    found, names, _ = cv2.aruco.ArucoDetector(DICTIONARY).detectMarkers(grey)
    if names is None:
        return None
    # ArUco counts from pixel centres; ours lie at halves.
    seen = {int(name): corners[0].astype(float) + 0.5 for name, corners in zip(names.ravel(), found, strict=True)}
    if any(marker not in seen for marker in MARKER_IDS):
        return None
    first, second = (_refined(grey, seen[marker]) for marker in MARKER_IDS)
    return first, second


def _refined(grey: NDArray[Any], corners: Points) -> Points:
    """Corners as the meeting points of the marker's four sides; a corner itself is rounded off by the lens."""
    sides = [_side(grey, corners[i], corners[(i + 1) % 4], corners.mean(axis=0)) for i in range(4)]
    met = []
    for number in range(4):
        before, after = sides[number - 1], sides[number]
        if before is None or after is None:
            return corners
        (p, d), (q, e) = before, after
        steps = np.linalg.solve(np.column_stack([d, -e]), q - p)
        met.append(p + steps[0] * d)
    refined = np.array(met)
    return refined if np.hypot(*(refined - corners).T).max() < _reach(corners) else corners


def _reach(corners: Points) -> float:
    """Half a cell: as far as a profile may go without meeting the marker's inner cells."""
    sides = np.hypot(*(np.roll(corners, -1, axis=0) - corners).T)
    return max(1.5, 0.5 * float(sides.min()) / MARKER_CELLS)


def _side(grey: NDArray[Any], a: Points, b: Points, middle: Points) -> tuple[Points, Points] | None:
    """A point and the direction of the line along which white turns to black half way."""
    along = b - a
    out = np.array([along[1], -along[0]]) / np.hypot(*along)
    out = out if out @ (a - middle) > 0 else -out
    reach = 0.6 * float(np.hypot(*along)) / MARKER_CELLS
    offsets = np.linspace(-reach, reach, 2 * _ACROSS + 1)
    starts = a + np.linspace(0.1, 0.9, _PROFILES)[:, None] * along
    places = (starts[:, None] + offsets[None, :, None] * out - 0.5).astype(np.float32)
    values: Any = cv2.remap(grey, places[..., 0], places[..., 1], cv2.INTER_LINEAR).astype(float)
    found = []
    for start, profile in zip(starts, values, strict=True):
        half = (profile[:6].mean() + profile[-6:].mean()) / 2
        if profile[-6:].mean() - profile[:6].mean() < 25:
            continue
        rises = np.flatnonzero((profile[:-1] <= half) & (profile[1:] > half))
        if len(rises):
            at = int(rises[np.argmin(np.abs(rises - _ACROSS))])
            share = (half - profile[at]) / (profile[at + 1] - profile[at])
            found.append(start + (offsets[at] + share * (offsets[1] - offsets[0])) * out)
    if len(found) < _PROFILES // 2:
        return None
    vx, vy, x, y = cv2.fitLine(np.array(found, np.float32), cv2.DIST_HUBER, 0, 1e-4, 1e-4).ravel()
    return np.array([x, y], float), np.array([vx, vy], float)
