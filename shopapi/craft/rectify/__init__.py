"""Squaring photographs: corners to homography, residuals, named refusals."""

from shopapi.craft.rectify.cards import (
    CARD_SIDE_MM,
    MARKER_CELLS,
    MARKER_IDS,
    MARKER_SIDE_MM,
    Cards,
    find_cards,
    marker_cells,
)
from shopapi.craft.rectify.corners import (
    CORNER_NAMES,
    GREATEST_LENGTH_MM,
    GREATEST_WIDTH_MM,
    LEAST_SIDE_MM,
    check_board_size,
    corner_points_mm,
    corners_in_order,
)
from shopapi.craft.rectify.joining import Joined, Overlap, Stretch, join_shots
from shopapi.craft.rectify.lens import Lens, Straightened, straighten
from shopapi.craft.rectify.outline import Proposal, outline_corners, trace_edges
from shopapi.craft.rectify.proposing import propose_corners
from shopapi.craft.rectify.reference import reference_points
from shopapi.craft.rectify.refusals import (
    BeyondHorizonError,
    BoardSizeError,
    CornersCrossedError,
    CornersDentedError,
    CornersInLineError,
    CornersMissingError,
    CornersRepeatedError,
    MirroredShotError,
    NoStretchError,
    OffBoardError,
    PictureError,
    RectifyError,
    SidesSwappedError,
)
from shopapi.craft.rectify.slip import DEFAULT_SLIP_PX, points_slip_mm, slip_mm, typical_slip_mm
from shopapi.craft.rectify.squaring import Squaring, apply_homography, square, square_corners
from shopapi.craft.rectify.warp import DEFAULT_GREATEST_PX, Picture, finest_mm_per_px, warp

__all__ = [
    "CARD_SIDE_MM",
    "CORNER_NAMES",
    "DEFAULT_GREATEST_PX",
    "DEFAULT_SLIP_PX",
    "GREATEST_LENGTH_MM",
    "GREATEST_WIDTH_MM",
    "LEAST_SIDE_MM",
    "MARKER_CELLS",
    "MARKER_IDS",
    "MARKER_SIDE_MM",
    "BeyondHorizonError",
    "BoardSizeError",
    "Cards",
    "CornersCrossedError",
    "CornersDentedError",
    "CornersInLineError",
    "CornersMissingError",
    "CornersRepeatedError",
    "Joined",
    "Lens",
    "MirroredShotError",
    "NoStretchError",
    "OffBoardError",
    "Overlap",
    "Picture",
    "PictureError",
    "Proposal",
    "RectifyError",
    "SidesSwappedError",
    "Squaring",
    "Straightened",
    "Stretch",
    "apply_homography",
    "check_board_size",
    "corner_points_mm",
    "corners_in_order",
    "find_cards",
    "finest_mm_per_px",
    "join_shots",
    "marker_cells",
    "outline_corners",
    "points_slip_mm",
    "propose_corners",
    "reference_points",
    "slip_mm",
    "square",
    "square_corners",
    "straighten",
    "trace_edges",
    "typical_slip_mm",
    "warp",
]
