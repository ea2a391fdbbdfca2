"""Layouts of sheets whose rules are not crosscut, rip, crosscut, as published cutting problems ask."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from shopapi.craft.layout.answers import answer_from
from shopapi.craft.layout.clock import Clock
from shopapi.craft.layout.cuts import Span, cut_board, offcut, seen_face, sliced
from shopapi.craft.layout.frame import Frame
from shopapi.craft.layout.model import Answer, CutTree, Placement, Problem, Progress
from shopapi.craft.layout.pricing import Pattern
from shopapi.craft.layout.rack_search import lay_out_rack
from shopapi.craft.layout.sheets.any_stage import Block, Grid, cut_sheet
from shopapi.craft.layout.sheets.turned import turned_placement, turned_problem, turned_tree, turned_words
from shopapi.craft.layout.sheets.two_stage import TwoStage

TWO_STAGES = "every layout cut by crosscut and rip"
TWO_STAGES_TRIMMED = "every layout cut by crosscut, rip, and a last crosscut to length"
ANY_STAGES = "every layout cut from edge to edge"


def lay_out(problem: Problem, clock: Clock, seed: int, on_progress: Progress | None) -> Answer:
    """Search as the rules of the problem ask."""
    rules = problem.rules
    if rules.stages is None:
        return lay_out_in_any(problem, clock, seed, on_progress)
    if rules.first_cut == "crosscut":
        if rules.stages == 2:
            return lay_out_in_two(problem, clock, on_progress)
        return lay_out_rack(problem, clock, seed, on_progress)
    if rules.first_cut == "rip":
        return _lay_out_turned(problem, clock, seed, on_progress)
    # either first cut: half the time each, and a bound for both
    crosscut, rip = (replace(problem, rules=replace(rules, first_cut=cut)) for cut in ("crosscut", "rip"))
    one = lay_out(crosscut, clock.part(0.5), seed, on_progress)
    other = lay_out(rip, clock.part(1.0), seed, None)
    best, rest = (one, other) if one.value >= other.value else (other, one)
    bound = max(one.bound or 0, other.bound or 0)
    return replace(
        best,
        bound=bound,
        proved_best=best.value >= bound,
        bound_covers=f"{best.bound_covers}; and {rest.bound_covers}",
        seconds=clock.elapsed,
    )


def _lay_out_turned(problem: Problem, clock: Clock, seed: int, on_progress: Progress | None) -> Answer:
    """Rip first: the problem on its side."""

    def back(found: Answer) -> Answer:
        placements = [turned_placement(p) for p in found.placements]
        cuts = {name: turned_tree(tree) for name, tree in found.cuts.items()}
        words = turned_words(found.bound_covers)
        return answer_from(problem, clock.elapsed, placements, cuts, float(found.bound or 0), words)

    tell = (lambda found: on_progress(back(found))) if on_progress else None
    return back(lay_out(turned_problem(problem), clock, seed, tell))


def lay_out_in_two(problem: Problem, clock: Clock, on_progress: Progress | None) -> Answer:
    """Crosscut, then rip."""
    frame = Frame(problem)
    search = TwoStage(frame, clock)
    search.run()
    placements: list[Placement] = []
    cuts: dict[str, CutTree] = {}
    for board in range(len(frame.boards)):
        x, pieces = 0, []
        for section in sorted((s for s in search.sections if s.board == board), key=lambda s: s.x0):
            x = max(x, section.x0)
            pieces += [
                (item, x + along, y, x, x + section.length, y, frame.items[item].row)
                for item, along, y in section.places
            ]
            x += section.length
        if pieces:
            pattern = Pattern(board, np.array(pieces, np.int32), np.zeros(0, np.int32))
            found, tree = cut_board(frame, pattern, list(range(len(pieces))))
            placements += found
            cuts[problem.stocks[board].id] = tree
    covers = TWO_STAGES if frame.exact else TWO_STAGES_TRIMMED
    return _told(answer_from(problem, clock.elapsed, placements, cuts, search.bound, covers), on_progress)


def lay_out_in_any(problem: Problem, clock: Clock, seed: int, on_progress: Progress | None) -> Answer:
    """As many turns as one likes; boards one after another, the largest last.

    Boards too large for a program over all their rectangles are cut in three stages, and the bound covers only those.
    """
    frame = Frame(problem)
    grids = [Grid(frame, board) for board in range(len(frame.boards))]
    if not all(grid.small for grid in grids):
        return lay_out_rack(problem, clock, seed, on_progress)
    left = frame.quantities.copy()
    bound = 0.0
    placements: list[Placement] = []
    cuts: dict[str, CutTree] = {}
    for board in sorted(range(len(grids)), key=lambda b: frame.boards[b].length * frame.boards[b].width):
        found = cut_sheet(frame, grids[board], left, clock)
        fresh = (left == frame.quantities).all()
        bound += found.bound if fresh else cut_sheet(frame, grids[board], frame.quantities, clock).bound
        if found.block is None:
            continue
        for item in found.block.items():
            left[frame.items[item].part] -= 1
        cuts[problem.stocks[board].id] = _tree(frame, board, found.block, placements)
    bound = min(bound, float((frame.worths * frame.quantities).sum()))
    return _told(answer_from(problem, clock.elapsed, placements, cuts, bound, ANY_STAGES), on_progress)


def _told(answer: Answer, on_progress: Progress | None) -> Answer:
    if on_progress and answer.value > 0:
        on_progress(answer)
    return answer


def _tree(frame: Frame, board: int, block: Block, placements: list[Placement]) -> CutTree:
    """The cuts that free a board's block; its parts join the placements."""
    stock, kerf = frame.problem.stocks[board], frame.rules.kerf
    left, bottom = frame.rules.trim_left, frame.rules.trim_bottom

    def cut_out(node: CutTree, x: int, y: int, length: int, width: int, inner: CutTree) -> CutTree:
        """A rectangle cut out of a node that may be larger, first along, then across."""
        cross = {**node, "x": x, "length": length}
        ripped = sliced(cross, "rip", [Span(y, y + width, inner)], kerf)
        return sliced(node, "crosscut", [Span(x, x + length, ripped)], kerf)

    def walk(block: Block, node: CutTree) -> CutTree:
        if block.item is not None:
            item = frame.items[block.item]
            x, y, length, width = left + block.x, bottom + block.y, item.length - kerf, item.width - kerf
            wanted = frame.problem.wanted[item.part].id
            face = seen_face(frame, board, item.strictness, block.x, block.y, item.length, item.width)
            placements.append(Placement(stock.id, wanted, x, y, length, width, face))
            return cut_out(node, x, y, length, width, {**offcut(x, y, length, width), "part": wanted})
        spans = []
        for half in block.halves:
            if block.along == 0:
                low, size = left + half.x, half.length - kerf
                spans.append(Span(low, low + size, walk(half, {**node, "x": low, "length": size})))
            else:
                low, size = bottom + half.y, half.width - kerf
                spans.append(Span(low, low + size, walk(half, {**node, "y": low, "width": size})))
        return sliced(node, "crosscut" if block.along == 0 else "rip", spans, kerf)

    x, y, length, width = left + block.x, bottom + block.y, block.length - kerf, block.width - kerf
    board_node = offcut(0, 0, stock.length, stock.width)
    inner = walk(block, offcut(x, y, length, width))
    return cut_out(board_node, x, y, length, width, inner)
