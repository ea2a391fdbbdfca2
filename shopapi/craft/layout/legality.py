"""Whether a layout made by hand can be cut: every piece that breaks a rule, which rule, and in what words."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import combinations
from typing import Literal

from shopapi.craft.layout.cut_tree import Stuck, board_tree, cuts_in_words
from shopapi.craft.layout.model import CleanFaces, Flaw, Panel, Placement, Problem, Rules, Stock, Wanted
from shopapi.craft.layout.reasons import millimetres

Why = Literal[
    "unknown_board", "unknown_part", "wrong_size", "outside", "on_mark", "overlap", "no_kerf", "not_sawable", "too_many"
]
Say = Callable[[int], str]


@dataclass(frozen=True)
class Illegal:
    """One rule that one piece breaks.

    `piece` is its place among the placements that were checked, `stock` and `wanted` its board and part; `others` are
    the places of the pieces that it breaks the rule with; `flaw` is the mark that it lies on; `words` say it to the
    maker, without naming the piece.
    """

    piece: int
    stock: str
    wanted: str
    why: Why
    words: str
    others: tuple[int, ...] = ()
    flaw: Flaw | None = None


def check(problem: Problem, placements: Sequence[Placement], say: Say = millimetres) -> list[Illegal]:
    """All that keeps these pieces from being cut as they lie; empty for a layout that can be cut.

    placements: pieces by hand, in any order; pins of the problem must be among them to be judged. say: prints a
    length [mm] for the reader. A piece that breaks several rules is named for each.
    Source: OWN, from the definition of a layout: inside the trimmed board, off the marks that it minds, a saw cut
    between any two pieces, no more than wanted, freed by the turns of cutting that the rules allow.
    """
    stocks = {stock.id: stock for stock in problem.stocks}
    wanted: dict[str, Wanted | Panel] = {w.id: w for w in problem.parts}
    found: list[Illegal] = []

    def tell(piece: int, why: Why, words: str, others: tuple[int, ...] = (), flaw: Flaw | None = None) -> None:
        found.append(Illegal(piece, placements[piece].stock, placements[piece].wanted, why, words, others, flaw))

    by_board: dict[str, list[int]] = {}
    for piece, placed in enumerate(placements):
        stock, part = stocks.get(placed.stock), wanted.get(placed.wanted)
        if part is None:
            tell(piece, "unknown_part", "This part is not in this layout.")
        elif words := _wrong_size(placed, part, say):
            tell(piece, "wrong_size", words)
        if stock is None:
            tell(piece, "unknown_board", "This board is not in this layout.")
            continue
        by_board.setdefault(placed.stock, []).append(piece)
        if words := _outside(placed, stock, problem.rules, say):
            tell(piece, "outside", words)
        for flaw in marks_under(placed, stock, part.clean_faces if part else "both"):
            tell(piece, "on_mark", _on_mark(flaw), flaw=flaw)
    for numbers in by_board.values():
        apart = True
        for piece, other in combinations(numbers, 2):
            gap = gap_between(placements[piece], placements[other])
            if gap >= problem.rules.kerf:
                continue
            apart = False
            if gap < 0:
                why: Why = "overlap"
                words = "It lies over another piece."
            else:
                why, words = (
                    "no_kerf",
                    f"Only {say(gap)} to the piece beside it: a cut takes {say(problem.rules.kerf)}.",
                )
            tell(piece, why, words, (other,))
            tell(other, why, words, (piece,))
        if apart:
            _tell_stuck(problem, placements, numbers, stocks, tell)
    counts = Counter(placed.wanted for placed in placements)
    for part in problem.wanted:
        if (over := counts[part.id] - part.quantity) > 0:
            pieces = [n for n, placed in enumerate(placements) if placed.wanted == part.id]
            for piece in pieces[-over:]:
                tell(piece, "too_many", f"{counts[part.id]} pieces are placed, {part.quantity} are wanted.")
    for panel in problem.panels:
        strips = [n for n, placed in enumerate(placements) if placed.wanted == panel.id]
        missing = panel.width * panel.count
        for piece in strips:
            if missing <= 0:
                tell(piece, "too_many", "The other strips make up the panel already.")
            missing -= placements[piece].width - panel.strip_loss
    return found


def _tell_stuck(problem: Problem, placements: Sequence[Placement], numbers: list[int], stocks, tell) -> None:
    """Name the pieces of one board that the cuts allowed do not free."""
    pieces = [placements[n] for n in numbers]
    tree = board_tree(stocks[pieces[0].stock], pieces, problem.rules)
    if not isinstance(tree, Stuck):
        return
    stuck = [n for n in numbers if placements[n] in tree.placements]
    for piece in stuck:
        if len(stuck) > 1:
            words = "No cut from edge to edge parts it from the pieces beside it"
        else:
            words = "It is not as wide as the strip that it is cut from"
        others = tuple(n for n in stuck if n != piece)
        tell(piece, "not_sawable", f"{words}: boards are cut by {cuts_in_words(problem.rules)}.", others)


def gap_between(a: Placement, b: Placement) -> int:
    """The widest straight gap between two pieces, along or across [mm]; below nought if they lie over one another."""
    return max(a.x - b.x - b.length, b.x - a.x - a.length, a.y - b.y - b.width, b.y - a.y - a.width)


def marks_under(placed: Placement, stock: Stock, clean_faces: CleanFaces) -> list[Flaw]:
    """The marks below a piece that it minds; a piece of which one face is seen minds those of the face it names."""
    return [
        flaw
        for flaw in stock.flaws
        if placed.x < flaw.x + flaw.length
        and flaw.x < placed.x + placed.length
        and placed.y < flaw.y + flaw.width
        and flaw.y < placed.y + placed.width
        and (flaw.blocks == "all" or clean_faces == "both" or (clean_faces == "one" and placed.face in flaw.faces))
    ]


def _on_mark(flaw: Flaw) -> str:
    if flaw.blocks == "all":
        return "It lies on a mark that no part may hold."
    return "Its seen face would show a mark."


def _outside(placed: Placement, stock: Stock, rules: Rules, say: Say) -> str:
    """How far a piece reaches over the board or into its trims, in words; empty if it does not."""
    left, right = rules.trim_left, stock.length - rules.trim_right
    lower, upper = rules.trim_bottom, stock.width - rules.trim_top
    over = {
        "butt end": (left - placed.x, rules.trim_left),
        "far end": (placed.x + placed.length - right, rules.trim_right),
        "lower edge": (lower - placed.y, rules.trim_bottom),
        "upper edge": (placed.y + placed.width - upper, rules.trim_top),
    }
    said = [
        f"{say(much)} over the {side}" if much > trim else f"{say(much)} into the {say(trim)} trimmed off the {side}"
        for side, (much, trim) in over.items()
        if much > 0
    ]
    return f"It reaches {' and '.join(said)}." if said else ""


def _wrong_size(placed: Placement, part: Wanted | Panel, say: Say) -> str:
    """What is wrong with a piece's size, in words; empty if it is right."""
    size = f"{say(placed.length)} × {say(placed.width)}"
    if isinstance(part, Panel):
        if placed.length == part.length and part.strip_least <= placed.width <= part.strip_most:
            return ""
        widths = f"{say(part.strip_least)} to {say(part.strip_most)}"
        return f"It is {size}; a strip of this panel is {say(part.length)} long and {widths} wide."
    if (placed.length, placed.width) == (part.length, part.width):
        return ""
    if (placed.width, placed.length) == (part.length, part.width):
        return "" if part.any_grain else "It lies across the grain; this part must run along it."
    return f"It is {size}; this part is cut {say(part.length)} × {say(part.width)}."
