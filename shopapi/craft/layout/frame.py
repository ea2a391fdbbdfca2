"""The problem as the search sees it: kerf grown into every size, flaws clipped, strips and clear stretches listed.

Every part grows by one kerf in x and y, and so does the trimmed board; a flaw loses a kerf at its low-x and low-y
side. After that the kerf is nought everywhere: parts, strips and sections simply touch.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from shopapi.craft.layout.model import Flaw, Problem, Stock
from shopapi.craft.layout.pins import NO_PINS, BoardPins, Spans, pins_of

Ints = NDArray[np.int32]
CLASS_OF = {"both": 0, "one": 1, "none": 2}
BOTH_SHOW, A_SHOWS, B_SHOWS, BLOCKED = 3, 1, 2, 4


@dataclass(frozen=True)
class Item:
    """A wanted part in one orientation, at its grown size; `row` is the place of its width among all widths."""

    part: int
    length: int
    width: int
    row: int
    strictness: int
    turned: bool


@dataclass(frozen=True)
class Strips:
    """Every useful strip of a board and the clear stretches of every kind of strip.

    strips: rows of (lower point, upper point, kind, y, width row), sorted by upper point; ends_ptr: where each
    point's strips begin. Stretches of kind k: seg_ptr[k]:seg_ptr[k + 1] in seg_from, seg_to, seg_row.
    """

    strips: Ints
    ends_ptr: Ints
    seg_ptr: Ints
    seg_from: Ints
    seg_to: Ints
    seg_row: Ints

    @property
    def arrays(self) -> tuple[Ints, ...]:
        """The arrays in the order in which the search takes them."""
        return self.seg_ptr, self.seg_from, self.seg_to, self.seg_row, self.strips, self.ends_ptr

    def window(self, x0: int, x1: int) -> Strips:
        """The strips of the piece [x0, x1) of the board, counted from x0."""
        start, end = np.maximum(self.seg_from, x0), np.minimum(self.seg_to, x1)
        kept = end > start
        before = np.concatenate([[0], np.cumsum(kept)])
        return Strips(
            self.strips,
            self.ends_ptr,
            before[self.seg_ptr].astype(np.int32),
            (start[kept] - x0).astype(np.int32),
            (end[kept] - x0).astype(np.int32),
            self.seg_row[kept],
        )


@dataclass(frozen=True)
class Grown:
    """A board after trims and growth: its extent and its flaws as rows (x0, x1, y0, y1, what they block).

    Pinned pieces are flaws too, and forbid some strips and crosscuts besides.
    """

    length: int
    width: int
    flaws: Ints
    pins: BoardPins = NO_PINS

    @cached_property
    def clear_area(self) -> int:
        """Area that no flaw blocks for every part; where flaws overlap they count once. [mm2]"""
        flaws = self.flaws[self.flaws[:, 4] >= BLOCKED]
        area = self.length * self.width
        for a, b in pairwise(sorted({int(x) for x in flaws[:, :2].ravel()})):
            top = 0
            for _, _, y0, y1, _ in sorted(flaws[(flaws[:, 0] < b) & (flaws[:, 1] > a)].tolist(), key=lambda f: f[2]):
                area -= (b - a) * max(0, y1 - max(y0, top))
                top = max(top, y1)
        return area


class Frame:
    """One problem, grown. Board and part numbers are places in `problem.stocks` and `problem.wanted`."""

    def __init__(self, problem: Problem) -> None:
        self.problem = problem
        self.rules = problem.rules
        kerf = self.rules.kerf
        strict = {CLASS_OF[w.clean_faces] for w in problem.wanted}
        shapes = []
        for part, wanted in enumerate(problem.wanted):
            sizes = [(wanted.length + kerf, wanted.width + kerf, False)]
            if wanted.any_grain and wanted.length != wanted.width:
                sizes.append((wanted.width + kerf, wanted.length + kerf, True))
            shapes += [(part, CLASS_OF[wanted.clean_faces], *size) for size in sizes]
        self.widths: list[int] = sorted({width for _, _, _, width, _ in shapes})
        place = {width: row for row, width in enumerate(self.widths)}
        items = [Item(part, length, width, place[width], cls, turned) for part, cls, length, width, turned in shapes]
        self.items: list[Item] = sorted(items, key=lambda i: (i.row, i.length, i.part))
        self.quantities: NDArray[np.int64] = np.array([w.quantity for w in problem.wanted], np.int64)
        self.values: NDArray[np.int64] = np.array([w.value for w in problem.wanted], np.int64)
        numbers = {w.id: n for n, w in enumerate(problem.wanted)}
        for pin in problem.pins:
            self.quantities[numbers[pin.wanted]] -= 1
        # a part that is worth nothing is still better cut than not
        self.worths: NDArray[np.float64] = np.maximum(self.values, 0.001)
        self.strictest, self.most_lenient = min(strict), max(strict)
        self.boards: list[Grown] = [self._grown(stock) for stock in problem.stocks]
        self.longest = max([b.length for b in self.boards] + [1])
        self.shortest = min(i.length for i in self.items)
        self._strips: dict[int, Strips] = {}
        # a part that fits on no bare board is not searched for, and no bound counts it
        self.quantities[~self._placeable()] = 0

    def _placeable(self) -> NDArray[np.bool_]:
        """Which parts fit somewhere on a bare board."""
        reach = np.zeros((3, len(self.widths)), np.int32)
        for board in range(len(self.boards)):
            strips = self.strips(board)
            clear = strips.seg_row < self.forbidden_row
            np.maximum.at(reach.reshape(-1), strips.seg_row[clear], (strips.seg_to - strips.seg_from)[clear])
        if not self.exact:
            reach = np.maximum.accumulate(reach[:, ::-1], axis=1)[:, ::-1]
        fits = np.zeros(len(self.quantities), np.bool_)
        for item in self.items:
            fits[item.part] |= bool((reach[: item.strictness + 1, item.row] >= item.length).any())
        return fits

    def _grown(self, stock: Stock) -> Grown:
        rules = self.rules
        length = stock.length - rules.trim_left - rules.trim_right + rules.kerf
        width = stock.width - rules.trim_bottom - rules.trim_top + rules.kerf
        rows = []
        for flaw in stock.flaws:
            what = self._blocking(flaw)
            if what == 0:
                continue
            x1, y1 = flaw.x + flaw.length - rules.trim_left, flaw.y + flaw.width - rules.trim_bottom
            # a flaw narrower than the kerf still parts the pieces beside it: it keeps 1 mm
            x0 = min(flaw.x - rules.trim_left + rules.kerf, x1 - 1)
            y0 = min(flaw.y - rules.trim_bottom + rules.kerf, y1 - 1)
            x0, y0, x1, y1 = max(x0, 0), max(y0, 0), min(x1, length), min(y1, width)
            if x0 < x1 and y0 < y1:
                rows.append((x0, x1, y0, y1, what))
        pins = pins_of(stock, self.problem.pins, rules)
        for pin in pins.pins:
            low, high = (0, width) if pins.alone else (pin.y0, pin.y1)
            rows.append((pin.x0, pin.x1, low, high, BLOCKED))
        flaws = np.array(sorted(set(rows)), np.int32).reshape(-1, 5)
        return Grown(max(length, 0), max(width, 0), flaws, pins)

    def _blocking(self, flaw: Flaw) -> int:
        """What the flaw blocks, given how strict the parts of this problem are; 0 for nothing."""
        if flaw.blocks == "all":
            return BLOCKED
        faces = (A_SHOWS if "A" in flaw.faces else 0) | (B_SHOWS if "B" in flaw.faces else 0)
        if self.strictest == CLASS_OF["none"]:
            return 0
        if self.most_lenient == CLASS_OF["both"] or (self.most_lenient == CLASS_OF["one"] and faces == BOTH_SHOW):
            return BLOCKED
        return faces

    def strips(self, board: int) -> Strips:
        """The useful strips of a board, listed at first use."""
        if board not in self._strips:
            self._strips[board] = list_strips(self.boards[board], self)
        return self._strips[board]

    @property
    def forbidden_row(self) -> int:
        """The table row, after all others, of stretches that no section may hold."""
        return 3 * len(self.widths)

    @cached_property
    def exact(self) -> bool:
        """Whether every part must be as wide as its strip."""
        return self.rules.cut_type == "exact"

    @cached_property
    def shortest_in_row(self) -> NDArray[np.int32]:
        """For every table row (class of parts, width): the least length that fills it."""
        none = np.iinfo(np.int32).max
        least = np.full((3, len(self.widths)), none, np.int32)
        for item in self.items:
            for strictness in range(item.strictness + 1):
                least[strictness, item.row] = min(least[strictness, item.row], item.length)
        if not self.exact:
            least = np.minimum.accumulate(least, axis=1)
        return least.reshape(-1)


def _useful_positions(board: Grown, widths: list[int]) -> tuple[list[int], list[int]]:
    """Strip starts below half the width, and strip ends above it, that lose no layout."""
    half = board.width // 2
    tops = {int(y) for y in board.flaws[:, 3]}
    lows = {int(y) for y in board.flaws[:, 2]}
    starts = {0} | {y for y in tops if y < half}
    for y in range(half):
        if y in starts:
            starts.update(y + w for w in widths if y + w < half)
    ends = {board.width} | {y for y in lows if y > half}
    for y in range(board.width, half, -1):
        if y in ends:
            ends.update(y - w for w in widths if y - w > half)
    return sorted(starts), sorted(ends)


def list_strips(board: Grown, frame: Frame) -> Strips:
    """All useful strips of a board with their clear stretches."""
    widths = frame.widths
    half = board.width // 2
    starts, ends = _useful_positions(board, widths)
    places = [(y, y + w, row) for y in starts for row, w in enumerate(widths) if y + w <= board.width]
    places += [(e - w, e, row) for e in ends for row, w in enumerate(widths) if e - w >= half]
    for pin in board.pins.pins:
        places += [(y, y + w, row) for row, w in enumerate(widths) for y in (pin.y0, pin.y1 - w)]
    places = sorted({place for place in places if place[0] >= 0 and place[1] <= board.width})
    kinds: dict[tuple[tuple[int, int, int], ...], int] = {}
    known: dict[tuple[int, bytes, Spans], list[int]] = {}
    found: list[tuple[int, int, int, int]] = []
    low = np.array([p[0] for p in places], np.int32)[:, None]
    high = np.array([p[1] for p in places], np.int32)[:, None]
    crossed = (board.flaws[None, :, 2] < high) & (board.flaws[None, :, 3] > low)
    blocked = board.flaws[:, :2].tolist() if (board.flaws[:, 4] >= BLOCKED).all() else None
    gaps: dict[bytes, list[tuple[int, int]]] = {}
    for (y, top, row), mask in zip(places, crossed, strict=True):
        forbidden = board.pins.forbids(y, top, exact=frame.exact) if board.pins.pins else ()
        key = (row, mask.tobytes(), forbidden)
        if key not in known:
            numbers = []
            barred = tuple((x0, x1, frame.forbidden_row) for x0, x1 in forbidden)
            if blocked is None:
                ways = clear_stretches(board.flaws[mask], board.length, frame, row)
            else:
                # the usual case, some thirty times as fast
                if key[1] not in gaps:
                    gaps[key[1]] = gaps_between([blocked[n] for n in np.flatnonzero(mask)], board.length)
                least = int(frame.shortest_in_row[row])
                ways = [tuple((a, b, row) for a, b in gaps[key[1]] if b - a >= least)]
            for clear in ways:
                stretches = tuple(sorted(clear + barred))
                if clear:
                    numbers.append(kinds.setdefault(stretches, len(kinds)))
            known[key] = sorted(set(numbers))
        found += [(y, top, kind, row) for kind in known[key]]
    return _packed(board, found, list(kinds))


def gaps_between(spans: list[list[int]], length: int) -> list[tuple[int, int]]:
    """The stretches of [0, length) that no span (from, to) covers; spans are sorted by where they begin."""
    gaps, at = [], 0
    for x0, x1 in spans:
        if x0 > at:
            gaps.append((at, x0))
        at = max(at, x1)
    return [*gaps, (at, length)] if at < length else gaps


def _packed(board: Grown, found: list[tuple[int, int, int, int]], kinds: list) -> Strips:
    points = sorted({0, board.width} | {f[0] for f in found} | {f[1] for f in found})
    point_of = {y: n for n, y in enumerate(points)}
    rows = sorted((point_of[top], point_of[y], kind, y, row) for y, top, kind, row in found)
    strips = np.array([(r[1], r[0], r[2], r[3], r[4]) for r in rows], np.int32).reshape(-1, 5)
    ends_ptr = np.searchsorted(strips[:, 1], np.arange(len(points) + 1)).astype(np.int32)
    flat = np.array([s for kind in kinds for s in kind], np.int32).reshape(-1, 3)
    seg_ptr = np.cumsum([0] + [len(kind) for kind in kinds]).astype(np.int32)
    columns = [np.ascontiguousarray(flat[:, c]) for c in range(3)]
    return Strips(strips, ends_ptr, seg_ptr, *columns)


def clear_stretches(flaws: Ints, length: int, frame: Frame, row: int) -> list[tuple[tuple[int, int, int], ...]]:
    """The stretches (from, to, table row) of a strip that crosses these flaws, in every way worth trying.

    With flaws that only some parts mind there are several ways to part a strip: by what each stretch can bear, or
    looking at one face only, or at neither.
    """
    borders = sorted({0, length} | {int(x) for x in flaws[:, 0]} | {int(x) for x in flaws[:, 1]})
    spans = []
    for a, b in pairwise(borders):
        over = flaws[(flaws[:, 0] < b) & (flaws[:, 1] > a), 4]
        spans.append((a, b, int(np.bitwise_or.reduce(over)) if over.size else 0))
    ways = [lambda what: what]
    if any(0 < what < BLOCKED for _, _, what in spans):
        ways += [lambda what: what | B_SHOWS, lambda what: what | A_SHOWS, lambda what: what | BOTH_SHOW]
    return [_merged(spans, way, frame, row) for way in ways]


def _merged(spans, way, frame: Frame, row: int) -> tuple[tuple[int, int, int], ...]:
    """Neighbouring spans that bear the same, joined; those too short for any part left out."""
    joined: list[list[int]] = []
    for a, b, what in spans:
        bears = way(what) if what < BLOCKED else BLOCKED
        if joined and joined[-1][2] == bears:
            joined[-1][1] = b
        else:
            joined.append([a, b, bears])
    stretches = []
    for a, b, bears in joined:
        if bears >= BLOCKED:
            continue
        strictness = {0: 0, A_SHOWS: 1, B_SHOWS: 1, BOTH_SHOW: 2}[bears]
        table = strictness * len(frame.widths) + row
        if b - a >= frame.shortest_in_row[table]:
            stretches.append((a, b, table))
    return tuple(stretches)
