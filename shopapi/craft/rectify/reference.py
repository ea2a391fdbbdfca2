"""Reference points at known places of a board: checked, and put right where only one reading makes sense."""

import numpy as np
from numpy.typing import ArrayLike

from shopapi.craft.rectify.corners import Points, check_board_size, points_of
from shopapi.craft.rectify.refusals import (
    CornersInLineError,
    CornersMissingError,
    CornersRepeatedError,
    OffBoardError,
    RectifyError,
)
from shopapi.craft.rectify.squaring import Squaring, square

MOST_POINTS = 60
_LEAST_APART_PX, _LEAST_APART_MM = 4.0, 1.0
_TAPE_SLACK_MM = 3.0
# Two ticks of one place along the board, upper and lower, taken for each other: putting that right must bring the
# points nearer by this factor, and no other pair may do so too.
_CLEARLY = 5.0
_LEAST_WORTH_MM = 3.0


def reference_points(
    points_px: ArrayLike, points_mm: ArrayLike, length_mm: float, width_mm: float
) -> tuple[Points, Points]:
    """Give the points' pixels and their places on the board, or refuse them.

    Points whose upper and lower edge were taken for each other make a mirror image, which no camera sees, so they are
    put right silently; so is a single pair of ticks taken for each other, where six points or more leave no doubt.

    Args: points_px (N, 2) [px]; points_mm (N, 2), from the butt end and from the lower edge as the face is seen [mm];
    length_mm, width_mm, the board's [mm]; N from 4 to 60.
    Errors: BoardSizeError, CornersMissingError, CornersRepeatedError, CornersInLineError, OffBoardError,
    BeyondHorizonError.
    Source: COMMON-PRACTICE, least and most points.

    >>> px, mm = reference_points(
    ...     [(0, 0), (900, 0), (900, 90), (0, 90)], [(0, 0), (2000, 0), (2000, 200), (0, 200)], 2000, 200
    ... )
    >>> mm.tolist()
    [[0.0, 200.0], [2000.0, 200.0], [2000.0, 0.0], [0.0, 0.0]]
    """
    length, width = check_board_size(length_mm, width_mm)
    px, mm = points_of(points_px), points_of(points_mm)
    if len(px) != len(mm):
        raise CornersMissingError(f"{len(px)} points in the photo but {len(mm)} on the board.")
    if len(px) > MOST_POINTS:
        raise CornersMissingError(f"{len(px)} points were given; {MOST_POINTS} at most are of use.")
    _refuse_off_board(mm, length, width)
    _refuse_repeated(px, mm)
    if np.ptp(mm[:, 1]) < width / 4:
        raise CornersInLineError("The points lie along one edge. Set some on the other edge of the board too.")
    mm = _pair_put_right(px, mm)
    if is_mirrored(square(px, mm)):
        mm = np.column_stack([mm[:, 0], width - mm[:, 1]])
        square(px, mm)
    return px, mm


def is_mirrored(squaring: Squaring) -> bool:
    """Whether the face would be a mirror image: a camera sees y up where the photo's y runs down."""
    centre = squaring.points_px.mean(axis=0)
    a, b, c = squaring.to_board_mm(centre + np.array([[0.0, 0.0], [1.0, 0.0], [0.0, 1.0]]))
    return bool((b - a)[0] * (c - a)[1] - (b - a)[1] * (c - a)[0] > 0)


def _refuse_off_board(mm: Points, length: float, width: float) -> None:
    for number, (x, y) in enumerate(mm, 1):
        if not -_TAPE_SLACK_MM <= x <= length + _TAPE_SLACK_MM:
            raise OffBoardError(
                f"Point {number} lies {x:.0f} mm from the butt end, but the board is {length:.0f} mm long. "
                "Correct its distance, or the board's length."
            )
        if not -_TAPE_SLACK_MM <= y <= width + _TAPE_SLACK_MM:
            raise OffBoardError(
                f"Point {number} lies {y:.0f} mm from the lower edge, but the board is {width:.0f} mm wide."
            )


def _refuse_repeated(px: Points, mm: Points) -> None:
    for i in range(len(px)):
        for j in range(i):
            if np.hypot(*(px[i] - px[j])) < _LEAST_APART_PX:
                raise CornersRepeatedError(f"Points {j + 1} and {i + 1} lie on the same spot. Move one of them.")
            if np.hypot(*(mm[i] - mm[j])) < _LEAST_APART_MM:
                raise CornersRepeatedError(
                    f"Points {j + 1} and {i + 1} are said to be the same place of the board. Correct one of them."
                )


def _pair_put_right(px: Points, mm: Points) -> Points:
    if len(px) < 6:
        return mm
    before = _missing_mm(px, mm)
    if before < _LEAST_WORTH_MM:
        return mm
    better = []
    for i in range(len(mm)):
        for j in range(i):
            if mm[i, 0] == mm[j, 0]:
                tried = mm.copy()
                tried[[i, j]] = mm[[j, i]]
                if _missing_mm(px, tried) * _CLEARLY < before:
                    better.append(tried)
    return better[0] if len(better) == 1 else mm


def _missing_mm(px: Points, mm: Points) -> float:
    try:
        return square(px, mm).residual_mm
    except RectifyError:
        return float("inf")
