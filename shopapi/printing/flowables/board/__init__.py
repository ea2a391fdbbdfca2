"""A board on paper: butt end left, true to scale, the tape along its lower edge, pieces in pencil, cuts in crayon."""

from shopapi.printing.flowables.board.drawing import BoardStretch, stretches
from shopapi.printing.flowables.board.look import CLIENT, SHOP, DrawnBoard, Look, Window

__all__ = ["CLIENT", "SHOP", "BoardStretch", "DrawnBoard", "Look", "Window", "stretches"]
