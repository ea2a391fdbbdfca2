"""From patterns to placements and to the tree of cuts that frees them, in board millimetres."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import groupby

from shopapi.craft.layout.frame import BLOCKED, Frame
from shopapi.craft.layout.model import CutTree, Placement
from shopapi.craft.layout.pricing import Pattern


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


def cut_board(frame: Frame, pattern: Pattern, rows: list[int]) -> tuple[list[Placement], CutTree]:
    """Placements and cut tree of those rows of the pattern's pieces that are kept."""
    problem, kerf = frame.problem, frame.rules.kerf
    stock = problem.stocks[pattern.board]
    left, bottom = frame.rules.trim_left, frame.rules.trim_bottom
    placements: list[Placement] = []
    sections: list[Span] = []
    pieces = sorted((tuple(int(v) for v in pattern.pieces[r]) for r in rows), key=lambda p: (p[3], p[5], p[1]))
    for (x0, x1), in_section in groupby(pieces, key=lambda p: (p[3], p[4])):
        section = offcut(left + x0, 0, x1 - x0 - kerf, stock.width)
        strips: list[Span] = []
        for (y, row), in_strip in groupby(in_section, key=lambda p: (p[5], p[6])):
            low = bottom + y
            width = frame.widths[row] - kerf
            strip = {**section, "y": low, "width": width}
            parts: list[Span] = []
            for item_number, x, part_y, *_ in in_strip:
                item = frame.items[item_number]
                placed = Placement(
                    stock.id,
                    problem.wanted[item.part].id,
                    left + x,
                    bottom + part_y,
                    item.length - kerf,
                    item.width - kerf,
                    seen_face(frame, pattern.board, item.strictness, x, part_y, item.length, item.width),
                )
                placements.append(placed)
                cell = {**strip, "x": placed.x, "length": placed.length}
                leaf = {**cell, "y": placed.y, "width": placed.width, "part": placed.wanted}
                trimmed = sliced(cell, "rip", [Span(placed.y, placed.y + placed.width, leaf)], kerf)
                parts.append(Span(placed.x, placed.x + placed.length, trimmed))
            strips.append(Span(low, low + width, sliced(strip, "crosscut", parts, kerf)))
        sections.append(Span(left + x0, left + x1 - kerf, sliced(section, "rip", strips, kerf)))
    board = offcut(0, 0, stock.length, stock.width)
    return placements, sliced(board, "crosscut", sections, kerf)


def seen_face(frame: Frame, board: int, strictness: int, x: int, y: int, length: int, width: int) -> str:
    """The face that shows no blocking flaw for a part of which one face is seen; A for all others."""
    if strictness != 1:
        return "A"
    for x0, x1, y0, y1, what in frame.boards[board].flaws:
        if what < BLOCKED and what & 1 and x < x1 and x + length > x0 and y < y1 and y + width > y0:
            return "B"
    return "A"
