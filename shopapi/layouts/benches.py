"""Which parts are laid out on which boards together.

Parts go to boards of their species that are thick enough. Boards are told apart by thickness in quarters of an inch,
the trade's own classes; a part takes the thinnest class that will do, and a thicker one when that is used up.
"""

from collections.abc import Iterable
from dataclasses import dataclass, field
from typing import Any

from shopapi.boards.models import Board
from shopapi.layouts import questions
from shopapi.layouts.questions import MM_PER_QUARTER, Need, Rack


@dataclass
class Bench:
    """The boards one question is about, and the needs that may lie on them."""

    boards: list[Board]
    needs: list[Need] = field(default_factory=list)


def first_benches(needs: Iterable[Need], boards: list[Board]) -> list[Bench]:
    """Each need with the boards of the thinnest class that will do, the strictest needs first."""
    benches = []
    for alike in _alike(sorted(needs, key=lambda need: -need.rough.thickness_mm)):
        fits = [board for board in boards if questions.thick_enough(board, alike[0])]
        if fits:
            thinnest = min(_thickness_class(board) for board in fits)
            benches.append(Bench([board for board in fits if _thickness_class(board) == thinnest], alike))
    return _merged(benches)


def second_round(benches: list[Bench], rack: Rack, used: set[str]) -> list[Bench]:
    """What is left, with the boards that it was not offered yet: thicker ones that carry nothing."""
    offered = {need.key: bench for bench in benches for need in bench.needs}
    again = []
    for alike in _alike([need for need in rack.needs if need.left]):
        fits = [board for board in rack.boards if questions.thick_enough(board, alike[0])]
        if not fits:
            for need in alike:
                need.reason = questions.why_no_board(need, rack.boards, need.part.workshop)
            continue
        before = {board.pk for board in offered[alike[0].key].boards}
        fresh = [board for board in fits if board.pk not in before and str(board.pk) not in used]
        if fresh:
            again.append(Bench(fresh, alike))
    return _merged(again)


def with_pins(benches: list[Bench], pinned: list[dict[str, Any]], rack: Rack) -> list[Bench]:
    """The benches, each board that carries pinned pieces at one bench only: where it is anyway, else at the piece's."""
    boards = {str(board.pk): board for board in rack.boards}
    for pin in pinned:
        board = boards[pin["board"]]
        home = next(
            (bench for bench in benches if board in bench.boards),
            next(bench for bench in benches if any(need.key == pin["part"] for need in bench.needs)),
        )
        for bench in benches:
            if bench is home and board not in bench.boards:
                bench.boards.append(board)
            elif bench is not home and board in bench.boards:
                bench.boards.remove(board)
    return benches


def _alike(needs: Iterable[Need]) -> list[list[Need]]:
    """Needs of one species and thickness together: the same boards will do for them."""
    groups: dict[tuple[str, float], list[Need]] = {}
    for need in needs:
        groups.setdefault((need.part.species, need.rough.thickness_mm), []).append(need)
    return list(groups.values())


def _merged(benches: list[Bench]) -> list[Bench]:
    """Needs of the same boards at one bench."""
    found: dict[tuple[Any, ...], Bench] = {}
    for bench in benches:
        found.setdefault(tuple(board.pk for board in bench.boards), Bench(bench.boards)).needs.extend(bench.needs)
    return list(found.values())


def _thickness_class(board: Board) -> int:
    return board.thickness_quarters or round(board.thickness_mm / MM_PER_QUARTER)
