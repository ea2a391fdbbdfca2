"""What in a photo is not floor: colour that differs from a smooth model of the surroundings."""

from dataclasses import dataclass
from typing import Any, Literal

import cv2
import numpy as np
from numpy.typing import NDArray

from shopapi.craft.rectify.warp import Picture

Field = NDArray[np.float32]

LONG_SIDE_PX = 800
# A shadow changes lightness, not hue; below this spread a floor is as even as a camera's noise lets it look (CIELAB).
_LEAST_SPREAD = np.array([2.0, 0.7, 0.7])
_BORDER = 0.8
_ROUNDS = 8


Way = Literal["hue", "light"]


@dataclass(frozen=True, eq=False)
class Difference:
    """How far each pixel of the shrunk photo is from the floor, in spreads of the floor: by hue alone, and by
    lightness. floor: its colour as it would be seen there (CIELAB). scale: shrunk pixels per photo pixel."""

    hue: Field
    light: Field
    floor: Field
    spread: NDArray[np.float64]
    scale: float

    def away(self, way: Way) -> Field:
        return self.hue if way == "hue" else self.light


def from_floor(image: Picture) -> Difference:
    """Compare a photo with its own floor.

    The floor's colour is a second-degree surface through the photo's border that drops, round by round, what does not
    fit: the board may leave the photo, light may fall off, joints and shavings may lie about.
    """
    scale = min(1.0, LONG_SIDE_PX / max(image.shape[:2]))
    size = (max(8, round(image.shape[1] * scale)), max(8, round(image.shape[0] * scale)))
    small = cv2.resize(image, size, interpolation=cv2.INTER_AREA)
    lab: Any = cv2.cvtColor(small.astype(np.float32) / 255, cv2.COLOR_BGR2LAB)
    y, x = np.mgrid[-1 : 1 : size[1] * 1j, -1 : 1 : size[0] * 1j].astype(np.float32)
    terms: Any = np.stack([np.ones_like(x), x, y, x * x, x * y, y * y], axis=-1)
    few = (slice(None, None, 4), slice(None, None, 4))
    surface, spread = _surface(terms[few].reshape(-1, 6), lab[few].reshape(-1, 3), _border(x, y)[few].ravel())
    floor = (terms.reshape(-1, 6) @ surface.astype(np.float32)).reshape(lab.shape)
    hue = np.hypot(*np.moveaxis(hue_off(lab, floor, spread), -1, 0))
    light = np.abs(lab[..., 0] - floor[..., 0]) / np.float32(spread[0])
    return Difference(hue, light, floor, spread, size[0] / image.shape[1])


def hue_off(lab: Field, floor: Field, spread: NDArray[np.float64]) -> Field:
    """(.., 2) hue against that of the floor if it were as light or dark, in spreads: a shadow is no other hue."""
    off = np.empty((*lab.shape[:2], 2), np.float32)
    light = lab[..., 0] + np.float32(16)
    light /= floor[..., 0] + np.float32(16)
    for channel in (1, 2):
        expected = light * floor[..., channel]
        np.subtract(lab[..., channel], expected, out=expected)
        np.multiply(expected, np.float32(1 / spread[channel]), out=off[..., channel - 1])
    return off


def _border(x: Field, y: Field) -> NDArray[np.bool_]:
    return np.maximum(np.abs(x), np.abs(y)) > _BORDER


def _surface(terms: Field, colours: Field, border: NDArray[np.bool_]) -> tuple[NDArray[Any], NDArray[Any]]:
    """Coefficients and spread of the floor by reweighted least squares (Tukey's weights)."""
    weights = border.astype(np.float64)
    surface: NDArray[Any] = np.zeros((6, 3))
    spread: NDArray[Any] = _LEAST_SPREAD
    for turn in range(_ROUNDS):
        root = np.sqrt(weights)[:, None]
        surface = np.linalg.lstsq(terms * root, colours * root, rcond=None)[0]
        off = colours - terms @ surface
        counted = weights > 0.05
        spread = np.maximum(1.4826 * np.median(np.abs(off[counted]), axis=0), _LEAST_SPREAD)
        away = np.sqrt(((off / spread) ** 2).mean(axis=1))
        weights = np.where(away < 4, (1 - (away / 4) ** 2) ** 2, 0.0)
        if turn < 3:  # first settle on the border, then let the rest of the floor speak
            weights *= border
        if (weights > 0.05).sum() < 30:
            break
    return surface, spread
