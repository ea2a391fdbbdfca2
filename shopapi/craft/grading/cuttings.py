"""The search for cuttings: at most so many disjoint clear rectangles, each large enough, of a given area together.

Exact. Every cutting lies in a maximal clear box, so the search goes over choices of boxes (a box may be chosen twice)
and, where chosen boxes overlap, over the lines that part them. With all other lines held, the area is linear in one
line, so in some best answer every line stands at a chosen box's edge or a run of least sizes away from one: these are
all that is tried. Two bounds prune: what the chosen boxes and the best others can cover, and what parting leaves.
"""

import itertools
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field

import numpy as np

from shopapi.craft.grading.clear import Box
from shopapi.craft.limits import Numbers

# Least sizes of a cutting: (width, length) pairs, one of which it must reach [mm].
Sizes = tuple[tuple[float, float], ...]

_SLACK = 1e-9


@dataclass(frozen=True)
class Found:
    """Cuttings that reach the area, or none; `proved` is False only where the search gave up before the end."""

    boxes: tuple[Box, ...] | None
    proved: bool


class _GivenUpError(Exception):
    """The step limit was reached."""


@dataclass
class _Search:
    boxes: list[Box]
    most: int
    need: float
    sizes: Sizes
    steps_left: int
    covers: Numbers = field(init=False)
    cells: Numbers = field(init=False)

    def __post_init__(self) -> None:
        xs = np.unique([edge for box in self.boxes for edge in (box[0], box[2])])
        ys = np.unique([edge for box in self.boxes for edge in (box[1], box[3])])
        self.cells = np.outer(np.diff(xs), np.diff(ys)).ravel()
        self.covers = np.array([_cover(box, xs, ys) for box in self.boxes])

    def step(self) -> None:
        self.steps_left -= 1
        if self.steps_left < 0:
            raise _GivenUpError

    def choose(self, chosen: list[int], open_boxes: list[int], free: Numbers, covered: float) -> tuple[Box, ...] | None:
        """Try this choice of boxes, then every larger one from the boxes still open. `free` is the uncovered area."""
        self.step()
        if chosen and (answer := self.part([self.boxes[index] for index in chosen])):
            return answer
        slots = self.most - len(chosen)
        if not slots or not open_boxes:
            return None
        gains = self.covers[open_boxes] @ free
        order = np.argsort(-gains, kind="stable")
        for place, candidate in enumerate(order):
            # No choice from here on covers more than this: gains only shrink as boxes are added.
            if covered + gains[order[place : place + slots]].sum() < self.need:
                return None
            index = open_boxes[candidate]
            # A box may be taken again below this choice, but choices after this one leave it out.
            below = [open_boxes[other] for other in order[place:]]
            left = free * (1 - self.covers[index])
            answer = self.choose([*chosen, index], below, left, covered + float(gains[candidate]))
            if answer:
                return answer
        return None

    def part(self, boxes: list[Box]) -> tuple[Box, ...] | None:
        """Disjoint cuttings inside these boxes, one in each, that reach the area; None when there are none."""
        lines_x = _lines([(box[0], box[2]) for box in boxes], [size[1] for size in self.sizes])
        lines_y = _lines([(box[1], box[3]) for box in boxes], [size[0] for size in self.sizes])
        return self._part(boxes, lines_x, lines_y)

    def _part(self, boxes: list[Box], lines_x: list[float], lines_y: list[float]) -> tuple[Box, ...] | None:
        self.step()
        area = sum(map(_area, boxes))
        worst, pair = 0.0, None
        for i, j in itertools.combinations(range(len(boxes)), 2):
            overlap = _overlap(boxes[i], boxes[j])
            if overlap > worst:
                worst, pair = overlap, (i, j)
        if area - worst < self.need:
            return None
        if pair is None:
            return tuple(boxes)
        i, j = pair
        rest = area - _area(boxes[i]) - _area(boxes[j])
        ways = [
            (_area(a) + _area(b), a, b)
            for a, b in _partings(boxes[i], boxes[j], lines_x, lines_y)
            if self.large_enough(a) and self.large_enough(b)
        ]
        for both, a, b in sorted(ways, reverse=True):
            if rest + both < self.need:
                return None
            parted = boxes.copy()
            parted[i], parted[j] = a, b
            if answer := self._part(parted, lines_x, lines_y):
                return answer
        return None

    def large_enough(self, box: Box) -> bool:
        length, width = box[2] - box[0] + _SLACK, box[3] - box[1] + _SLACK
        return any(width >= least_width and length >= least_length for least_width, least_length in self.sizes)


def find_cuttings(boxes: Sequence[Box], most: int, need_mm2: float, sizes: Sizes, steps: int = 20_000) -> Found:
    """At most `most` disjoint rectangles inside the clear boxes, each of a least size, with `need_mm2` together.

    boxes: maximal clear boxes [mm]. most: number of cuttings allowed, 0 or more. need_mm2: area to reach [mm2].
    sizes: least (width, length) pairs [mm]. steps: where the search gives up; `proved` then is False.
    Source: OWN, exact search told at the head of this module; the tests compare it with brute force.

    >>> find_cuttings([(0, 0, 100, 10)], 1, 1000.0, ((2, 5),)).boxes
    ((0, 0, 100, 10),)
    """
    search = _Search([], most, need_mm2 - max(_SLACK, need_mm2 * _SLACK), sizes, steps)
    search.boxes = [box for box in boxes if search.large_enough(box)]
    if not search.boxes or most < 1:
        return Found(None, proved=True)
    search.__post_init__()
    everything = list(range(len(search.boxes)))
    if float(search.cells[search.covers.any(axis=0)].sum()) < search.need:
        return Found(None, proved=True)
    try:
        return Found(search.choose([], everything, search.cells, 0.0), proved=True)
    except _GivenUpError:
        return Found(None, proved=False)


def _area(box: Box) -> float:
    return (box[2] - box[0]) * (box[3] - box[1])


def _overlap(a: Box, b: Box) -> float:
    length = min(a[2], b[2]) - max(a[0], b[0])
    width = min(a[3], b[3]) - max(a[1], b[1])
    return length * width if length > _SLACK and width > _SLACK else 0.0


def _cover(box: Box, xs: Numbers, ys: Numbers) -> Numbers:
    along = (xs[:-1] >= box[0]) & (xs[1:] <= box[2])
    across = (ys[:-1] >= box[1]) & (ys[1:] <= box[3])
    return np.outer(along, across).ravel().astype(np.float64)


def _lines(spans: list[tuple[float, float]], least: list[float]) -> list[float]:
    """Where a parting line may stand: at a box's edge, or a run of least sizes inwards from one."""
    edges = {edge for span in spans for edge in span}
    low, high = min(edges), max(edges)
    lines = set(edges)
    runs = {0.0}
    for _ in range(len(spans) - 1):
        runs |= {run + size for run in runs for size in least if run + size < high - low}
        lines |= {edge + sign * run for edge in edges for run in runs for sign in (1, -1)}
    return sorted(line for line in lines if low < line < high)


def _partings(a: Box, b: Box, lines_x: list[float], lines_y: list[float]) -> Iterator[tuple[Box, Box]]:
    """Both boxes cut apart at every line, in all four ways: a before b, b before a, a below b, b below a."""
    for first, second, swapped in ((a, b, False), (b, a, True)):
        for line in lines_x:
            if second[0] <= line <= first[2] and first[0] < line < second[2]:
                cut = (first[0], first[1], line, first[3]), (line, second[1], second[2], second[3])
                yield cut[::-1] if swapped else cut
        for line in lines_y:
            if second[1] <= line <= first[3] and first[1] < line < second[3]:
                cut = (first[0], first[1], first[2], line), (second[0], line, second[2], second[3])
                yield cut[::-1] if swapped else cut
