"""Random fields: smooth in the large, streaked along the grain, all from a seed."""

from typing import Any

import cv2
import numpy as np
from numpy.typing import NDArray

Field = NDArray[np.floating[Any]]


def smooth(rng: np.random.Generator, shape: tuple[int, int], along_px: float, across_px: float) -> Field:
    """Standard noise whose features are about that many pixels along x and y (below one pixel: none)."""
    rows, columns = shape
    along, across = max(1.0, along_px), max(1.0, across_px)
    coarse = (int(np.ceil(rows / across)) + 3, int(np.ceil(columns / along)) + 3)
    values = rng.standard_normal(coarse, dtype=np.float32)
    full = (int(np.ceil(coarse[1] * along)), int(np.ceil(coarse[0] * across)))
    if full == (coarse[1], coarse[0]):
        return values[:rows, :columns]
    large = cv2.resize(values, full, interpolation=cv2.INTER_CUBIC)
    top, left = int(across), int(along)
    return np.ascontiguousarray(large[top : top + rows, left : left + columns]) * np.float32(1.25)


def layered(rng: np.random.Generator, shape: tuple[int, int], along_px: float, across_px: float, octaves: int) -> Field:
    """Several layers of `smooth`, each half as large and half as strong as the one before."""
    total = np.zeros(shape, np.float32)
    for octave in range(octaves):
        total += smooth(rng, shape, along_px / 2**octave, across_px / 2**octave) * np.float32(0.5**octave)
    return total


def wander(rng: np.random.Generator, count: int, feature_px: float, octaves: int = 3) -> Field:
    """A smooth random line of `count` values."""
    return layered(rng, (1, count), feature_px, 1.0, octaves)[0]


def step(low: float, high: float, values: Field) -> Field:
    """0 below `low`, 1 above `high`, a smooth ramp between (either way round)."""
    ramp = np.clip((values - np.float32(low)) / np.float32(high - low), 0, 1)
    return ramp * ramp * (3 - 2 * ramp)
