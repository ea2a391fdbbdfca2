"""Writes about boards."""

from collections.abc import Callable
from typing import Any

from django.db import transaction

from shopapi.boards import selectors
from shopapi.boards.models import Board
from shopapi.boards.services.shots import shot_square_anew

Resize = Callable[[Board, float, float], None]
# What else lies on a board and must follow when its tape sizes are put right: (board, old length, old width).
after_resize: list[Resize] = []


@transaction.atomic
def board_update(*, board: Board, **changes: Any) -> Board:
    """Saves the changes. Corrected tape sizes square its photographs anew, and what was drawn on them follows."""
    length_mm, width_mm = board.length_mm, board.width_mm
    for name, value in changes.items():
        setattr(board, name, value)
    board.save()
    if (board.length_mm, board.width_mm) != (length_mm, width_mm):
        # A piece cut off a photographed board has no corners or points of its own.
        shots = selectors.shots_with_points(board)
        for shot in shots:
            shot_square_anew(shot=shot, old_length_mm=length_mm, old_width_mm=width_mm)
        if shots:
            for follow in after_resize:
                follow(board, length_mm, width_mm)
    return board
