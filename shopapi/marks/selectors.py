"""Reads about marks."""

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass

from shopapi.boards.models import Board
from shopapi.craft.clear_area import ClearFace, clear_face
from shopapi.craft.grading import GradeMark, Grading, grade
from shopapi.craft.marks import parse_shape
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


@dataclass(frozen=True)
class ClearWood:
    """The clear wood of a board's two faces, and the grade it makes."""

    face_a: ClearFace
    face_b: ClearFace
    grading: Grading


def clear_wood(board: Board) -> ClearWood:
    """Reckoned from the board's marks as they stand. Raises OutOfRangeError for a size no grade is made for."""
    noted = [
        GradeMark(mark.kind, mark.face, parse_shape(mark.shape), mark.through)  # type: ignore[arg-type]
        for mark in marks_on([board])[str(board.pk)]
    ]
    sizes = board.length_mm, board.width_mm
    return ClearWood(clear_face(*sizes, noted, "A"), clear_face(*sizes, noted, "B"), grade(*sizes, noted))
