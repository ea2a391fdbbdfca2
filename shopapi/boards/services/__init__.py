"""Writes about boards and their photographs."""

from shopapi.boards.services.boards import after_resize, board_update
from shopapi.boards.services.shots import (
    photographs_left_behind,
    shot_create,
    shot_keep,
    shot_square,
    shot_square_stretch,
    shot_work,
)

__all__ = [
    "after_resize",
    "board_update",
    "photographs_left_behind",
    "shot_create",
    "shot_keep",
    "shot_square",
    "shot_square_stretch",
    "shot_work",
]
