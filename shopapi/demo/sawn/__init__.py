"""Boards sawn from imagined logs, and photographs of them, with the truth about both."""

from shopapi.demo.sawn.board import Flaw, SawnBoard, draw_board
from shopapi.demo.sawn.camera import Photograph, photograph

__all__ = ["Flaw", "Photograph", "SawnBoard", "draw_board", "photograph"]
