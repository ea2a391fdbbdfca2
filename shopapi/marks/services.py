"""Writes about marks."""

from shopapi.boards.models import Board
from shopapi.craft.marks import parse_shape, shape_to_dict, stretch
from shopapi.marks.models import Mark


def marks_follow_board(board: Board, old_length_mm: float, old_width_mm: float) -> None:
    """Marks were drawn on the photograph: when the tape sizes are put right, they keep their place on the wood."""
    along, across = board.length_mm / old_length_mm, board.width_mm / old_width_mm
    for mark in Mark.objects.for_workshop(board.workshop_id).filter(board=board):
        mark.shape = shape_to_dict(stretch(parse_shape(mark.shape), along, across))
        mark.save(update_fields=["shape"])
