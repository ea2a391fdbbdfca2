"""Puts an answer together as a layout keeps it, whoever found it."""

from collections.abc import Iterable, Iterator, Sequence
from itertools import count
from typing import Any

from shopapi.craft.layout import GluedPanel, Placement, cut_tree_of, looks_of
from shopapi.layouts import questions
from shopapi.layouts.figures import figures_of
from shopapi.layouts.models import Layout
from shopapi.layouts.pins import placement_of, problem_by_hand
from shopapi.layouts.purchases import Purchases
from shopapi.layouts.questions import Need, Rack
from shopapi.workshops.models import Workshop

Row = dict[str, Any]


def answer_of(layout: Layout, rack: Rack, *, placements: list[Row], cuts: dict[str, Any], **more: Any) -> Row:
    """Everything a layout that is done keeps, with what it was asked."""
    workshop = layout.workshop
    asked = questions.asked_as_json(workshop, rack)
    purchases = Purchases(workshop, rack)
    unplaced = [
        {"part": need.key, "count": need.left, "reason": need.reason, "purchase": purchases.of(need)}
        for need in rack.needs
        if need.left
    ]
    figures = figures_of(placements=placements, unplaced=unplaced, cuts=cuts, boards=asked["boards"], workshop=workshop)
    figures["looks"] = round(_looks(placements, rack, workshop), 3)
    return {
        "state": Layout.State.DONE,
        "problem": "",
        "asked": asked,
        "placements": placements,
        "unplaced": unplaced,
        "cuts": cuts,
        "figures": figures,
        **more,
    }


def _looks(placements: list[Row], rack: Rack, workshop: Workshop) -> float:
    placed = [placement_of(row) for row in placements]
    return looks_of(problem_by_hand(placements, rack, workshop), placed) if placed else 1.0


def answer_by_hand(layout: Layout, rack: Rack) -> Row:
    """The answer that the maker gave: every piece where it was pinned, none elsewhere."""
    workshop, value, cuts = layout.workshop, 0, {}
    placed = [placement_of(pin) for pin in layout.pinned]
    if placed:
        cuts = cut_tree_of(problem_by_hand(layout.pinned, rack, workshop), placed)
    asked = questions.asked_as_json(workshop, rack)["parts"]
    for need in rack.needs:
        pins = [pin for pin in layout.pinned if pin["part"] == need.key]
        whole = whole_pieces(pins, asked[need.key]) if need.has_free_strips else len(pins)
        need.left -= whole
        value += whole * questions.value_of(need)
        need.reason = (
            "Its strips do not make it up yet" if pins and need.has_free_strips else "It was not laid on a board"
        )
    return answer_of(layout, rack, placements=list(layout.pinned), cuts=cuts, value=value, bound=None)


def whole_pieces(rows: Iterable[Row], part: Row) -> int:
    """How many blanks of a part these placements make: one each, or one for the strips that make up a panel.

    part: as the layout was asked for it.
    """
    widths: dict[int, list[float]] = {}
    for row in rows:
        widths.setdefault(row["piece"], []).append(row["width_mm"])
    strips = part.get("strip_count", 1)
    if strips:
        return sum(len(each) >= strips for each in widths.values())
    loss_mm, width_mm = part.get("strip_loss_mm", 0), part.get("rough_width_mm", 0)
    return sum(sum(each) - (loss_mm * len(each) if len(each) > 1 else 0) >= width_mm for each in widths.values())


def numbered(
    placements: Sequence[Placement], glued: Sequence[GluedPanel], needs: Sequence[Need], pinned: Sequence[Row]
) -> list[Row]:
    """Placements as stored: pinned ones keep their numbers, the others take the numbers that are free.

    The nth blank of a part is strip s of piece p (strip 0: not a strip); pieces that were cut before keep theirs. Where
    one blank holds several pieces, blanks are numbered instead of pieces.
    Panels of free strips are numbered as they are glued.
    """
    held = {placement_of(pin): pin for pin in pinned}
    free = {need.key: _free_numbers(need, pinned) for need in needs}
    strips = dict(_strip_numbers(glued, needs))
    rows = []
    for placed in sorted(placements, key=lambda p: (p.stock, p.x, p.y)):
        pin = held.get(placed, {})
        if placed in strips or not pin:
            piece, strip = strips.get(placed) or next(free[placed.wanted])
        else:
            piece, strip = pin["piece"], pin["strip"]
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
                "turned": pin.get("turned", False),
                "pinned": bool(pin),
            }
        )
    return rows


def _strip_numbers(glued: Sequence[GluedPanel], needs: Sequence[Need]) -> Iterator[tuple[Placement, tuple[int, int]]]:
    pieces = {need.key: count(need.numbers[0]) for need in needs}
    for panel in glued:
        piece = next(pieces[panel.panel])
        for strip, placed in enumerate(panel.strips, start=1):
            yield placed, (piece, strip)


def _free_numbers(need: Need, pinned: Sequence[Row]) -> Iterator[tuple[int, int]]:
    taken = {(pin["piece"], pin["strip"]) for pin in pinned if pin["part"] == need.key}
    strips = range(1, need.rough.count + 1) if need.rough.count > 1 else (0,)
    for piece in need.numbers:
        for strip in strips:
            if (piece, strip) not in taken:
                yield piece, strip
