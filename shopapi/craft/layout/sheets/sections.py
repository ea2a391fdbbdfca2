"""Sections of a two-stage sheet: crosscut, then ripped into single parts, which a last crosscut may bring to length."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from shopapi.craft.layout.frame import BLOCKED, BOTH_SHOW, Frame

Floats = NDArray[np.float64]
MOST_POSITIONS = 160
TINY = 1e-9


@dataclass(frozen=True)
class Section:
    """What one section holds: `places` are (item, x, y) on a board of its own place, x counted from x0."""

    board: int
    x0: int
    length: int
    places: tuple[tuple[int, int, int], ...]


@dataclass(frozen=True)
class Slot:
    """A section's shape: where it may lie and what may lie in it.

    offers: per strip start, (item, x, strip end); ordered by start. A slot of a clear board lies anywhere (x0 is 0)
    and its parts may come in any order, so each item is offered once, at the bottom.
    """

    board: int
    x0: int
    length: int
    clear: bool
    offers: tuple[tuple[int, int, int, int], ...]


def positions(start_points: set[int], sizes: list[int], end: int, most: int) -> tuple[list[int], bool]:
    """Where pieces pushed towards nought can begin or end, and whether these are all: at most `most` are given."""
    found = {p for p in start_points if p <= end}
    for p in range(end + 1):
        if p in found:
            found.update(p + s for s in sizes if p + s <= end)
    every = sorted(found)
    if len(every) <= most:
        return every, True
    kept = {every[n * (len(every) - 1) // (most - 1)] for n in range(most)}
    return sorted(kept | {p for p in start_points if p <= end}), False


def bears(frame: Frame, item: int, what: int) -> bool:
    """Whether a part may lie where flaws block `what` (as joined bits)."""
    strictness = frame.items[item].strictness
    return what < BLOCKED and (what == 0 or strictness == 2 or (strictness == 1 and what != BOTH_SHOW))


def place_in(frame: Frame, board: int, item: int, x0: int, x1: int, y: int) -> int | None:
    """The first x in [x0, x1) at which the item lies clear with its lower edge at y."""
    length, top = frame.items[item].length, y + frame.items[item].width
    flaws = frame.boards[board].flaws
    beside = flaws[(flaws[:, 2] < top) & (flaws[:, 3] > y)]
    for x in [x0, *sorted(int(e) for e in beside[:, 1] if e > x0)]:
        if x + length > x1:
            return None
        over = beside[(beside[:, 0] < x + length) & (beside[:, 1] > x), 4]
        if bears(frame, item, int(np.bitwise_or.reduce(over)) if over.size else 0):
            return x
    return None


def slots_of(frame: Frame, board: int) -> tuple[list[Slot], bool]:
    """Every shape of section of a board that is worth trying, and whether none is missing."""
    grown = frame.boards[board]
    usable = [
        n
        for n, item in enumerate(frame.items)
        if item.length <= grown.length and item.width <= grown.width and frame.quantities[item.part]
    ]
    lengths = sorted({frame.items[n].length for n in usable})
    slots: list[Slot] = []
    if not len(grown.flaws):
        for length in lengths:
            fit = [n for n in usable if _may_lie(frame, n, length)]
            offers = tuple((0, n, 0, frame.items[n].width) for n in sorted(fit, key=lambda n: -frame.items[n].width))
            slots.append(Slot(board, 0, length, clear=True, offers=offers))
        return slots, True
    xs, all_x = positions({0} | {int(x) for x in grown.flaws[:, 1]}, lengths, grown.length, MOST_POSITIONS)
    widths = sorted({frame.items[n].width for n in usable})
    ys, all_y = positions({0} | {int(y) for y in grown.flaws[:, 3]}, widths, grown.width, MOST_POSITIONS)
    for x0 in xs:
        for x1 in xs:
            if x1 - x0 < frame.shortest:
                continue
            fit = [n for n in usable if _may_lie(frame, n, x1 - x0)]
            places = ((y, n, place_in(frame, board, n, x0, x1, y)) for y in ys for n in fit)
            offers = tuple(
                (y, n, x - x0, y + frame.items[n].width)
                for y, n, x in places
                if x is not None and y + frame.items[n].width <= grown.width
            )
            # a shorter section with the same offers is as good
            if any(x + frame.items[n].length == x1 - x0 for _, n, x, _ in offers):
                slots.append(Slot(board, x0, x1 - x0, clear=False, offers=offers))
    return slots, all_x and all_y


def _may_lie(frame: Frame, item: int, length: int) -> bool:
    return frame.items[item].length == length if frame.exact else frame.items[item].length <= length


class SlotSearch:
    """Best and near-best contents of a slot at given net worths of the items."""

    def __init__(self, frame: Frame, slot: Slot, net: Floats) -> None:
        self.frame, self.slot = frame, slot
        self.width = frame.boards[slot.board].width
        offers = [o for o in slot.offers if net[o[1]] > -TINY] if slot.clear else list(slot.offers)
        self.offers = offers
        self.net = net
        self.limits = [
            min(int(frame.quantities[frame.items[o[1]].part]), self.width // frame.items[o[1]].width) for o in offers
        ]
        self.suffix = self._clear_suffix() if slot.clear else self._placed_suffix()

    def _clear_suffix(self) -> Floats:
        """suffix[n, room]: best net worth of offers n.. in a strip room of that width."""
        table = np.zeros((len(self.offers) + 1, self.width + 1))
        for n in range(len(self.offers) - 1, -1, -1):
            item = self.offers[n][1]
            size = self.frame.items[item].width
            table[n] = table[n + 1]
            for many in range(1, self.limits[n] + 1):
                used = many * size
                np.maximum(
                    table[n, used:], table[n + 1, : self.width + 1 - used] + many * self.net[item], out=table[n, used:]
                )
        return table

    def _placed_suffix(self) -> Floats:
        """suffix[y]: best net worth of strips that begin at y or above it."""
        table = np.zeros(self.width + 2)
        offers = sorted(self.offers, reverse=True)
        at = 0
        for y in range(self.width, -1, -1):
            table[y] = table[y + 1]
            while at < len(offers) and offers[at][0] == y:
                _, item, _, top = offers[at]
                table[y] = max(table[y], table[top] + self.net[item])
                at += 1
        return table

    @property
    def best(self) -> float:
        """The best net worth of the slot; quantities are heeded per item on a clear board, else not."""
        return float(self.suffix[0, self.width] if self.slot.clear else self.suffix[0])

    def contents(self, need: float) -> Iterator[Section | None]:
        """Every content worth at least `need`, best first by and large; None now and then, for a look at the clock."""
        return self._clear_contents(need) if self.slot.clear else self._placed_contents(need)

    def _clear_contents(self, need: float) -> Iterator[Section | None]:
        items, slot = self.frame.items, self.slot
        stack: list[tuple[int, int, float, tuple[int, ...]]] = [(0, self.width, 0.0, ())]
        while stack:
            n, room, worth, taken = stack.pop()
            if worth + self.suffix[n, room] < need - TINY:
                continue
            if n == len(self.offers):
                if any(items[item].length == slot.length for item in taken):
                    yield self._stacked(taken)
                continue
            item = self.offers[n][1]
            for many in range(min(self.limits[n], room // items[item].width) + 1):
                left = room - many * items[item].width
                stack.append((n + 1, left, worth + many * self.net[item], taken + (item,) * many))
            yield None

    def _stacked(self, taken: tuple[int, ...]) -> Section:
        y, places = 0, []
        for item in taken:
            places.append((item, 0, y))
            y += self.frame.items[item].width
        return Section(self.slot.board, self.slot.x0, self.slot.length, tuple(places))

    def _placed_contents(self, need: float) -> Iterator[Section | None]:
        slot = self.slot
        by_start: dict[int, list[tuple[int, int, int]]] = {}
        for y, item, x, top in self.offers:
            by_start.setdefault(y, []).append((item, x, top))
        starts = sorted(by_start)
        seen: set[tuple[int, tuple[int, ...]]] = set()
        stack: list[tuple[int, float, tuple[tuple[int, int, int], ...]]] = [(0, 0.0, ())]
        while stack:
            y, worth, places = stack.pop()
            if worth + self.suffix[y] < need - TINY:
                continue
            known = (y, tuple(sorted(p[0] for p in places)))
            if known in seen:
                continue
            seen.add(known)
            start = next((s for s in starts if s >= y), None)
            if start is None:
                if places:
                    yield Section(slot.board, slot.x0, slot.length, places)
                continue
            stack.append((start + 1, worth, places))
            for item, x, top in by_start[start]:
                stack.append((top, worth + self.net[item], (*places, (item, x, start))))
            yield None
