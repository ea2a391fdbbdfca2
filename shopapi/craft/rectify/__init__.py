"""Squaring photographs: corners to homography, residuals, named refusals."""

from shopapi.craft.rectify.corners import (
    CORNER_NAMES,
    GREATEST_LENGTH_MM,
    GREATEST_WIDTH_MM,
    LEAST_SIDE_MM,
    check_board_size,
    corner_points_mm,
    corners_in_order,
)
from shopapi.craft.rectify.refusals import (
    BeyondHorizonError,
    BoardSizeError,
    CornersCrossedError,
    CornersDentedError,
    CornersInLineError,
    CornersMissingError,
    CornersRepeatedError,
    PictureError,
    RectifyError,
    SidesSwappedError,
)
from shopapi.craft.rectify.slip import DEFAULT_SLIP_PX, slip_mm, typical_slip_mm
from shopapi.craft.rectify.squaring import Squaring, apply_homography, square, square_corners
from shopapi.craft.rectify.warp import DEFAULT_GREATEST_PX, finest_mm_per_px, warp

__all__ = [
    "CORNER_NAMES",
    "DEFAULT_GREATEST_PX",
    "DEFAULT_SLIP_PX",
    "GREATEST_LENGTH_MM",
    "GREATEST_WIDTH_MM",
    "LEAST_SIDE_MM",
    "BeyondHorizonError",
    "BoardSizeError",
    "CornersCrossedError",
    "CornersDentedError",
    "CornersInLineError",
    "CornersMissingError",
    "CornersRepeatedError",
    "PictureError",
    "RectifyError",
    "SidesSwappedError",
    "Squaring",
    "apply_homography",
    "check_board_size",
    "corner_points_mm",
    "corners_in_order",
    "finest_mm_per_px",
    "slip_mm",
    "square",
    "square_corners",
    "typical_slip_mm",
    "warp",
]
