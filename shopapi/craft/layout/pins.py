"""Pieces whose places are given: what they forbid to the strips and sections around them, in grown millimetres."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import combinations

from shopapi.craft.layout.cut_tree import freed_from_one_section
from shopapi.craft.layout.legality import check
from shopapi.craft.layout.model import LayoutError, Placement, Problem, Rules, Stock

Spans = tuple[tuple[int, int], ...]


@dataclass(frozen=True)
class GrownPin:
    """A pinned piece grown by a kerf, as the search sees it. [mm]"""

    x0: int
    x1: int
    y0: int
    y1: int


@dataclass(frozen=True)
class BoardPins:
    """The pins of one board. `alone` says that no section may hold one: their whole width of the board is left out."""

    pins: tuple[GrownPin, ...] = ()
    alone: bool = False

    def gaps(self, length: int) -> Spans:
        """The ranges (first, last) of places along the board where a section may begin or end."""
        gaps, start = [], 0
        for x0, x1 in self.spans:
            gaps.append((start, x0))
            start = x1
        return (*gaps, (start, length))

    @property
    def spans(self) -> Spans:
        """The stretches of the board that hold pins and that no crosscut of the whole width may part."""
        return merged([(pin.x0, pin.x1) for pin in self.pins])

    def forbids(self, y: int, top: int, *, exact: bool) -> Spans:
        """The stretches along the board that a strip [y, top) may not run past.

        A strip may pass a pin beside it or hold it whole; it may not hold two that no crosscut of the strip parts.
        """
        if self.alone:
            return ()
        across = [pin for pin in self.pins if pin.y0 < top and pin.y1 > y]
        wrong = [pin for pin in across if pin.y0 < y or pin.y1 > top or (exact and (pin.y0, pin.y1) != (y, top))]
        for a, b in combinations(across, 2):
            if a.x0 < b.x1 and b.x0 < a.x1:
                wrong += [a, b]
        return merged([(pin.x0, pin.x1) for pin in wrong])


NO_PINS = BoardPins()


def merged(spans: Sequence[tuple[int, int]]) -> Spans:
    """The same ranges with those that overlap joined, in order; those that touch stay apart."""
    joined: list[tuple[int, int]] = []
    for low, high in sorted(spans):
        if joined and low < joined[-1][1]:
            joined[-1] = joined[-1][0], max(joined[-1][1], high)
        else:
            joined.append((low, high))
    return tuple(joined)


def pins_of(stock: Stock, pins: Sequence[Placement], rules: Rules) -> BoardPins:
    """The pins of a board as its search sees them."""
    here = [pin for pin in pins if pin.stock == stock.id]
    if not here:
        return NO_PINS
    grown = tuple(
        GrownPin(
            pin.x - rules.trim_left,
            pin.x - rules.trim_left + pin.length + rules.kerf,
            pin.y - rules.trim_bottom,
            pin.y - rules.trim_bottom + pin.width + rules.kerf,
        )
        for pin in here
    )
    return BoardPins(grown, alone=not freed_from_one_section(stock, here, rules))


def refuse_contradictions(problem: Problem) -> None:
    """Raises LayoutError, in a maker's words, when the pins cannot all be kept."""
    if problem.pins and (problem.rules.stages != 3 or problem.rules.first_cut != "crosscut"):
        raise LayoutError("Pinned pieces can stay only where boards are cut by crosscut, rip, crosscut.")
    said = []
    for illegal in check(problem, problem.pins):
        words = f"Board {illegal.stock}, the pinned piece of {illegal.wanted}: {illegal.words}"
        if words not in said:
            said.append(words)
    if said:
        more = f" And {len(said) - 3} more." if len(said) > 3 else ""
        raise LayoutError(f"The pinned pieces cannot all stay. {' '.join(said[:3])}{more} Move or release them.")
