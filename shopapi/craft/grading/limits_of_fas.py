"""What FAS forbids beside its yield: large knots, long pith, wane and splits, unsound ends."""

import itertools
from collections.abc import Iterator, Sequence

import numpy as np

from shopapi.craft.grading.clear import Box
from shopapi.craft.grading.marking import GradeMark
from shopapi.craft.grading.rules import NOT_SOUND
from shopapi.craft.marks import Line
from shopapi.craft.measures import MM_PER_FOOT, MM_PER_INCH

_MOST_UNSOUND_AT_ENDS = 0.25


def fas_faults(length_mm: float, width_mm: float, measure: int, marks: Sequence[GradeMark]) -> tuple[str, ...]:
    """Why a face cannot be FAS whatever its clear cuttings yield; empty when nothing stands against it.

    length_mm, width_mm: the board [mm]. measure: its surface measure. marks: those seen on the face.
    Source: LUMBER-RULES, FAS: knots to a third of the surface measure in inches, pith to the surface measure in
    inches, wane to half the length along an edge, splits to twice the surface measure or 12 in and not running off
    by more than 1 in 12, ends not over a quarter unsound.
    """
    return (
        *_knots(measure, marks),
        *_pith(measure, marks),
        *_wane(length_mm, width_mm, marks),
        *_splits(measure, marks),
        *_ends(length_mm, width_mm, marks),
    )


def _knots(measure: int, marks: Sequence[GradeMark]) -> Iterator[str]:
    most = measure / 3 * MM_PER_INCH
    largest = max((sum(_size(mark.box)) / 2 for mark in marks if mark.kind in ("knot", "other")), default=0.0)
    if largest > most:
        yield f"a knot or hole of {largest:.0f} mm on average, where {most:.0f} mm is the most"


def _pith(measure: int, marks: Sequence[GradeMark]) -> Iterator[str]:
    total, most = sum(_size(mark.box)[0] for mark in marks if mark.kind == "pith"), measure * MM_PER_INCH
    if total > most:
        yield f"{total:.0f} mm of pith, where {most:.0f} mm is the most"


def _wane(length_mm: float, width_mm: float, marks: Sequence[GradeMark]) -> Iterator[str]:
    boxes = [mark.box for mark in marks if mark.kind == "wane"]
    for edge, own in (
        ("lower", [box for box in boxes if box[1] + box[3] <= width_mm]),
        ("upper", [box for box in boxes if box[1] + box[3] > width_mm]),
    ):
        total = _joined([(max(box[0], 0.0), min(box[2], length_mm)) for box in own])
        if total > length_mm / 2:
            yield f"wane along {total:.0f} mm of the {edge} edge, more than half the length"


def _splits(measure: int, marks: Sequence[GradeMark]) -> Iterator[str]:
    splits = [mark for mark in marks if mark.kind == "split"]
    total, most = sum(_size(mark.box)[0] for mark in splits), max(2 * measure, 12) * MM_PER_INCH
    if total > most:
        yield f"{total:.0f} mm of splits, where {most:.0f} mm is the most"
    for mark in splits:
        if isinstance(mark.shape, Line):
            (x0, y0), (x1, y1) = mark.shape.points[0], mark.shape.points[-1]
            if abs(y1 - y0) * 12 > abs(x1 - x0):
                yield "a split that runs off by more than 1 in 12"


def _ends(length_mm: float, width_mm: float, marks: Sequence[GradeMark]) -> Iterator[str]:
    unsound = [mark.box for mark in marks if mark.kind in NOT_SOUND]
    foot = min(MM_PER_FOOT, length_mm)
    for end, start in (("butt", 0.0), ("far", length_mm - foot)):
        share = _covered((start, 0.0, start + foot, width_mm), unsound) / (foot * width_mm)
        if share > _MOST_UNSOUND_AT_ENDS:
            yield f"{share:.0%} of the {end} end's first foot is unsound, where 25 % is the most"


def _size(box: Box) -> tuple[float, float]:
    return box[2] - box[0], box[3] - box[1]


def _joined(spans: list[tuple[float, float]]) -> float:
    total, reach = 0.0, -np.inf
    for start, end in sorted(spans):
        total += max(0.0, end - max(start, reach))
        reach = max(reach, end)
    return float(total)


def _covered(window: Box, boxes: list[Box]) -> float:
    """Area of the window that the boxes cover together."""
    inside = [
        (max(box[0], window[0]), max(box[1], window[1]), min(box[2], window[2]), min(box[3], window[3]))
        for box in boxes
    ]
    inside = [box for box in inside if box[0] < box[2] and box[1] < box[3]]
    edges = sorted({edge for box in inside for edge in (box[0], box[2])})
    return sum(
        (x1 - x0) * _joined([(box[1], box[3]) for box in inside if box[0] <= x0 and box[2] >= x1])
        for x0, x1 in itertools.pairwise(edges)
    )
