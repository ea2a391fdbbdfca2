"""Whether two strips show the same wood, and how far apart they put it."""

from dataclasses import dataclass

import cv2
import numpy as np
from numpy.typing import NDArray

from shopapi.craft.rectify.warp import Picture

Grey = NDArray[np.float32]

# Correlation of the grain from which on two strips are taken to show the same wood, measured on the drawn boards and
# on the photographs of the benchmark.
SAME_WOOD = 0.5
_COARSE_MM = 1.5
_LEAST_MM = 25.0
_GREATEST_MM = 120.0
_ACROSS_MM = 9.0


@dataclass(frozen=True)
class Match:
    """alike: correlation of the grain, -1 to 1. along_mm, across_mm: how far the second strip puts the wood from where
    the first one has it [mm]."""

    alike: float
    along_mm: float = 0.0
    across_mm: float = 0.0

    @property
    def apart_mm(self) -> float:
        return float(np.hypot(self.along_mm, self.across_mm))


NOTHING = Match(-1.0)


def grain(picture: Picture, mm_per_px: float) -> tuple[Grey, float]:
    """The strip's fine light and dark at about 1.5 mm a pixel, light and colour of the shot taken out."""
    factor = max(1, round(_COARSE_MM / mm_per_px))
    rows, columns = (max(1, side // factor) for side in picture.shape[:2])
    whole = picture[: rows * factor, : columns * factor]
    small = cv2.resize(whole, (columns, rows), interpolation=cv2.INTER_AREA)
    return _levelled(small, mm_per_px * factor), mm_per_px * factor


def compare(
    one: Grey, other: Grey, one_mm: float, other_mm: float, overlap_mm: tuple[float, float], mm_per_px: float
) -> Match:
    """Look for the wood of the overlap anywhere along the other strip, and the other way round.

    one_mm, other_mm: where the strips begin [mm]; overlap_mm: the stretch they share by their reference points.
    """
    there = _look(one, other, one_mm, other_mm, overlap_mm, mm_per_px)
    back = _look(other, one, other_mm, one_mm, overlap_mm, mm_per_px)
    return there if there.alike >= back.alike else Match(back.alike, -back.along_mm, -back.across_mm)


def _look(
    one: Grey, other: Grey, one_mm: float, other_mm: float, overlap_mm: tuple[float, float], mm_per_px: float
) -> Match:
    start, end = overlap_mm
    if end - start > _GREATEST_MM:
        middle = (start + end) / 2
        start, end = middle - _GREATEST_MM / 2, middle + _GREATEST_MM / 2
    if end - start < _LEAST_MM:
        return NOTHING
    across = min(round(_ACROSS_MM / mm_per_px), one.shape[0] // 4)
    left, right = round((start - one_mm) / mm_per_px), round((end - one_mm) / mm_per_px)
    wanted = one[across : one.shape[0] - across, max(0, left) : right]
    if wanted.shape[0] < 8 or wanted.shape[1] < 8 or other.shape[1] < wanted.shape[1] or wanted.std() < 1e-3:
        return NOTHING
    alike = cv2.matchTemplate(other, wanted, cv2.TM_CCOEFF_NORMED)
    _, best, _, (x, y) = cv2.minMaxLoc(alike)
    along = (x + _between(alike[y], x)) * mm_per_px + other_mm - (max(0, left) * mm_per_px + one_mm)
    return Match(float(best), float(along), float((across - y - _between(alike[:, x], y)) * mm_per_px))


def _levelled(picture: Picture | NDArray, mm_per_px: float) -> Grey:
    grey = cv2.cvtColor(picture, cv2.COLOR_BGR2GRAY).astype(np.float32)
    slow = cv2.GaussianBlur(grey, (0, 0), 12.0 / mm_per_px)
    spread = cv2.GaussianBlur((grey - slow) ** 2, (0, 0), 24.0 / mm_per_px)
    return ((grey - slow) / np.sqrt(spread + 4.0)).astype(np.float32)


def _between(values: NDArray, at: int) -> float:
    """Where between pixels the peak lies: the top of a parabola through three values."""
    if not 0 < at < len(values) - 1:
        return 0.0
    before, top, after = (float(v) for v in values[at - 1 : at + 2])
    bend = before - 2 * top + after
    return 0.0 if bend >= 0 else 0.5 * (before - after) / bend
