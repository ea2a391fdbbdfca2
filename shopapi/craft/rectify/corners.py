"""Checks on a board's four corners, and putting them in order.

The order everywhere: butt-end lower, far-end lower, far-end upper, butt-end upper, in pixels of the upright photo (x
right, y down, origin at the upper left corner of the upper left pixel). Seen in a photo this runs anticlockwise.
"""

import math

import numpy as np
from numpy.typing import ArrayLike, NDArray

from shopapi.craft.rectify.refusals import (
    BoardSizeError,
    CornersCrossedError,
    CornersDentedError,
    CornersInLineError,
    CornersMissingError,
    CornersRepeatedError,
    SidesSwappedError,
)

Points = NDArray[np.float64]

CORNER_NAMES = ("butt-end lower", "far-end lower", "far-end upper", "butt-end upper")

# Wider than the largest slab and longer than what a truck carries; anything beyond is a slip of the thumb. Common
# practice, no source.
LEAST_SIDE_MM = 5.0
GREATEST_LENGTH_MM = 20_000.0
GREATEST_WIDTH_MM = 3_000.0

# A finger cannot place two corners closer than this and mean it.
_LEAST_DISTANCE_PX = 4.0
_LEAST_HEIGHT_PX = 2.0


def check_board_size(length_mm: float, width_mm: float) -> tuple[float, float]:
    """Give both sides back as floats, or refuse them.

    Args: length_mm, width_mm [mm].
    Valid: length 5 to 20 000, width 5 to 3000.
    Errors: BoardSizeError for zero, negative, NaN, infinite or absurd sizes.
    Source: COMMON-PRACTICE, sizes of boards.

    >>> check_board_size(2592, 140)
    (2592.0, 140.0)
    """
    for name, value, greatest in (("length", length_mm, GREATEST_LENGTH_MM), ("width", width_mm, GREATEST_WIDTH_MM)):
        if isinstance(value, bool) or not isinstance(value, (int, float, np.integer, np.floating)):
            raise BoardSizeError(f"The {name} must be a number of millimetres.")
        if not math.isfinite(value):
            raise BoardSizeError(f"The {name} is not a number. Give it in millimetres, as the tape shows it.")
        if not LEAST_SIDE_MM <= value <= greatest:
            raise BoardSizeError(
                f"A board cannot have a {name} of {value:g} mm; {LEAST_SIDE_MM:g} mm to {greatest:g} mm would work."
            )
    return float(length_mm), float(width_mm)


def corner_points_mm(length_mm: float, width_mm: float) -> Points:
    """The board's corners in board millimetres, in the order of `CORNER_NAMES`.

    Args: length_mm, width_mm [mm], as in `check_board_size`, whose errors it raises.
    Gives: (4, 2) array of (x, y), x along the grain from the butt end, y up from the lower edge.
    Source: OWN, order of corners.

    >>> corner_points_mm(2000, 150).tolist()
    [[0.0, 0.0], [2000.0, 0.0], [2000.0, 150.0], [0.0, 150.0]]
    """
    length, width = check_board_size(length_mm, width_mm)
    return np.array([[0.0, 0.0], [length, 0.0], [length, width], [0.0, width]])


def points_of(values: ArrayLike, *, least: int = 4) -> Points:
    """Give (N, 2) finite points, or refuse with `CornersMissingError`."""
    try:
        points = np.asarray(values, dtype=float)
    except (TypeError, ValueError):
        raise CornersMissingError("Each point must be two numbers, x and y.") from None
    if points.ndim != 2 or points.shape[1] != 2:
        raise CornersMissingError("Each point must be two numbers, x and y.")
    if len(points) < least:
        raise CornersMissingError(f"{least} points are needed, {len(points)} were given.")
    if not np.isfinite(points).all():
        raise CornersMissingError("A point is not a number. Place it again.")
    return points


def corners_in_order(corners_px: ArrayLike, length_mm: float, width_mm: float) -> Points:
    """Give the four corners in the order of `CORNER_NAMES`, or refuse them.

    A clockwise round is a photo's mirror image, which no camera sees, so it is put right silently: one that starts
    along an edge keeps its butt end (upper and lower edge change places); one that starts along an end keeps its
    first corner. A round the right way about that starts along an end could have started at either end: refused.

    Args: corners_px, four (x, y) in photo pixels; length_mm, width_mm [mm].
    Errors: BoardSizeError, CornersMissingError, CornersRepeatedError, CornersInLineError, CornersCrossedError,
    CornersDentedError, SidesSwappedError.
    Source: GEOMETRY, convex quadrilaterals; the order is our own.

    >>> corners_in_order([(10, 10), (900, 20), (900, 90), (10, 80)], 2000, 150).tolist()
    [[10.0, 80.0], [900.0, 90.0], [900.0, 20.0], [10.0, 10.0]]
    """
    length, width = check_board_size(length_mm, width_mm)
    corners = points_of(corners_px)
    if len(corners) != 4:
        raise CornersMissingError(f"Four corners are needed, {len(corners)} were given.")
    _refuse_repeated(corners)
    _refuse_in_line(corners)
    turns = _turns(corners)
    clockwise = _clockwise(corners, turns)
    ends_first = _ends_first(corners, length, width)
    if clockwise:
        return corners[[0, 3, 2, 1]] if ends_first else corners[[3, 2, 1, 0]]
    if ends_first:
        raise SidesSwappedError(
            f"The first two corners lie on a short side, but the board is {length:g} mm long and {width:g} mm wide. "
            "Start at the lower corner of the butt end and go along the lower edge."
        )
    return corners


def _refuse_repeated(corners: Points) -> None:
    for i in range(4):
        for j in range(i):
            if np.hypot(*(corners[i] - corners[j])) < _LEAST_DISTANCE_PX:
                raise CornersRepeatedError(
                    f"The {CORNER_NAMES[j]} and the {CORNER_NAMES[i]} corner lie on the same spot. Move one of them."
                )


def _refuse_in_line(corners: Points) -> None:
    for skipped in range(4):
        a, b, c = np.delete(corners, skipped, axis=0)
        longest = max(np.hypot(*(b - a)), np.hypot(*(c - b)), np.hypot(*(a - c)))
        if abs(_cross(b - a, c - a)) / longest < _LEAST_HEIGHT_PX:
            raise CornersInLineError(
                "Three of the corners lie on one line, so the board would have no width. "
                "Place them on the board's own four corners, or come closer with the camera."
            )


def _turns(corners: Points) -> NDArray[np.float64]:
    """Sign of the turn at each corner: +1 turns clockwise as seen in the photo (y down)."""
    ahead, behind = np.roll(corners, -1, axis=0), np.roll(corners, 1, axis=0)
    return np.sign([_cross(c - b, a - c) for b, c, a in zip(behind, corners, ahead, strict=True)])


def _clockwise(corners: Points, turns: NDArray[np.float64]) -> bool:
    balance = int(turns.sum())
    if balance == 0:  # two turns each way: a bow-tie
        raise CornersCrossedError(
            "The corners cross over. Go round the board: butt end lower, far end lower, far end upper, butt end upper."
        )
    if abs(balance) == 2:
        odd = int(np.argmin(turns * np.sign(balance)))
        raise CornersDentedError(
            f"The {CORNER_NAMES[odd]} corner lies inside the other three. Place it on the board's own corner."
        )
    return balance > 0


def _ends_first(corners: Points, length_mm: float, width_mm: float) -> bool:
    """Whether the sides given as length are clearly the short ones; foreshortening never turns a real board that
    far."""
    sides = np.hypot(*(np.roll(corners, -1, axis=0) - corners).T)
    seen = (sides[0] + sides[2]) / (sides[1] + sides[3])
    true = length_mm / width_mm
    return (true > 1.5 and seen < 1 / 1.5) or (true < 1 / 1.5 and seen > 1.5)


def _cross(a: Points, b: Points) -> float:
    return float(a[0] * b[1] - a[1] * b[0])
