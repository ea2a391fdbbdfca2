"""Layouts over a rack of boards: first layouts, then prices and recreation by turns until the time is gone."""

from __future__ import annotations

import math

from shopapi.craft.layout.answers import answer_from
from shopapi.craft.layout.clock import Clock
from shopapi.craft.layout.cut_tree import cut_tree_of
from shopapi.craft.layout.cuts import cut_board
from shopapi.craft.layout.economy import spare_wood
from shopapi.craft.layout.first import first_layouts
from shopapi.craft.layout.frame import Frame
from shopapi.craft.layout.model import Answer, CutTree, Placement, Problem, Progress
from shopapi.craft.layout.pool import Choice
from shopapi.craft.layout.prices import PriceRounds, area_bound
from shopapi.craft.layout.rack import Rack
from shopapi.craft.layout.recreate import Recreation

EXACT_COVER = "every layout cut by crosscut, rip, crosscut with each part as wide as its strip"
TRIMMED_COVER = (
    "every layout cut by crosscut, rip, crosscut and a last rip to width, where the wood ripped off last is clear too"
)

KEPT = ", with the pinned pieces where they are"
TELL_EVERY_S = 0.25


def lay_out_rack(
    problem: Problem,
    clock: Clock,
    seed: int,
    told: Progress | None,
) -> Answer:
    """Search until the clock is over or the layout is proved best."""
    frame = Frame(problem)
    last_told = -math.inf

    def tell(rack: Rack) -> None:
        nonlocal last_told
        if told and rack.value > 0 and clock.elapsed >= last_told + TELL_EVERY_S:
            told(answer_of(rack, problem, clock))
            last_told = clock.elapsed

    rack = Rack(frame, clock, seed, tell)
    search(rack)
    return answer_of(rack, problem, clock)


def search(rack: Rack) -> None:
    """Spend the clock: first layouts, then prices and recreation by turns."""
    clock = rack.clock
    if not any(rack.frame.strips(b).seg_from.size for b in range(len(rack.frame.boards))):
        rack.offer_bound(0.0)
        return
    rack.offer_bound(area_bound(rack.frame))
    first_layouts(rack, share=0.25, most=60)
    rack.improve(rack.best, 400)
    rounds = PriceRounds(rack)
    recreation = Recreation(rack)
    while not clock.over and not rack.proved:
        before = clock.done
        if not rounds.stalled:
            rounds.round()
            rack.improve(rack.best, 300)
        recreation.spend(max(clock.done - before, 50_000.0))
    spare_wood(rack)


def answer_of(rack: Rack, problem: Problem, clock: Clock) -> Answer:
    """The rack's best choice as an answer."""
    placements, cuts = placed(rack.frame, rack.best)
    covers = EXACT_COVER if rack.frame.exact else TRIMMED_COVER
    worth = {w.id: w.value for w in problem.wanted}
    pinned = sum(worth[pin.wanted] for pin in problem.pins)
    return answer_from(
        problem, clock.elapsed, placements, cuts, rack.bound + pinned, covers + (KEPT if problem.pins else "")
    )


def placed(frame: Frame, choice: Choice) -> tuple[list[Placement], dict[str, CutTree]]:
    """Placements and cut trees of a choice; pieces beyond what is wanted are dropped."""
    left = frame.quantities.copy()
    placements: list[Placement] = list(frame.problem.pins)
    cuts: dict[str, CutTree] = {}
    for pattern in choice:
        if pattern is None:
            continue
        rows = []
        for row, piece in enumerate(pattern.pieces):
            part = frame.items[int(piece[0])].part
            if left[part] > 0:
                left[part] -= 1
                rows.append(row)
        if rows:
            found, tree = cut_board(frame, pattern, rows)
            placements += found
            cuts[frame.problem.stocks[pattern.board].id] = tree
    pinned = {pin.stock for pin in frame.problem.pins}
    return placements, cuts | cut_tree_of(frame.problem, [p for p in placements if p.stock in pinned])
