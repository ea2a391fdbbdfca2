"""Marks on sawn pieces, against sampling: a point of the board is on the mark where it is on a piece's mark."""

import math

from hypothesis import given
from hypothesis import strategies as st
from shapely.geometry import LineString, Point, Polygon

from shopapi.craft.marks import Ellipse, Line, Outline, Rect, Shape, clip

AREA = Rect(400, 20, 1000, 120)


def _covers(shape: Shape, x: float, y: float) -> bool:
    match shape:
        case Ellipse(cx, cy, rx, ry):
            return math.hypot((x - cx) / rx, (y - cy) / ry) <= 1
        case Line(points, width):
            return LineString(points).buffer(width / 2, cap_style="flat").covers(Point(x, y))
        case Outline(points):
            return Polygon(points).covers(Point(x, y))


@given(
    st.floats(300, 1100), st.floats(0, 140), st.floats(2, 60), st.floats(2, 60), st.floats(401, 999), st.floats(21, 119)
)
def test_an_ellipse_keeps_its_place_on_the_piece(
    cx: float, cy: float, rx: float, ry: float, x: float, y: float
) -> None:
    shape = Ellipse(cx, cy, rx, ry)
    away = math.hypot((x - cx) / rx, (y - cy) / ry)
    if 0.93 < away < 1.07:  # within the 64-sided outline's error, and sawdust
        return
    found = any(_covers(part, x - AREA.x0_mm, y - AREA.y0_mm) for part in clip(shape, AREA))
    assert found == (away <= 1) or _is_sawdust(shape)


def _is_sawdust(shape: Ellipse) -> bool:
    ring = Point(0, 0).buffer(1)
    moved = Polygon([(shape.cx_mm + x * shape.rx_mm, shape.cy_mm + y * shape.ry_mm) for x, y in ring.exterior.coords])
    window = Polygon([(400, 20), (1000, 20), (1000, 120), (400, 120)])
    return moved.intersection(window).area < 1.1


def test_an_outline_that_winds_in_and_out_comes_as_several() -> None:
    comb = Outline(((500, 0), (500, 40), (520, 40), (520, 10), (540, 10), (540, 40), (560, 40), (560, 0)))
    parts = clip(comb, AREA)
    assert len(parts) == 2
    assert all(isinstance(part, Outline) for part in parts)


def test_a_crossed_outline_is_cut_all_the_same() -> None:
    bow = Outline(((500, 40), (560, 80), (560, 40), (500, 80)))
    assert clip(bow, AREA)


def test_a_crack_beside_the_cut_leaves_its_width() -> None:
    beside = Line(((450, 19), (900, 19)), 6)
    (left,) = clip(beside, AREA)
    assert isinstance(left, Outline)
    assert max(y for _, y in left.points) == 2
