"""The tree of cuts that frees given pieces from a board, worked out from where they lie."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from shopapi.craft.layout.model import CutTree, LayoutError, Placement, Problem, Rules, Stock

MANY_TURNS = 64  # where one may cut in as many turns as one likes
CUT_OF_AXIS = {0: "crosscut", 1: "rip"}


@dataclass(frozen=True)
class Span:
    """A stretch [low, high) of a piece along the axis that is cut, with what comes out of it."""

    low: int
    high: int
    node: CutTree


def offcut(x: int, y: int, length: int, width: int) -> CutTree:
    """A leaf that carries no part."""
    return {"x": x, "y": y, "length": length, "width": width, "part": None}


def sliced(node: CutTree, cut: str, spans: list[Span], kerf: int) -> CutTree:
    """The node cut so that the spans come out of it; the node's only span itself when nothing is to be cut.

    A kerf lies before a span that does not begin at the node's edge and after one that does not end there; what is
    narrower than a kerf becomes sawdust.
    """
    along, size = ("x", "length") if cut == "crosscut" else ("y", "width")
    start, end = node[along], node[along] + node[size]
    cuts: list[int] = []
    pieces: list[CutTree] = []

    def waste(low: int, high: int) -> CutTree:
        return {**node, along: low, size: high - low, "part": None}

    position = start
    for span in spans:
        if span.low > position:
            # the blade may run partly in the kerf before, or in the air beside the board
            at = span.low - kerf
            if at > position:
                pieces.append(waste(position, at))
            cuts.append(at)
        pieces.append(span.node)
        position = span.high
        if position < end:
            cuts.append(position)
            position = min(end, position + kerf)
    if position < end:
        pieces.append(waste(position, end))
    if not cuts:
        return spans[0].node
    bare = {name: node[name] for name in ("x", "y", "length", "width")}
    return {**bare, "cut": cut, "at": cuts, "pieces": pieces}


@dataclass(frozen=True)
class Stuck:
    """Pieces that the cuts allowed leave in one piece of wood, or one piece that no cut brings to size."""

    placements: tuple[Placement, ...]


def turns_of(rules: Rules) -> tuple[int, ...]:
    """The axes along which a board is parted, one turn after another: 0 crosscuts, 1 rips."""
    first = 1 if rules.first_cut == "rip" else 0
    stages = rules.stages or MANY_TURNS
    return tuple((first + turn) % 2 for turn in range(stages + (rules.cut_type == "trimmed")))


def _low(placed: Placement, axis: int) -> int:
    return placed.y if axis else placed.x


def _high(placed: Placement, axis: int) -> int:
    return placed.y + placed.width if axis else placed.x + placed.length


def parted(placements: Sequence[Placement], axis: int, kerf: int) -> list[list[Placement]]:
    """The groups between which straight cuts of a kerf's width pass from edge to edge."""
    groups: list[list[Placement]] = []
    reach = 0
    for placed in sorted(placements, key=lambda p: (_low(p, axis), _low(p, 1 - axis))):
        if groups and _low(placed, axis) < reach + kerf:
            groups[-1].append(placed)
            reach = max(reach, _high(placed, axis))
        else:
            groups.append([placed])
            reach = _high(placed, axis)
    return groups


def freed_from_one_section(stock: Stock, placements: Sequence[Placement], rules: Rules) -> bool:
    """Whether the pieces can be freed though no crosscut has parted the board before. Source: OWN."""
    board = offcut(0, 0, stock.length, stock.width)
    return not isinstance(_freed(board, list(placements), turns_of(rules)[1:], rules), Stuck)


def board_tree(stock: Stock, placements: Sequence[Placement], rules: Rules) -> CutTree | Stuck:
    """The tree that frees these pieces of one board, or the pieces that cannot be freed.

    A group is parted wherever a cut can pass; parting more never hinders a later cut, so nothing is missed. With
    `first_cut` "any" the crosscuts come first, and the rips only if that fails.
    Source: OWN, from the definition of crosscut, rip, crosscut and a last rip to width.
    """
    tree = _freed(offcut(0, 0, stock.length, stock.width), list(placements), turns_of(rules), rules)
    if isinstance(tree, Stuck) and rules.first_cut == "any":
        turns = tuple(1 - axis for axis in turns_of(rules))
        other = _freed(offcut(0, 0, stock.length, stock.width), list(placements), turns, rules)
        return tree if isinstance(other, Stuck) else other
    return tree


def _freed(node: CutTree, placements: list[Placement], turns: tuple[int, ...], rules: Rules) -> CutTree | Stuck:
    if len(placements) == 1:
        (placed,) = placements
        if all(node[side] == getattr(placed, side) for side in ("x", "y", "length", "width")):
            return {**node, "part": placed.wanted}
    # the turn after the last stage brings one piece to size; it does not part two
    last = rules.cut_type == "trimmed" and len(turns) == 1
    if not turns or (last and len(placements) > 1):
        return Stuck(tuple(placements))
    axis, *rest = turns
    along, size = ("y", "width") if axis else ("x", "length")
    spans = []
    for group in parted(placements, axis, rules.kerf):
        low, high = min(_low(p, axis) for p in group), max(_high(p, axis) for p in group)
        piece = _freed({**node, along: low, size: high - low}, group, tuple(rest), rules)
        if isinstance(piece, Stuck):
            return piece
        spans.append(Span(low, high, piece))
    return sliced(node, CUT_OF_AXIS[axis], spans, rules.kerf)


MOST_JOINED = 6  # neighbouring groups that are tried as one section


def sparing_tree(stock: Stock, placements: Sequence[Placement], rules: Rules) -> CutTree | Stuck:
    """A tree that frees these pieces of one board and leaves the most useful offcuts: long and wide, not scattered.

    Sections are joined where that leaves better offcuts: pieces that a crosscut could part may as well share one
    section, so that the wood beside them stays long. Only crosscut, rip, crosscut is looked at; other rules get the
    plain tree. Source: OWN, the best row of sections by the sum of (offcut area)^1.5, which is our own choice.
    """
    plain = board_tree(stock, placements, rules)
    if isinstance(plain, Stuck) or rules.stages != 3 or rules.first_cut != "crosscut":
        return plain
    groups = parted(placements, 0, rules.kerf)
    if len(groups) < 2:
        return plain
    board = offcut(0, 0, stock.length, stock.width)
    best: list[tuple[float, list[Span]]] = [(0.0, [])]
    for end in range(1, len(groups) + 1):
        tried = []
        for start in range(max(0, end - MOST_JOINED), end):
            pieces = [placed for group in groups[start:end] for placed in group]
            low, high = min(p.x for p in pieces), max(p.x + p.length for p in pieces)
            section = _freed({**board, "x": low, "length": high - low}, pieces, turns_of(rules)[1:], rules)
            if not isinstance(section, Stuck):
                before, spans = best[start]
                # the wood before a section is one offcut over the board's whole width
                gap = max(0, low - (spans[-1].high if spans else 0))
                worth = before + offcuts_worth(section) + (gap * stock.width) ** 1.5
                tried.append((worth, [*spans, Span(low, high, section)]))
        best.append(max(tried, key=lambda row: row[0]))
    return sliced(board, "crosscut", best[-1][1], rules.kerf)


def offcuts_worth(node: CutTree) -> float:
    """How useful the offcuts of a tree are, in our own measure: the sum of (area [mm2])^1.5. Source: OWN."""
    if "cut" in node:
        return sum(offcuts_worth(piece) for piece in node["pieces"])
    return 0.0 if node["part"] is not None else float(max(0, node["length"] * node["width"])) ** 1.5


def cut_tree_of(problem: Problem, placements: Sequence[Placement]) -> dict[str, CutTree]:
    """The cut trees, by board, that free these pieces and leave useful offcuts; shaped as `Answer.cuts`.

    placements: pieces inside their boards with a kerf between them (`check` says so). Raises LayoutError when a board
    is not in the problem or its pieces cannot be freed by the cuts that the rules allow.
    Source: OWN, from the definition of the stages.
    """
    stocks = {stock.id: stock for stock in problem.stocks}
    by_board: dict[str, list[Placement]] = {}
    for placed in placements:
        by_board.setdefault(placed.stock, []).append(placed)
    trees = {}
    for name, pieces in by_board.items():
        if name not in stocks:
            raise LayoutError(f"Board {name} is not in this layout.")
        tree = sparing_tree(stocks[name], pieces, problem.rules)
        if isinstance(tree, Stuck):
            raise LayoutError(f"The pieces on board {name} cannot be sawn apart by {cuts_in_words(problem.rules)}.")
        trees[name] = tree
    return trees


def cuts_in_words(rules: Rules) -> str:
    """The turns of cutting that the rules allow, in words."""
    if rules.stages is None:
        return "cuts from edge to edge"
    turns = [CUT_OF_AXIS[axis] for axis in turns_of(rules)]
    if rules.cut_type == "exact":
        return ", ".join(turns)
    return f"{', '.join(turns[:-1])} and a last {turns[-1]} to size"
