"""Lengths as people write them, and lumber as it is tallied; inside, everything is millimetres."""

from shopapi.craft.measures.lengths import (
    LONGEST_MM,
    MM_PER_FOOT,
    MM_PER_INCH,
    MeasureError,
    Size,
    Unit,
    check_length,
    format_as,
    format_length,
    parse_length,
)
from shopapi.craft.measures.lumber import (
    board_feet,
    parse_quarters,
    rough_thickness_mm,
    surface_measure,
    surfaced_thickness_mm,
    volume_board_feet,
)

__all__ = [
    "LONGEST_MM",
    "MM_PER_FOOT",
    "MM_PER_INCH",
    "MeasureError",
    "Size",
    "Unit",
    "board_feet",
    "check_length",
    "format_as",
    "format_length",
    "parse_length",
    "parse_quarters",
    "rough_thickness_mm",
    "surface_measure",
    "surfaced_thickness_mm",
    "volume_board_feet",
]
