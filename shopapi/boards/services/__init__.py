"""Writes about boards and their photographs."""

from shopapi.boards.services.boards import after_resize, board_update
from shopapi.boards.services.faces import after_join, face_ask, face_ask_worker, face_work
from shopapi.boards.services.shots import (
    photographs_left_behind,
    shot_create,
    shot_keep,
    shot_remove,
    shot_square,
    shot_square_stretch,
    shot_turn_over,
    shot_work,
)

__all__ = [
    "after_join",
    "after_resize",
    "board_update",
    "face_ask",
    "face_ask_worker",
    "face_work",
    "photographs_left_behind",
    "shot_create",
    "shot_keep",
    "shot_remove",
    "shot_square",
    "shot_square_stretch",
    "shot_turn_over",
    "shot_work",
]
