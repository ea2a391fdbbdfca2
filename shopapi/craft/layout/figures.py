"""What a layout comes to: wood used, leftovers, and the purchase that would place what found no place."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from shopapi.craft.layout.model import Answer, CutTree, LayoutError, Panel, Problem


@dataclass(frozen=True)
class Leftover:
    """A rectangle that the cuts leave of a board, marks and all: lower left corner and size. [mm]"""

    stock: str
    x: int
    y: int
    length: int
    width: int

    @property
    def area(self) -> int:
        """[mm2]"""
        return self.length * self.width


@dataclass(frozen=True)
class Figures:
    """A layout in figures: areas [mm2] of the pieces and of the boards cut, and the leftovers, largest first."""

    pieces: int
    unplaced: int
    boards_used: int
    wood_used_mm2: int
    board_mm2: int
    leftovers: tuple[Leftover, ...]


@dataclass(frozen=True)
class Purchase:
    """The least wood to buy: rough area [mm2], and the clear stretch that its boards must have at least. [mm]"""

    area_mm2: int
    least_clear_length: int
    least_clear_width: int


def leftovers_of(problem: Problem, answer: Answer) -> tuple[Leftover, ...]:
    """The rectangles that the cut trees leave of the boards that are cut, largest first.

    Boards that are not cut are no leftovers. End trims are part of the leftover beside them.
    Source: OWN, the leaves of the cut trees that carry no part.
    """
    ids = {stock.id for stock in problem.stocks}
    found = [
        Leftover(stock, leaf["x"], leaf["y"], leaf["length"], leaf["width"])
        for stock, tree in answer.cuts.items()
        if stock in ids
        for leaf in _leaves(tree)
        if leaf["part"] is None and leaf["length"] > 0 and leaf["width"] > 0
    ]
    return tuple(sorted(found, key=lambda left: (-left.area, left.stock, left.x, left.y)))


def _leaves(node: CutTree) -> Iterator[CutTree]:
    if "cut" not in node:
        yield node
        return
    for piece in node["pieces"]:
        yield from _leaves(piece)


def figures_of(problem: Problem, answer: Answer) -> Figures:
    """The layout in figures. Source: OWN, sums of areas and counts."""
    areas = {stock.id: stock.length * stock.width for stock in problem.stocks}
    return Figures(
        pieces=len(answer.placements),
        unplaced=sum(unplaced.count for unplaced in answer.unplaced),
        boards_used=len(answer.cuts),
        wood_used_mm2=sum(placed.length * placed.width for placed in answer.placements),
        board_mm2=sum(areas[stock] for stock in answer.cuts),
        leftovers=leftovers_of(problem, answer),
    )


def purchase_for(problem: Problem, wanted: str, count: int, *, waste_share: float = 0.0) -> Purchase:
    """The smallest purchase that would place so many pieces of a part, or so many panels.

    wanted: id of the part or panel; count: pieces lacking, at least 1; waste_share: the share of bought wood that is
    lost to marks and bad edges, from 0 to below 1, besides kerfs and trims. Boards are reckoned as long as the longest
    in the problem, or as one piece where that is longer, and as wide as one row of pieces; a panel is made of the
    fewest strips. Raises LayoutError for a part that is not in the problem, or a count or share that is none.
    Source: OWN, areas of rows of pieces with kerfs and trims; that bought boards are as long as those in the rack is
    our own choice.
    """
    if count < 1:
        raise LayoutError(f"A purchase is for at least 1 piece, not {count}.")
    if not 0 <= waste_share < 1:
        raise LayoutError(f"The share of waste must be from 0 to below 1, not {waste_share}.")
    parts = {part.id: part for part in problem.parts}
    if wanted not in parts:
        raise LayoutError(f"Part {wanted} is not in this layout.")
    part = parts[wanted]
    length, width = part.length, part.width
    if isinstance(part, Panel):
        strips = part.strip_counts[0]
        width = part.strip(strips).width
        count *= strips
    elif part.any_grain:
        length, width = max(length, width), min(length, width)
    rules = problem.rules
    trims, kerf = rules.trim_left + rules.trim_right, rules.kerf
    longest = max(stock.length for stock in problem.stocks)
    in_a_row = max(1, (longest - trims + kerf) // (length + kerf))
    full, rest = divmod(count, in_a_row)
    rows = [in_a_row] * full + ([rest] if rest else [])
    # every row but the last loses a kerf to the rip beside it
    across = width + kerf + rules.trim_bottom + rules.trim_top
    area = sum((trims + many * (length + kerf) - kerf) * across for many in rows)
    return Purchase(int(-(-area // (1 - waste_share))), length, width)
