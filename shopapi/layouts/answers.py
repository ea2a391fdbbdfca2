"""Puts an answer together as a layout keeps it, whoever found it."""

from collections.abc import Iterator, Sequence
from typing import Any

from shopapi.craft.layout import Placement, Problem, cut_tree_of
from shopapi.layouts import questions
from shopapi.layouts.figures import figures_of
from shopapi.layouts.models import Layout
from shopapi.layouts.pins import placement_of
from shopapi.layouts.questions import Need, Rack

Row = dict[str, Any]


def answer_of(layout: Layout, rack: Rack, *, placements: list[Row], cuts: dict[str, Any], **more: Any) -> Row:
    """Everything a layout that is done keeps, with what it was asked."""
    workshop = layout.workshop
    asked = questions.asked_as_json(workshop, rack)
    unplaced = [{"part": need.key, "count": need.left, "reason": need.reason} for need in rack.needs if need.left]
    return {
        "state": Layout.State.DONE,
        "problem": "",
        "asked": asked,
        "placements": placements,
        "unplaced": unplaced,
        "cuts": cuts,
        "figures": figures_of(
            placements=placements, unplaced=unplaced, cuts=cuts, boards=asked["boards"], workshop=workshop
        ),
        **more,
    }


def answer_by_hand(layout: Layout, rack: Rack) -> Row:
    """The answer that the maker gave: every piece where it was pinned, none elsewhere."""
    needs = {need.key: need for need in rack.needs}
    value = 0
    for pin in layout.pinned:
        need = needs[pin["part"]]
        value += questions.wanted_of(need, layout.aim).value
        need.left -= 1
    for need in rack.needs:
        need.reason = "It was not laid on a board"
    placed = [placement_of(pin) for pin in layout.pinned]
    cuts = {}
    if placed:
        boards, parts = {one.stock for one in placed}, {one.wanted for one in placed}
        problem = Problem(
            tuple(rack.stocks[key] for key in sorted(boards)),
            tuple(questions.wanted_of(need, layout.aim, at_least=1) for need in rack.needs if need.key in parts),
            questions.rules_of(layout.workshop),
        )
        cuts = cut_tree_of(problem, placed)
    return answer_of(layout, rack, placements=list(layout.pinned), cuts=cuts, value=value, bound=None)


def numbered(placements: Sequence[Placement], needs: Sequence[Need], pinned: Sequence[Row]) -> list[Row]:
    """Placements as stored: pinned ones keep their numbers, the others take the numbers that are free.

    The nth blank of a part is strip s of piece p (strip 0: not a strip); pieces that were cut before keep theirs.
    """
    held = {placement_of(pin): pin for pin in pinned}
    free = {need.key: _free_numbers(need, pinned) for need in needs}
    rows = []
    for placed in sorted(placements, key=lambda p: (p.stock, p.x, p.y)):
        if pin := held.get(placed):
            rows.append({**pin, "pinned": True})
            continue
        piece, strip = next(free[placed.wanted])
        rows.append(
            {
                "board": placed.stock,
                "part": placed.wanted,
                "piece": piece,
                "strip": strip,
                "x_mm": placed.x,
                "y_mm": placed.y,
                "length_mm": placed.length,
                "width_mm": placed.width,
                "face": placed.face,
                "turned": False,
                "pinned": False,
            }
        )
    return rows


def _free_numbers(need: Need, pinned: Sequence[Row]) -> Iterator[tuple[int, int]]:
    taken = {(pin["piece"], pin["strip"]) for pin in pinned if pin["part"] == need.key}
    strips = range(1, need.rough.count + 1) if need.rough.count > 1 else (0,)
    for piece in range(need.part.cut_count + 1, need.part.quantity + 1):
        for strip in strips:
            if (piece, strip) not in taken:
                yield piece, strip
