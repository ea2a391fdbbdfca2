"""How much darker each place of a squared picture is than the wood before and behind it along the grain."""

from dataclasses import dataclass
from typing import Any

import cv2
import numpy as np
from numpy.typing import NDArray

from shopapi.craft.rectify.warp import Picture

Field = NDArray[np.float32]

# Finer than this shows pores, coarser hides small knots. From the benchmark's photographs.
_FINEST_MM = 0.5
_ALONG_MM, _ACROSS_MM = 70.0, 1.5


@dataclass(frozen=True, eq=False)
class Wood:
    """A squared picture at working scale: mm_per_px along and across.

    dark: logarithm of how much darker than the same grain around it. light: logarithm of lightness. shade: lightness
    against the whole face's, 1 = the face's middle.
    """

    dark: Field
    light: Field
    shade: Field
    mm_per_px: float

    @property
    def length_mm(self) -> float:
        return self.dark.shape[1] * self.mm_per_px

    @property
    def width_mm(self) -> float:
        return self.dark.shape[0] * self.mm_per_px


def read_wood(squared: Picture, mm_per_px: float) -> Wood:
    """Lightness is taken as a logarithm, so that a shadow over the board changes nothing but its own edge."""
    factor = max(1.0, _FINEST_MM / mm_per_px)
    size = (max(1, round(squared.shape[1] / factor)), max(1, round(squared.shape[0] / factor)))
    small = cv2.resize(squared, size, interpolation=cv2.INTER_AREA) if factor > 1 else squared
    mm = mm_per_px * squared.shape[1] / size[0]
    grey: Any = cv2.cvtColor(small, cv2.COLOR_BGR2GRAY) if small.ndim == 3 else small
    light = np.log(grey.astype(np.float32) + 6.0)
    along, across = _odd(_ALONG_MM / mm), _odd(_ACROSS_MM / mm)
    usual = _mean(light, np.ones_like(light), along, across)
    for _ in range(2):  # leave out what is dark, so that a long knot does not hide itself
        clear = (light > usual - 0.12).astype(np.float32)
        usual = _mean(light, clear, along, across)
    dark = usual - light
    shade = np.exp(light - np.median(light))
    return Wood(dark, light, shade.astype(np.float32), mm)


def _mean(light: Field, weights: Field, along: int, across: int) -> Field:
    size, border = (along, across), cv2.BORDER_REFLECT
    total = cv2.blur(light * weights, size, borderType=border) + 1e-3 * cv2.blur(light, size, borderType=border)
    counted = cv2.blur(weights, size, borderType=border) + 1e-3
    return np.asarray(total / counted, np.float32)


def _odd(pixels: float) -> int:
    return max(1, 2 * round((pixels - 1) / 2) + 1)
