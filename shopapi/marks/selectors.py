"""Reads about marks."""

from collections import defaultdict
from collections.abc import Iterable

from shopapi.boards.models import Board
from shopapi.marks.models import Mark


def marks_on(boards: Iterable[Board]) -> dict[str, list[Mark]]:
    """The marks of each board, by its id."""
    boards = list(boards)
    found: dict[str, list[Mark]] = defaultdict(list)
    if boards:
        rows = Mark.objects.for_workshop(boards[0].workshop_id).filter(board__in=boards)
        for mark in rows.order_by("created_at", "id"):
            found[str(mark.board_id)].append(mark)
    return found
