"""The search for cuttings: at most so many disjoint clear rectangles, each large enough, of a given area together.

Exact. Every cutting lies in a maximal clear box, so the search goes over choices of boxes (a box may be chosen twice)
and, where chosen boxes overlap, over the lines that part them. With all other lines held, the area is linear in one
line, so in some best answer every line stands at a chosen box's edge or a run of least sizes away from one: these are
all that is tried. Bounds prune: what the chosen boxes and the best others can cover, and what parting leaves.
"""

import itertools
from bisect import bisect_left, bisect_right
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
        self.step()
        area = sum(map(_area, boxes))
        losses = [
            (loss, i, j)
            for i, j in itertools.combinations(range(len(boxes)), 2)
            if (loss := _parting_loss(boxes[i], boxes[j])) > 0
        ]
        losses.sort(reverse=True)
        if area - _sure_loss(losses) < self.need:
            return None
        if not losses:
            return tuple(boxes)
        if _union(boxes) < self.need:
            return None
        _, i, j = losses[0]
        least = self.need - (area - _area(boxes[i]) - _area(boxes[j]))
        lines_x, lines_y = self._lines([boxes[index] for index in _together(losses)])
        ways = [
            (both, a, b)
            for a, b in _partings(boxes[i], boxes[j], lines_x, lines_y)
            if (both := _area(a) + _area(b)) >= least and self.large_enough(a) and self.large_enough(b)
        ]
        for _, a, b in sorted(ways, reverse=True):
            parted = boxes.copy()
            parted[i], parted[j] = a, b
            if answer := self.part(parted):
                return answer
        return None

    def _lines(self, boxes: list[Box]) -> tuple[list[float], list[float]]:
        return (
            _lines([(box[0], box[2]) for box in boxes], [size[1] for size in self.sizes]),
            _lines([(box[1], box[3]) for box in boxes], [size[0] for size in self.sizes]),
        )

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


def _parting_loss(a: Box, b: Box) -> float:
    """The least area lost when these two are cut apart in the best of the four ways, whatever their least sizes."""
    length, width = min(a[2] - b[0], b[2] - a[0]), min(a[3] - b[1], b[3] - a[1])
    if length <= _SLACK or width <= _SLACK:
        return 0.0
    return min(length * min(a[3] - a[1], b[3] - b[1]), width * min(a[2] - a[0], b[2] - b[0]))


def _together(losses: list[tuple[float, int, int]]) -> set[int]:
    """The boxes that hang together with the first pair through overlaps: only their lines can bear on each other."""
    linked = set(losses[0][1:])
    grown = True
    while grown:
        grown = False
        for _, i, j in losses:
            if (i in linked) != (j in linked):
                linked |= {i, j}
                grown = True
    return linked


def _union(boxes: list[Box]) -> float:
    """Area that the boxes cover together."""
    if not boxes:
        return 0.0
    first, rest = boxes[0], boxes[1:]
    inside = [
        (max(first[0], box[0]), max(first[1], box[1]), min(first[2], box[2]), min(first[3], box[3])) for box in rest
    ]
    return _area(first) + _union(rest) - _union([box for box in inside if box[0] < box[2] and box[1] < box[3]])


def _sure_loss(losses: list[tuple[float, int, int]]) -> float:
    """Losses of pairs that share no box add up; the greatest are taken first."""
    total, paired = 0.0, set[int]()
    for loss, i, j in losses:
        if i not in paired and j not in paired:
            total += loss
            paired |= {i, j}
    return total


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


def _between(lines: list[float], low: float, high: float) -> list[float]:
    return lines[bisect_left(lines, low) : bisect_right(lines, high)]


def _partings(a: Box, b: Box, lines_x: list[float], lines_y: list[float]) -> Iterator[tuple[Box, Box]]:
    """Both boxes cut apart at every line, in all four ways: a before b, b before a, a below b, b below a."""
    for first, second, swapped in ((a, b, False), (b, a, True)):
        for line in _between(lines_x, max(second[0], first[0]), min(first[2], second[2])):
            if first[0] < line < second[2]:
                cut = (first[0], first[1], line, first[3]), (line, second[1], second[2], second[3])
                yield cut[::-1] if swapped else cut
        for line in _between(lines_y, max(second[1], first[1]), min(first[3], second[3])):
            if first[1] < line < second[3]:
                cut = (first[0], first[1], first[2], line), (second[0], line, second[2], second[3])
                yield cut[::-1] if swapped else cut
