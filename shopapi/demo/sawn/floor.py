"""The floor under a photographed board, and the board's shadow on it."""

from functools import cache

import cv2
import numpy as np
from numpy.typing import NDArray

from shopapi.demo.sawn.noise import layered, smooth, step

_TILE_PX = 1280
_MM_PER_PX = 3.2
_FLOORS = (
    ((150, 146, 138), 0.020),  # smooth concrete
    ((124, 120, 114), 0.030),  # old concrete
    ((170, 162, 148), 0.016),  # swept slab
)


def draw_floor(rng: np.random.Generator, to_photo: NDArray[np.float64], size: tuple[int, int]) -> NDArray[np.uint8]:
    """A photo of nothing but a concrete floor; to_photo: homography from floor millimetres to pixels."""
    tile = _tile(int(rng.integers(len(_FLOORS))))
    x, y = rng.uniform(-900, 0, 2)
    placed = to_photo @ np.array([[_MM_PER_PX, 0, x], [0, _MM_PER_PX, y - 900], [0, 0, 1.0]])
    photo = cv2.warpPerspective(tile, placed, size, flags=cv2.INTER_LINEAR, borderMode=cv2.BORDER_REFLECT)
    return photo.astype(np.uint8, copy=False)


@cache
def _tile(number: int) -> NDArray[np.uint8]:
    """A stretch of floor, drawn once."""
    rng = np.random.default_rng(number)
    colour, rough = _FLOORS[number]
    shape = (_TILE_PX, _TILE_PX)
    tone = rough * layered(rng, shape, 260, 260, 3) + 0.6 * rough * layered(rng, shape, 24, 24, 4)
    tone += 0.022 * rng.standard_normal(shape, dtype=np.float32)  # sand in the cement
    tone -= 0.05 * step(1.2, 1.9, smooth(rng, shape, 110, 110))  # old spills
    tile = np.clip(np.array(colour, np.float32) * (1 + tone)[..., None], 0, 255).astype(np.uint8)
    _litter(rng, tile)
    _joints(rng, tile)
    return tile


def _litter(rng: np.random.Generator, tile: NDArray[np.uint8]) -> None:
    """Sawdust and a few shavings."""
    for x, y in rng.integers(0, _TILE_PX, (420, 2)):
        shade = rng.uniform(0.85, 1.15)
        colour = tuple(float(v) for v in np.clip(np.array((196, 172, 134)) * shade, 0, 255))
        length, turn = rng.exponential(1.3), rng.uniform(0, np.pi)
        end = (int(x + length * np.cos(turn)), int(y + length * np.sin(turn)))
        cv2.line(tile, (int(x), int(y)), end, colour, 1, cv2.LINE_AA)


def _joints(rng: np.random.Generator, tile: NDArray[np.uint8]) -> None:
    """The saw cuts that keep a slab from cracking where it likes."""
    at = int(rng.integers(150, _TILE_PX - 150))
    dark = tuple(float(v) for v in tile.mean((0, 1)) * 0.6)
    cv2.line(tile, (at, 0), (at + int(rng.integers(-60, 60)), _TILE_PX), dark, 1, cv2.LINE_AA)


def shadow(picture: NDArray[np.uint8], close: NDArray[np.float64], wide: NDArray[np.float64]) -> NDArray[np.uint8]:
    """Darken the floor under the board (`close`, its outline on the floor in pixels) and softly around it (`wide`)."""
    height, width = picture.shape[:2]
    small = (max(1, width // 6), max(1, height // 6))
    soft = np.zeros(small[::-1], np.float32)
    for outline, depth in ((wide, 0.30), (close, 0.62)):
        layer = np.zeros(small[::-1], np.float32)
        cv2.fillConvexPoly(layer, (outline / 6 * 16).round().astype(np.int32), depth, cv2.LINE_8, 4)
        soft = np.maximum(soft, cv2.GaussianBlur(layer, (0, 0), width / 700 if depth < 0.5 else width / 1500))
    dim = cv2.resize(1 - soft, (width, height), interpolation=cv2.INTER_LINEAR)
    return np.stack([cv2.multiply(picture[..., c], dim, dtype=cv2.CV_8U) for c in range(3)], axis=-1)
