"""From patterns to placements and to the tree of cuts that frees them, in board millimetres."""

from __future__ import annotations

from itertools import groupby

from shopapi.craft.layout.cut_tree import Span, offcut, sliced
from shopapi.craft.layout.frame import BLOCKED, Frame
from shopapi.craft.layout.model import CutTree, Placement
from shopapi.craft.layout.pricing import Pattern


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
