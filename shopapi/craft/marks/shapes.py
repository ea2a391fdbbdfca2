"""Shapes of marks in board millimetres: reading them, their bounds, and their place on the other face."""

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

Point = tuple[float, float]

# A finger may overshoot the board's edge by this much; a mark farther out was drawn for another board.
EDGE_SLACK_MM = 10.0
GREATEST_MM = 20_000.0
MOST_POINTS = 500


class MarkError(ValueError):
    """A mark that cannot be used as drawn; the message is meant for the maker."""


@dataclass(frozen=True)
class Rect:
    """An upright rectangle on the board. [mm]"""

    x0_mm: float
    y0_mm: float
    x1_mm: float
    y1_mm: float

    @property
    def length_mm(self) -> float:
        return self.x1_mm - self.x0_mm

    @property
    def width_mm(self) -> float:
        return self.y1_mm - self.y0_mm


@dataclass(frozen=True)
class Ellipse:
    """An ellipse with its axes along and across the grain. [mm]"""

    cx_mm: float
    cy_mm: float
    rx_mm: float
    ry_mm: float


@dataclass(frozen=True)
class Line:
    """A crack or streak: a run of points with a width. [mm]"""

    points: tuple[Point, ...]
    width_mm: float


@dataclass(frozen=True)
class Outline:
    """An area inside a closed outline. [mm]"""

    points: tuple[Point, ...]


Shape = Ellipse | Line | Outline


def parse_shape(values: Mapping[str, Any]) -> Shape:
    """The shape that an API dict describes.

    Args: values, one of {"type": "ellipse", "cx_mm", "cy_mm", "rx_mm", "ry_mm"}, {"type": "line", "points": [[x, y]..],
    "width_mm"}, {"type": "outline", "points"}; board mm.
    Valid: finite numbers within 20 m, radii and widths more than 0; 2 to 500 points for a line, 3 to 500 for an
    outline.
    Errors: MarkError, saying what would work.
    Source: OWN, the shapes of marks.

    >>> parse_shape({"type": "ellipse", "cx_mm": 100, "cy_mm": 50, "rx_mm": 12, "ry_mm": 9})
    Ellipse(cx_mm=100.0, cy_mm=50.0, rx_mm=12.0, ry_mm=9.0)
    """
    if not isinstance(values, Mapping):
        raise MarkError("A mark's shape must be an ellipse, a line or an outline.")
    match values.get("type"):
        case "ellipse":
            _only(values, ("cx_mm", "cy_mm", "rx_mm", "ry_mm"))
            return Ellipse(
                _number(values, "cx_mm", "centre"),
                _number(values, "cy_mm", "centre"),
                _size(values, "rx_mm", "length"),
                _size(values, "ry_mm", "width"),
            )
        case "line":
            _only(values, ("points", "width_mm"))
            line = Line(_points(values, least=2), _size(values, "width_mm", "width"))
            if all(point == line.points[0] for point in line.points):
                raise MarkError("A line needs two different ends. Draw it along the crack.")
            return line
        case "outline":
            _only(values, ("points",))
            outline = Outline(_points(values, least=3))
            if outline_area_mm2(outline) < 1.0:
                raise MarkError("An outline needs an area. Draw it around the flaw, or use a line.")
            return outline
    raise MarkError("A mark's shape must be an ellipse, a line or an outline.")


def shape_to_dict(shape: Shape) -> dict[str, Any]:
    """The API dict of a shape; `parse_shape` reads it back.
    Source: OWN, the shapes of marks.

    >>> shape_to_dict(Line(((0.0, 40.0), (120.0, 42.0)), 2.0))
    {'type': 'line', 'points': [[0.0, 40.0], [120.0, 42.0]], 'width_mm': 2.0}
    """
    match shape:
        case Ellipse(cx, cy, rx, ry):
            return {"type": "ellipse", "cx_mm": cx, "cy_mm": cy, "rx_mm": rx, "ry_mm": ry}
        case Line(points, width):
            return {"type": "line", "points": [list(point) for point in points], "width_mm": width}
        case Outline(points):
            return {"type": "outline", "points": [list(point) for point in points]}


def bounds(shape: Shape) -> Rect:
    """The least upright rectangle around the shape, a line's width included. [mm]
    Source: GEOMETRY, least upright rectangle.

    >>> bounds(Ellipse(100, 50, 12, 9))
    Rect(x0_mm=88, y0_mm=41, x1_mm=112, y1_mm=59)
    """
    if isinstance(shape, Ellipse):
        return Rect(
            shape.cx_mm - shape.rx_mm, shape.cy_mm - shape.ry_mm, shape.cx_mm + shape.rx_mm, shape.cy_mm + shape.ry_mm
        )
    half = shape.width_mm / 2 if isinstance(shape, Line) else 0.0
    xs, ys = zip(*shape.points, strict=True)
    return Rect(min(xs) - half, min(ys) - half, max(xs) + half, max(ys) + half)


def blocked_rect(shape: Shape, *, margin_mm: float = 0.0) -> Rect:
    """The rectangle that parts must keep off: the bounds and a margin around them. [mm]

    Args: margin_mm [mm] >= 0, usually the kind's own.
    Source: OWN, bounds and margin.
    """
    if not (math.isfinite(margin_mm) and margin_mm >= 0):
        raise MarkError("The margin around a mark must be 0 mm or more.")
    around = bounds(shape)
    return Rect(around.x0_mm - margin_mm, around.y0_mm - margin_mm, around.x1_mm + margin_mm, around.y1_mm + margin_mm)


def check_inside(shape: Shape, length_mm: float, width_mm: float) -> None:
    """Refuse a mark that was not drawn on this board.

    An ellipse's centre, each point of a line or outline, must lie on the board or within 10 mm of it (a finger
    overshoots, and an edge cuts knots in two). Errors: MarkError.
    Source: OWN, refusal in the maker's words.
    """
    points = ((shape.cx_mm, shape.cy_mm),) if isinstance(shape, Ellipse) else shape.points
    for x, y in points:
        if not (-EDGE_SLACK_MM <= x <= length_mm + EDGE_SLACK_MM and -EDGE_SLACK_MM <= y <= width_mm + EDGE_SLACK_MM):
            raise MarkError(
                f"The mark reaches {x:.0f} mm from the butt end and {y:.0f} mm from the lower edge, but the board "
                f"is {length_mm:.0f} mm long and {width_mm:.0f} mm wide. Draw it on the board, or correct its size."
            )


def mirror_across(shape: Shape, width_mm: float) -> Shape:
    """The shape as seen from the other face: y counted from the other edge. Twice gives the shape back.

    Args: width_mm, the board's [mm].
    Source: GEOMETRY, reflection.

    >>> mirror_across(Ellipse(100, 50, 12, 9), 150)
    Ellipse(cx_mm=100, cy_mm=100, rx_mm=12, ry_mm=9)
    """
    match shape:
        case Ellipse(cx, cy, rx, ry):
            return Ellipse(cx, width_mm - cy, rx, ry)
        case Line(points, width):
            return Line(tuple((x, width_mm - y) for x, y in points), width)
        case Outline(points):
            return Outline(tuple((x, width_mm - y) for x, y in points))


def stretch(shape: Shape, along: float, across: float) -> Shape:
    """The shape on a board whose tape sizes were put right: x times `along`, y times `across`, both more than 0.

    A line keeps its width: it was set, not measured on the photograph.
    Source: GEOMETRY, scaling along the axes.

    >>> stretch(Ellipse(100, 50, 12, 9), 1.5, 2)
    Ellipse(cx_mm=150.0, cy_mm=100, rx_mm=18.0, ry_mm=18)
    """
    if not (math.isfinite(along) and math.isfinite(across) and along > 0 and across > 0):
        raise MarkError("A board's sizes must be more than 0 mm.")
    match shape:
        case Ellipse(cx, cy, rx, ry):
            return Ellipse(cx * along, cy * across, rx * along, ry * across)
        case Line(points, width):
            return Line(tuple((x * along, y * across) for x, y in points), width)
        case Outline(points):
            return Outline(tuple((x * along, y * across) for x, y in points))


def outline_area_mm2(outline: Outline) -> float:
    """Area by the shoelace formula; an outline that crosses itself counts its loops against each other. [mm2]

    Source: GEOMETRY, shoelace formula.
    """
    pairs = zip(outline.points, outline.points[1:] + outline.points[:1], strict=True)
    return abs(sum(x0 * y1 - x1 * y0 for (x0, y0), (x1, y1) in pairs)) / 2


def _only(values: Mapping[str, Any], names: tuple[str, ...]) -> None:
    unknown = set(values) - set(names) - {"type"}
    if unknown:
        raise MarkError(f"A {values['type']} has no {', '.join(sorted(map(str, unknown)))}; it has {', '.join(names)}.")


def _finite(value: Any, what: str) -> float:
    if isinstance(value, bool) or not isinstance(value, (int, float)) or not math.isfinite(value):
        raise MarkError(f"The mark's {what} must be a number of millimetres.")
    if abs(value) > GREATEST_MM:
        raise MarkError(f"The mark's {what} lies {value:g} mm away; no board is that long.")
    return float(value)


def _number(values: Mapping[str, Any], name: str, what: str) -> float:
    return _finite(values.get(name), what)


def _size(values: Mapping[str, Any], name: str, what: str) -> float:
    size = _finite(values.get(name), what)
    if size <= 0:
        raise MarkError(f"The mark's {what} must be more than 0 mm.")
    return size


def _points(values: Mapping[str, Any], *, least: int) -> tuple[Point, ...]:
    points = values.get("points")
    if not isinstance(points, Sequence) or isinstance(points, str):
        raise MarkError("The mark's points must be a list of [x, y].")
    if not least <= len(points) <= MOST_POINTS:
        raise MarkError(f"A {values['type']} has {least} to {MOST_POINTS} points, not {len(points)}.")
    for point in points:
        if not isinstance(point, Sequence) or isinstance(point, str) or len(point) != 2:
            raise MarkError("Each point of a mark must be [x, y].")
    return tuple((_finite(x, "point"), _finite(y, "point")) for x, y in points)
