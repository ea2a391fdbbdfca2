"""Grit numbers and what they mean: grain sizes, sequences without too large a jump, paper needed."""

import itertools
import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from shopapi.craft.limits import Answer, OutOfRangeError, require, require_more_than_zero

Scale = Literal["P", "CAMI"]

# GRIT-STANDARDS: grit number -> grain size [micrometres]; CAMI differs 5 to 8 % between charts, and 280 is from memory.
_SIZES_UM: dict[Scale, dict[int, float]] = {
    "P": {
        12: 1815, 16: 1324, 20: 1000, 24: 764, 30: 642, 36: 538, 40: 425, 50: 336, 60: 269, 80: 201, 100: 162, 120: 125,
        150: 100, 180: 82, 220: 68, 240: 58.5, 280: 52.2, 320: 46.2, 360: 40.5, 400: 35.0, 500: 30.2, 600: 25.8,
        800: 21.8, 1000: 18.3, 1200: 15.3, 1500: 12.6, 2000: 10.3, 2500: 8.4,
    },
    "CAMI": {
        24: 708, 30: 632, 36: 530, 40: 425, 50: 348, 60: 265, 80: 190, 100: 140, 120: 115, 150: 92, 180: 82, 220: 68,
        240: 53.0, 280: 44.0, 320: 36.0, 360: 28.0, 400: 23.0, 500: 20.0, 600: 16.0, 800: 12.6, 1000: 10.3,
    },
}  # fmt: skip
# Grades kept in ordinary shops; a sequence uses only these between its ends.
_SHOP_GRITS = (40, 60, 80, 100, 120, 150, 180, 220, 320, 400, 600, 800, 1000, 1200)
# COMMON-PRACTICE: the next grain is 1.2 to 1.6 times finer. 1.65 lets 80, 120, 180 pass as every shop uses it.
_SMALLEST_STEP, _LARGEST_STEP = 1.15, 1.65
# COMMON-PRACTICE: surface one 150 mm disc sands well on hardwood before it is dull [m2].
_DISC_LASTS_M2 = 0.8

Verdict = Literal["good", "too large", "too small", "coarser"]


@dataclass(frozen=True)
class GritStep:
    """One step of a sanding sequence: how much finer its grain gets, and whether that is sensible."""

    from_grit: int
    to_grit: int
    ratio: float
    verdict: Verdict
    advice: str


def grain_size_um(grit: int, scale: Scale = "P") -> Answer:
    """Average grain size [micrometres] of a coated abrasive's grit number.

    grit: a number the scale lists. scale: "P" (ISO 6344) or "CAMI" (ANSI B74.18, plain numbers). P is certain to 1 %,
    CAMI to 8 %; the two part above 220. Raises OutOfRangeError listing the grades.
    Source: GRIT-STANDARDS.

    >>> grain_size_um(120), grain_size_um(400, "CAMI")
    (125.0, 23.0)
    """
    sizes = _scale(scale)
    if grit not in sizes:
        raise OutOfRangeError(f"There is no grit {scale} {grit}. Grades: {', '.join(map(str, sizes))}.")
    cautions = () if scale == "P" else ("Charts of these grades differ by 5 to 8 %.",)
    return Answer(sizes[grit], "micrometres", f"{scale} grade table", cautions)


def nearest_grit(size_um: float, scale: Scale = "P") -> int:
    """Grit number whose grain is nearest in ratio to a size [micrometres], within the scale's coarsest and finest.

    Raises OutOfRangeError for a size more than a step beyond them. Source: GRIT-STANDARDS.

    >>> nearest_grit(23.0), nearest_grit(35.0, "CAMI")
    (800, 320)
    """
    sizes = _scale(scale)
    require("Grain size", size_um, min(sizes.values()) / 1.2, max(sizes.values()) * 1.2, "micrometres")
    return min(sizes, key=lambda grit: abs(math.log(sizes[grit] / size_um)))


def converted_grit(grit: int, scale: Scale, to_scale: Scale) -> int:
    """The grade of the other scale whose grain is nearest: CAMI 400 is about P 800.

    Raises OutOfRangeError for grades no scale lists. Source: GRIT-STANDARDS.

    >>> converted_grit(600, "CAMI", "P")
    1200
    """
    return nearest_grit(grain_size_um(grit, scale), to_scale)


def judge_sequence(grits: Sequence[int], scale: Scale = "P") -> tuple[GritStep, ...]:
    """Each step of a sanding sequence with its ratio of grain sizes and a verdict.

    grits: in the order of use, one or more. scale: "P" or "CAMI". Good steps make the grain 1.15 to 1.65 times finer.
    Raises OutOfRangeError. Source: GRIT-STANDARDS for the sizes; the ratio is common practice, no source.

    >>> [step.verdict for step in judge_sequence([120, 150, 400])]
    ['good', 'too large']
    """
    if not grits:
        raise OutOfRangeError("A sanding sequence needs at least one grit.")
    sizes = [float(grain_size_um(grit, scale)) for grit in grits]
    return tuple(
        GritStep(a, b, size_a / size_b, *_verdict(a, b, size_a / size_b))
        for (a, size_a), (b, size_b) in itertools.pairwise(zip(grits, sizes, strict=True))
    )


def grit_sequence(start_grit: int, final_grit: int, scale: Scale = "P") -> tuple[int, ...]:
    """The fewest grits from the first to the last with no jump too large; of those, the evenest.

    start_grit, final_grit: grades of the scale, the last not coarser than the first. Only grades that
    ordinary shops keep are put between. Raises OutOfRangeError.
    Source: GRIT-STANDARDS for the sizes; the largest ratio (1.65) is common practice, no source.

    >>> grit_sequence(120, 220), grit_sequence(80, 220)
    ((120, 150, 220), (80, 120, 150, 220))
    """
    coarse, fine = float(grain_size_um(start_grit, scale)), float(grain_size_um(final_grit, scale))
    if fine > coarse:
        raise OutOfRangeError(f"Grit {final_grit} is coarser than {start_grit}. Start with the coarser one.")
    if start_grit == final_grit:
        return (start_grit,)
    sizes = _scale(scale)
    between = [grit for grit in _SHOP_GRITS if grit in sizes and fine < sizes[grit] < coarse]
    # Best way to each grit: fewest steps, then the least sum of squared log ratios, which evens them out.
    best: dict[int, tuple[int, float, tuple[int, ...]]] = {start_grit: (0, 0.0, (start_grit,))}
    for grit in (*between, final_grit):
        ways = [
            (count + 1, uneven + math.log(sizes[last] / sizes[grit]) ** 2, (*way, grit))
            for last, (count, uneven, way) in best.items()
            if sizes[last] / sizes[grit] <= _LARGEST_STEP
        ]
        if ways:
            best[grit] = min(ways)
    # The coarsest grades lie too far apart: then every shop grade is used, and judge_sequence says which jump is large.
    return best[final_grit][2] if final_grit in best else (start_grit, *between, final_grit)


def discs_needed(area_m2: float, grits: Sequence[int], disc_diameter_mm: float = 150.0) -> int:
    """Sanding discs for a surface, all grits together, at least one of each.

    area_m2: surface to sand [m2], more than 0. grits: the sequence. disc_diameter_mm: 50 to 300. A rough guess that
    oily, resinous or painted wood breaks. Raises OutOfRangeError.
    Source: COMMON-PRACTICE, a 150 mm disc lasts about 0.8 m2 on hardwood; others in proportion to their area.

    >>> discs_needed(2.0, [120, 150, 220])
    9
    """
    require_more_than_zero("Area", area_m2, unit="m2")
    require("Disc diameter", disc_diameter_mm, 50, 300, "mm")
    lasts_m2 = _DISC_LASTS_M2 * (disc_diameter_mm / 150) ** 2
    return len(grits) * max(1, math.ceil(area_m2 / lasts_m2 - 1e-9))


def raise_grain_after(grits: Sequence[int], *, waterborne: bool, smooth: bool = False) -> int | None:
    """The grit after which to raise the grain with water, or None where it is not needed.

    grits: the sequence. waterborne: whether the finish brings water. smooth: whether a glassy surface is wanted.
    The grain is raised once the last grit is through; it is knocked back with the same paper, lightly.
    Raises OutOfRangeError for no grits. Source: COMMON-PRACTICE, water before a waterborne or smooth finish.

    >>> raise_grain_after([120, 150, 220], waterborne=True)
    220
    """
    if not grits:
        raise OutOfRangeError("A sanding sequence needs at least one grit.")
    return grits[-1] if waterborne or smooth else None


def _scale(scale: Scale) -> dict[int, float]:
    if scale not in _SIZES_UM:
        raise OutOfRangeError(f'There is no grit scale "{scale}". Use P or CAMI.')
    return _SIZES_UM[scale]


def _verdict(from_grit: int, to_grit: int, ratio: float) -> tuple[Verdict, str]:
    if ratio < 1:
        return "coarser", f"{to_grit} is coarser than {from_grit}: it brings back scratches."
    if ratio > _LARGEST_STEP:
        return "too large", f"{from_grit} to {to_grit} skips too far: the scratches of {from_grit} stay."
    if ratio < _SMALLEST_STEP:
        return "too small", f"{from_grit} to {to_grit} hardly changes anything: one of them can go."
    return "good", f"{from_grit} to {to_grit} is a good step."
