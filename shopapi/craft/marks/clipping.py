"""Marks on a piece sawn out of a board: what of them lies on it, in the piece's own millimetres."""

import math

from shapely.geometry import LineString, MultiPolygon, Point, Polygon, box
from shapely.geometry.base import BaseGeometry
from shapely.validation import make_valid

from shopapi.craft.marks.shapes import MOST_POINTS, Ellipse, Line, Outline, Rect, Shape

_LEAST_AREA_MM2 = 1.0  # sawdust
_SIMPLIFIED_MM = 0.05
_ELLIPSE_QUARTER_STEPS = 16


def clip(shape: Shape, area: Rect) -> list[Shape]:
    """What of a mark lies on a piece of the board, moved so that the piece's lower butt-end corner is the origin.

    Args: shape, board mm; area, the piece on the board [mm].
    Gives: nothing where the mark lies elsewhere; a mark the saw runs through comes as outlines of what is left of it
    (a line stays a line where its middle lies on the piece), one that winds in and out as several. An ellipse becomes a
    64-sided outline, 0.15 % of its radius off at most.
    Source: COMMON-PRACTICE, no source (plane geometry).

    >>> clip(Ellipse(500, 50, 12, 9), Rect(400, 0, 1000, 150))
    [Ellipse(cx_mm=100, cy_mm=50, rx_mm=12, ry_mm=9)]
    >>> clip(Ellipse(500, 50, 12, 9), Rect(600, 0, 1000, 150))
    []
    """
    window = box(area.x0_mm, area.y0_mm, area.x1_mm, area.y1_mm)
    if isinstance(shape, Line):
        lines = _lines(shape, window, area)
        if lines:
            return lines
    if isinstance(shape, Ellipse) and _within(shape, area):
        return [Ellipse(shape.cx_mm - area.x0_mm, shape.cy_mm - area.y0_mm, shape.rx_mm, shape.ry_mm)]
    return [_outline(part, area) for part in _polygons(_surface(shape).intersection(window))]


def _within(shape: Ellipse, area: Rect) -> bool:
    return (
        area.x0_mm <= shape.cx_mm - shape.rx_mm
        and shape.cx_mm + shape.rx_mm <= area.x1_mm
        and area.y0_mm <= shape.cy_mm - shape.ry_mm
        and shape.cy_mm + shape.ry_mm <= area.y1_mm
    )


def _surface(shape: Shape) -> BaseGeometry:
    match shape:
        case Ellipse(cx, cy, rx, ry):
            steps = 4 * _ELLIPSE_QUARTER_STEPS
            turns = (2 * math.pi * step / steps for step in range(steps))
            return Polygon([(cx + rx * math.cos(turn), cy + ry * math.sin(turn)) for turn in turns])
        case Line(points, width):
            spine = LineString(points) if len(set(points)) > 1 else Point(points[0])
            return spine.buffer(width / 2, cap_style="flat")
        case Outline(points):
            return make_valid(Polygon(points))


def _lines(shape: Line, window: BaseGeometry, area: Rect) -> list[Shape]:
    left = LineString(shape.points).intersection(window)
    return [
        Line(tuple((x - area.x0_mm, y - area.y0_mm) for x, y in part.coords), shape.width_mm)
        for part in getattr(left, "geoms", [left])
        if isinstance(part, LineString) and part.length > 0
    ]


def _polygons(left: BaseGeometry) -> list[Polygon]:
    parts = [left] if isinstance(left, Polygon) else getattr(left, "geoms", [])
    found: list[Polygon] = []
    for part in parts:
        if isinstance(part, MultiPolygon):
            found += part.geoms
        elif isinstance(part, Polygon):
            found.append(part)
    return [part for part in found if part.area >= _LEAST_AREA_MM2]


def _outline(part: Polygon, area: Rect) -> Outline:
    ring = part.exterior.simplify(_SIMPLIFIED_MM)
    tolerance = _SIMPLIFIED_MM
    while len(ring.coords) > MOST_POINTS:
        tolerance *= 2
        ring = part.exterior.simplify(tolerance)
    return Outline(tuple((x - area.x0_mm, y - area.y0_mm) for x, y in list(ring.coords)[:-1]))
