"""Writes about boards and their photographs."""

from shopapi.boards.services.boards import after_resize, board_update
from shopapi.boards.services.shots import shot_create, shot_square

__all__ = ["after_resize", "board_update", "shot_create", "shot_square"]
