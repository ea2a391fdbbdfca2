"""Marks on boards: their kinds, shapes, bounds and place on the other face."""

from shopapi.craft.marks.clipping import clip
from shopapi.craft.marks.kinds import BLOCKS, KINDS, Blocks, Kind, ShapeType, kind_of
from shopapi.craft.marks.shapes import (
    EDGE_SLACK_MM,
    Ellipse,
    Line,
    MarkError,
    Outline,
    Rect,
    Shape,
    blocked_rect,
    bounds,
    check_inside,
    mirror_across,
    outline_area_mm2,
    parse_shape,
    shape_to_dict,
    stretch,
)

__all__ = [
    "BLOCKS",
    "EDGE_SLACK_MM",
    "KINDS",
    "Blocks",
    "Ellipse",
    "Kind",
    "Line",
    "MarkError",
    "Outline",
    "Rect",
    "Shape",
    "ShapeType",
    "blocked_rect",
    "bounds",
    "check_inside",
    "clip",
    "kind_of",
    "mirror_across",
    "outline_area_mm2",
    "parse_shape",
    "shape_to_dict",
    "stretch",
]
