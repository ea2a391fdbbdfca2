"""How much a slip of the finger costs, in millimetres on the board."""

import numpy as np
from numpy.typing import ArrayLike, NDArray

from shopapi.craft.rectify.corners import Points, corner_points_mm, corners_in_order, points_of
from shopapi.craft.rectify.squaring import square

DEFAULT_SLIP_PX = 2.0
_GRID = (13, 5)
_DIRECTIONS = 36
_STEP_PX = 0.25


def slip_mm(corners_px: ArrayLike, length_mm: float, width_mm: float, *, slip_px: float = DEFAULT_SLIP_PX) -> float:
    """The farthest a mark can be off when every corner slips by up to `slip_px`, each in its worst direction. [mm]

    How: for a grid of 13 by 5 places on the board, J (2x2) tells how a mark drawn there moves with one corner
    (central difference of a quarter pixel, the photo squared anew). Along a direction e all four corners together
    can do slip_px times the sum of |J'e|; the answer is the greatest over grid and 36 directions. First order in the
    slip: good while the slip is small beside the board's width in the photo.

    It is mostly a slip *along* the board: how the length is foreshortened is read off the widths of the two ends, so
    a long narrow board seen small is at the mercy of a pixel there. Points along the edges cure it.

    Args: corners_px, four (x, y) [px]; length_mm, width_mm [mm]; slip_px [px] > 0.
    Errors: those of `corners_in_order`; ValueError for a slip of 0 or less.
    Source: OWN; the tests move corners and compare.

    >>> straight_on = [(0, 100), (1000, 100), (1000, 0), (0, 0)]  # 2 mm a pixel
    >>> round(slip_mm(straight_on, 2000, 200), 1), round(typical_slip_mm(straight_on, 2000, 200), 1)
    (40.4, 14.4)
    """
    corners = corners_in_order(corners_px, length_mm, width_mm)
    return _worst(_moves(corners, corner_points_mm(length_mm, width_mm), slip_px)) * slip_px


def points_slip_mm(points_px: ArrayLike, points_mm: ArrayLike, *, slip_px: float = DEFAULT_SLIP_PX) -> float:
    """`slip_mm` for any reference points, over the stretch of the board that they span. [mm]

    Args: points_px (N, 2) [px], points_mm (N, 2) [mm], as in `square`; slip_px [px] > 0. Errors: those of `square`.
    Source: OWN, as in `slip_mm`.
    """
    return _worst(_moves(points_of(points_px), points_of(points_mm), slip_px)) * slip_px


def _worst(moves: NDArray[np.float64]) -> float:
    angles = np.linspace(0, np.pi, _DIRECTIONS, endpoint=False)
    directions = np.stack([np.cos(angles), np.sin(angles)])
    along = np.einsum("pcba,bd->pcad", moves, directions)
    return float(np.hypot(along[:, :, 0], along[:, :, 1]).sum(axis=1).max())


def typical_slip_mm(
    corners_px: ArrayLike, length_mm: float, width_mm: float, *, slip_px: float = DEFAULT_SLIP_PX
) -> float:
    """Root mean square error at the worst place when each corner slips by `slip_px` in a direction of its own. [mm]

    Args, errors, source: as in `slip_mm`; directions are independent and equally likely.
    Source: PROJECTIVE, error propagation to first order.
    """
    corners = corners_in_order(corners_px, length_mm, width_mm)
    moves = _moves(corners, corner_points_mm(length_mm, width_mm), slip_px)
    return float(np.sqrt((moves**2).sum(axis=(1, 2, 3)).max() / 2) * slip_px)


def _moves(points: Points, target: Points, slip_px: float) -> NDArray[np.float64]:
    """(places, points, 2 board axes, 2 photo axes): millimetres a mark moves per pixel that a point moves."""
    if not slip_px > 0:
        raise ValueError("The slip must be more than 0 pixels.")
    (x0, y0), (x1, y1) = target.min(axis=0), target.max(axis=0)
    along, across = np.linspace(x0, x1, _GRID[0]), np.linspace(y0, y1, _GRID[1])
    places_px = square(points, target).to_photo_px(np.array([(x, y) for x in along for y in across]))
    moves = np.empty((len(places_px), len(points), 2, 2))
    for number in range(len(points)):
        for axis in range(2):
            step = np.zeros(points.shape)
            step[number, axis] = _STEP_PX
            ahead = square(points + step, target).to_board_mm(places_px)
            behind = square(points - step, target).to_board_mm(places_px)
            moves[:, number, :, axis] = (ahead - behind) / (2 * _STEP_PX)
    return moves
