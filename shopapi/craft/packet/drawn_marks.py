"""A mark as it is drawn on paper: every shape as a run of points."""

from math import cos, pi, sin
from typing import Literal

from shopapi.craft.marks import Ellipse, Line, Shape
from shopapi.craft.packet.common import BoardMark

ELLIPSE_POINTS = 40


def board_mark(
    kind: str,
    shape: Shape,
    *,
    blocks: Literal["all", "show", "none"] = "all",
    face: Literal["A", "B"] = "A",
    through: bool = False,
    note: str = "",
) -> BoardMark:
    """The mark with its shape [board mm] as points; an ellipse becomes a polygon within 0.4 % of it. Source: OWN."""
    if isinstance(shape, Line):
        return BoardMark(kind, shape.points, blocks, face, through, note, open_line=True, width_mm=shape.width_mm)
    points = _around(shape) if isinstance(shape, Ellipse) else shape.points
    return BoardMark(kind, points, blocks, face, through, note)


def _around(ellipse: Ellipse) -> tuple[tuple[float, float], ...]:
    turns = [2 * pi * n / ELLIPSE_POINTS for n in range(ELLIPSE_POINTS)]
    return tuple(
        (ellipse.cx_mm + ellipse.rx_mm * cos(turn), ellipse.cy_mm + ellipse.ry_mm * sin(turn)) for turn in turns
    )
