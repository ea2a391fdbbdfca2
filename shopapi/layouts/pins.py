"""Pieces that the maker laid by hand: whether they can be cut as they lie, and if not, why, in words."""

from collections.abc import Iterator, Sequence
from functools import partial
from typing import Any

from shopapi.boards.models import Board
from shopapi.craft.layout import Placement, Problem, check
from shopapi.layouts import questions
from shopapi.layouts.questions import Need, Rack
from shopapi.workshops.models import Workshop

Row = dict[str, Any]
Complaints = dict[int, list[str]]
MOST_STRIPS = 60  # of one panel


def placement_of(pin: Row) -> Placement:
    """The piece as the solver sees it."""
    return Placement(
        pin["board"], pin["part"], pin["x_mm"], pin["y_mm"], pin["length_mm"], pin["width_mm"], pin["face"]
    )


def complaints(pins: Sequence[Row], *, rack: Rack, excluded: Sequence[str], workshop: Workshop) -> Complaints:
    """What keeps pinned pieces from being cut, by the number of the piece; empty where all is well."""
    found: Complaints = {}
    needs = {need.key: need for need in rack.needs}
    boards = {str(board.pk): board for board in rack.boards}
    for number, words in _strange(pins, needs, boards, set(excluded), workshop):
        found.setdefault(number, []).append(words)
    if found or not pins:
        return found
    placed = [placement_of(pin) for pin in pins]
    say = partial(questions.length_in_words, workshop=workshop)
    for illegal in check(problem_by_hand(pins, rack, workshop), placed, say):
        pin = pins[illegal.piece]
        words = f"{piece_name(pin, needs[pin['part']])} on {boards[pin['board']].tag}: {illegal.words}"
        if words not in found.setdefault(illegal.piece, []):
            found[illegal.piece].append(words)
    return found


def piece_name(pin: Row, need: Need) -> str:
    """The part with which of its kind the piece is."""
    if need.part.blank_holds > 1:
        return f"{need.part.name}, blank {pin['piece']}"
    which = f" {pin['piece']}" if need.part.quantity > 1 else ""
    strip = f", strip {pin['strip']}" if pin["strip"] else ""
    return f"{need.part.name}{which}{strip}"


def problem_by_hand(pins: Sequence[Row], rack: Rack, workshop: Workshop) -> Problem:
    """The question that these pieces answer, about their boards and parts only."""
    boards, parts = {pin["board"] for pin in pins}, {pin["part"] for pin in pins}
    counts = {need.key: need.numbers[-1] * need.rough.count for need in rack.needs if need.key in parts}
    asked = questions.asked_of(counts, rack.needs, workshop)
    stocks = tuple(rack.stocks[key] for key in sorted(boards))
    return Problem(stocks, asked.wanted, questions.rules_of(workshop), panels=asked.panels)


def _strange(
    pins: Sequence[Row], needs: dict[str, Need], boards: dict[str, Board], excluded: set[str], workshop: Workshop
) -> Iterator[tuple[int, str]]:
    """Pieces that are none, boards that are not there, the same piece twice, the wrong wood."""
    seen: set[tuple[str, int, int]] = set()
    for number, pin in enumerate(pins):
        need, board = needs.get(pin["part"]), boards.get(pin["board"])
        if need is None:
            yield number, "A piece is pinned of a part that is not in this commission, or is cut already."
            continue
        name = piece_name(pin, need)
        if (pin["part"], pin["piece"], pin["strip"]) in seen:
            yield number, f"{name} is pinned in two places. Take one of them away."
        seen.add((pin["part"], pin["piece"], pin["strip"]))
        yield from ((number, words) for words in _no_such_piece(pin, need))
        if board is None:
            yield number, f"{name} is pinned to a board that is not in the rack any more. Unpin it."
        elif pin["board"] in excluded:
            yield number, f"{name} is pinned to {board.tag}, which is kept out. Let {board.tag} in, or unpin the piece."
        elif not questions.thick_enough(board, need):
            yield number, f"{name} cannot come from {board.tag}. {questions.why_no_board(need, [board], workshop)}"


def _no_such_piece(pin: Row, need: Need) -> Iterator[str]:
    if pin["piece"] not in need.numbers:
        what = "blank" if need.part.blank_holds > 1 else "piece"
        first, last = need.numbers[0], need.numbers[-1]
        yield f"{need.part.name} has {what}s {first} to {last} to be cut; there is no {what} {pin['piece']}."
    if need.has_free_strips:
        if not 1 <= pin["strip"] <= MOST_STRIPS:
            yield f"Strips of {need.part.name} are numbered from 1 to {MOST_STRIPS}."
    elif need.part.is_panel and not 1 <= pin["strip"] <= need.rough.count:
        yield f"{need.part.name} has {need.rough.count} strips."
    elif not need.part.is_panel and pin["strip"]:
        yield f"{need.part.name} is not glued from strips."
