"""Knots, checks from the ends and wane, each looked for by what sets it apart from grain."""

from dataclasses import dataclass
from typing import Any, Literal

import cv2
import numpy as np
from numpy.typing import NDArray

from shopapi.craft.marks import Ellipse, Line, Outline, Rect, Shape, bounds
from shopapi.craft.suggest.darkness import Wood

SuggestedKind = Literal["knot", "check", "wane"]


@dataclass(frozen=True)
class Found:
    """A flaw in board mm, y up from the picture's lower side; strength: 0 (hardly) to 1."""

    kind: SuggestedKind
    shape: Shape
    strength: float


# Logarithms of lightness: 0.2 is a fifth darker.
_KNOT_SIZES_MM = (0.7, 1.4, 2.8, 5.6)
_KNOT_LEVELS = (1.5, 2.2, 3.3, 5.0, 7.5, 11.0)  # times what 95 % of the wood stays below
_LEAST_USUAL = 0.02
_BESIDE_MM = 4.0
_FAINT, _MOST_ALIKE = 0.55, 5
_GREATEST_KNOT_MM = 160.0
_LEAST_KNOT_MM2 = 5.0
_CHECK_DARK = 0.06
_CHECK_REACH_MM, _LEAST_CHECK_MM, _CHECK_OPEN_MM = 260.0, 20.0, 4.0
_FROM_END_MM = 8.0
_BARK = 0.55
_LEAST_WANE_MM, _LEAST_WANE_DEEP_MM = 25.0, 3.0


def wane(wood: Wood) -> tuple[list[Found], NDArray[np.uint8]]:
    """Bark-dark areas along the long edges, and the mask of them (later searches leave it out)."""
    mm = wood.mm_per_px
    bark = (cv2.GaussianBlur(wood.shade, (0, 0), 1.5 / mm) < _BARK).astype(np.uint8)
    bark = _closed(bark, 15.0 / mm, 3.0 / mm)
    count, labels, stats, _ = cv2.connectedComponentsWithStats(bark)
    rows = bark.shape[0]
    found, mask = [], np.zeros_like(bark)
    rim = max(1, round(1.5 / mm))
    for number in range(1, count):
        _, top, wide, high, area = (int(v) for v in stats[number])
        at_edge = top <= rim or top + high >= rows - rim
        if not at_edge or wide * mm < _LEAST_WANE_MM or high * mm < _LEAST_WANE_DEEP_MM or wide < 1.5 * high:
            continue
        own = (labels == number).astype(np.uint8)
        edge_row = own[: rim + 1].max(axis=0) if top <= rim else own[-rim - 1 :].max(axis=0)
        if edge_row.sum() < 0.5 * wide:
            continue
        darkness = 1 - float(np.median(wood.shade[own > 0]))
        found.append(Found("wane", _outline(own, wood), _ramp(darkness, 0.4, 0.8) * _ramp(area * mm * mm, 50, 600)))
        mask |= own
    return found, mask


def checks(wood: Wood, taken: NDArray[np.uint8]) -> tuple[list[Found], NDArray[np.uint8]]:
    """Thin dark lines along the grain that start at an end and, unlike grain, stop before long."""
    mm = wood.mm_per_px
    across = max(3, 2 * round(_CHECK_OPEN_MM / mm / 2) + 1)
    hat: Any = cv2.morphologyEx(wood.light, cv2.MORPH_BLACKHAT, np.ones((across, 1), np.uint8))
    hat = np.where(taken > 0, 0, cv2.blur(hat, (max(1, round(8.0 / mm)), 1))).astype(np.float32)
    found: list[Found] = []
    mask = np.zeros_like(taken)
    reach = min(round(_CHECK_REACH_MM / mm), hat.shape[1] // 2)
    if reach * mm < _LEAST_CHECK_MM:
        return found, mask
    for far in (False, True):
        near_end = hat[:, ::-1] if far else hat
        excess = near_end[:, :reach] - _farther_in(near_end, reach, mm)
        level = max(_CHECK_DARK, 4 * 1.4826 * float(np.median(np.abs(excess))))
        thin = _closed((excess > level / 2).astype(np.uint8), 14.0 / mm, 1.0 / mm)
        count, labels, stats, _ = cv2.connectedComponentsWithStats(thin, connectivity=8)
        for number in range(1, count):
            own = labels == number
            strength = _check_strength(excess[own], stats[number], level, hat.shape[0], mm)
            if strength > 0:
                whole = np.zeros(hat.shape, bool)
                whole[:, :reach] = own
                whole = whole[:, ::-1] if far else whole
                found.append(Found("check", _line(whole, wood), strength))
                mask[whole] = 1
    return found, mask


def _farther_in(hat: NDArray[np.float32], reach: int, mm: float) -> NDArray[np.float32]:
    """What the same streaks of grain show behind the reach of a check."""
    behind = hat[:, reach : 2 * reach]
    usual = np.percentile(behind, 80, axis=1).astype(np.float32)[:, None]
    return np.asarray(cv2.dilate(usual, _brush(1, 3.0 / mm)), np.float32).reshape(-1, 1)


def _check_strength(excess: NDArray[np.float32], stats: NDArray[Any], level: float, rows: int, mm: float) -> float:
    left, top, wide, high, _ = (int(v) for v in stats)
    at_edge = min(top, rows - top - high) * mm < _CHECK_OPEN_MM
    if at_edge or left * mm > _FROM_END_MM or wide * mm < _LEAST_CHECK_MM or high > 0.35 * wide:
        return 0.0
    typical = float(np.percentile(excess, 60))
    return _ramp(typical, level / 2, 2 * level) * _ramp(wide * mm, 10, 50)


def knots(wood: Wood, taken: NDArray[np.uint8]) -> list[Found]:
    """Dark patches that are compact, as no streak of grain is, and darker than the wood's own pores and flecks get.

    Looked for at several sizes and levels: the larger, the more of the pores is averaged away.
    """
    mm = wood.mm_per_px
    found: list[Found] = []
    beside = cv2.dilate(taken, _brush(2 * _BESIDE_MM / mm, 2 * _BESIDE_MM / mm))
    for size_mm in _KNOT_SIZES_MM:
        if size_mm < 0.8 * mm:
            continue
        dark: Any = cv2.GaussianBlur(wood.dark, (0, 0), size_mm / mm)
        dark = np.where(beside > 0, 0, dark).astype(np.float32)
        middle, high = np.percentile(dark[::2, ::2], (50, 95))
        usual = max(_LEAST_USUAL, float(high - middle))
        for times in _KNOT_LEVELS:
            patch = _opened((dark > usual * times).astype(np.uint8), 1.0 / mm, 1.5 / mm)
            count, labels, stats, _ = cv2.connectedComponentsWithStats(patch)
            for number in range(1, count):
                knot = _knot(dark, labels, number, stats[number], usual, times, size_mm, wood)
                if knot:
                    found.append(knot)
    fine: Any = cv2.GaussianBlur(wood.dark, (0, 0), max(0.3, _KNOT_SIZES_MM[0] / mm))
    return [_fitted(each, fine, wood) for each in _alone(_strongest(found))]


def _alone(found: list[Found]) -> list[Found]:
    """Without the faint flecks along the grain of which there are many alike: that is how the wood looks."""
    flecks = [each for each in found if each.strength < _FAINT and _runs_along(each)]
    kept = []
    for each in found:
        alike = sum(0.5 < _area(other) / _area(each) < 2 for other in flecks)
        if each not in flecks or alike <= _MOST_ALIKE:
            kept.append(each)
    return kept


def _runs_along(found: Found) -> bool:
    around = bounds(found.shape)
    return around.length_mm > 1.3 * around.width_mm


def _area(found: Found) -> float:
    around = bounds(found.shape)
    return around.length_mm * around.width_mm


def _fitted(found: Found, fine: NDArray[np.float32], wood: Wood) -> Found:
    """The knot as large as its dark is, not as the blur made it."""
    mm, around = wood.mm_per_px, bounds(found.shape)
    x0, x1 = (int(np.clip(x / mm, 0, fine.shape[1])) for x in (around.x0_mm - 2, around.x1_mm + 2))
    y0, y1 = (int(np.clip((wood.width_mm - y) / mm, 0, fine.shape[0])) for y in (around.y1_mm + 2, around.y0_mm - 2))
    window = fine[y0:y1, x0:x1]
    if window.size < 4:
        return found
    ys, xs = np.nonzero(window > 0.5 * np.percentile(window, 85))
    if len(xs) < 4:
        return found
    left, right = np.percentile(xs, (2, 98))
    top, bottom = np.percentile(ys, (2, 98))
    shape = Ellipse(
        round(float((x0 + (left + right + 1) / 2) * mm), 1),
        round(float(wood.width_mm - (y0 + (top + bottom + 1) / 2) * mm), 1),
        round(float((right - left + 1) / 2 * mm + 0.5), 1),
        round(float((bottom - top + 1) / 2 * mm + 0.5), 1),
    )
    return Found(found.kind, shape, found.strength)


def _knot(
    dark: NDArray[np.float32],
    labels: NDArray[Any],
    number: int,
    stats: NDArray[Any],
    usual: float,
    times: float,
    size_mm: float,
    wood: Wood,
) -> Found | None:
    left, top, wide, high, area = (int(v) for v in stats)
    mm = wood.mm_per_px
    along, over, mm2 = wide * mm, high * mm, area * mm * mm
    compact = area / (wide * high)
    if not (2.0 * size_mm) ** 2 <= mm2 <= (14.0 * size_mm) ** 2 or compact < 0.35:
        return None
    if mm2 < _LEAST_KNOT_MM2 or along > min(_GREATEST_KNOT_MM, 6 * over):
        return None
    window = (slice(top, top + high), slice(left, left + wide))
    core = float(np.percentile(dark[window][labels[window] == number], 75))
    if core < 1.2 * usual * times:
        return None
    # The blur spreads the patch by about its own size.
    shape = Ellipse(
        round((left + wide / 2) * mm, 1),
        round(wood.width_mm - (top + high / 2) * mm, 1),
        round(along / 2, 1),
        round(over / 2, 1),
    )
    stands_out = _ramp(core, 0.05, 0.4) * _ramp(core / usual, 2.0, 10.0)
    round_enough = _ramp(compact, 0.2, 0.6) * _ramp(over / along, 0.1, 0.4)
    large_enough = _ramp(mm2, 0, 20) * (0.75 + 0.25 * _ramp(mm2, 20, 300))
    return Found("knot", shape, float(np.sqrt(stands_out)) * large_enough * round_enough)


def _strongest(found: list[Found]) -> list[Found]:
    """One for each place: the strongest that touches no stronger one, nor nearly."""
    kept: list[Found] = []
    for each in sorted(found, key=lambda one: -one.strength):
        if not any(_touch(bounds(each.shape), bounds(other.shape)) for other in kept):
            kept.append(each)
    return kept


def _touch(a: Rect, b: Rect) -> bool:
    return (
        a.x0_mm - _BESIDE_MM < b.x1_mm
        and b.x0_mm - _BESIDE_MM < a.x1_mm
        and a.y0_mm - _BESIDE_MM < b.y1_mm
        and b.y0_mm - _BESIDE_MM < a.y1_mm
    )


def _line(own: NDArray[np.bool_], wood: Wood) -> Line:
    """A run of up to six points along a thin patch."""
    columns = np.flatnonzero(own.any(axis=0))
    rows = np.array([np.flatnonzero(own[:, column]).mean() for column in columns])
    mm = wood.mm_per_px
    picks = np.unique(np.linspace(0, len(columns) - 1, 6).round().astype(int))
    smooth = np.convolve(np.pad(rows, 4, mode="edge"), np.ones(9) / 9, mode="valid")
    points = tuple(
        (round(float((columns[i] + 0.5) * mm), 1), round(float(wood.width_mm - (smooth[i] + 0.5) * mm), 1))
        for i in picks
    )
    return Line(points, round(max(2.0, float(own.sum() / len(columns)) * mm), 1))


def _outline(own: NDArray[np.uint8], wood: Wood) -> Outline:
    outlines, _ = cv2.findContours(own, cv2.RETR_EXTERNAL, cv2.CHAIN_APPROX_NONE)
    outline = max(outlines, key=cv2.contourArea)
    mm = wood.mm_per_px
    points = cv2.approxPolyDP(outline, 1.0 / mm, closed=True)[:, 0].astype(float) + 0.5
    return Outline(tuple((round(float(x * mm), 1), round(float(wood.width_mm - y * mm), 1)) for x, y in points[:400]))


def _closed(mask: NDArray[np.uint8], along: float, across: float) -> NDArray[np.uint8]:
    return cv2.morphologyEx(mask, cv2.MORPH_CLOSE, _brush(along, across)).astype(np.uint8, copy=False)


def _opened(mask: NDArray[np.uint8], along: float, across: float) -> NDArray[np.uint8]:
    return cv2.morphologyEx(mask, cv2.MORPH_OPEN, _brush(along, across)).astype(np.uint8, copy=False)


def _brush(along: float, across: float) -> NDArray[np.uint8]:
    return np.ones((max(1, round(across)), max(1, round(along))), np.uint8)


def _ramp(value: float, low: float, high: float) -> float:
    return min(1.0, max(0.0, (value - low) / (high - low)))
