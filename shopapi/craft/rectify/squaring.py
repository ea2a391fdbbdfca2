"""The map between photo pixels and board millimetres."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from shopapi.craft.rectify.corners import Points, corner_points_mm, corners_in_order, points_of
from shopapi.craft.rectify.refusals import BeyondHorizonError, CornersInLineError, CornersMissingError

Matrix = NDArray[np.float64]

# Gauss-Newton on 8 unknowns from a good start is done in three or four steps.
_REFINING_STEPS = 40


@dataclass(frozen=True, eq=False)
class Squaring:
    """How a photograph lies on its board.

    homography: 3x3, photo pixels to board millimetres; its last element is 1 unless that is impossible.
    points_px, points_mm: (N, 2) reference points it was made from, in order.
    residuals_mm: (N,) distance on the board between each reference point and where the homography puts it [mm].
    """

    homography: Matrix
    points_px: Points
    points_mm: Points
    residuals_mm: NDArray[np.float64]

    @property
    def residual_mm(self) -> float:
        """Root mean square of `residuals_mm` [mm]; four points always fit, so it says something from five on."""
        return float(np.sqrt(np.mean(self.residuals_mm**2)))

    def to_board_mm(self, points_px: ArrayLike) -> Points:
        """Board millimetres of (N, 2) photo pixels; BeyondHorizonError where the photo does not look at the
        board's plane."""
        return apply_homography(self.homography, points_px, like=self.points_px[0])

    def to_photo_px(self, points_mm: ArrayLike) -> Points:
        """Photo pixels of (N, 2) board millimetres."""
        return apply_homography(np.linalg.inv(self.homography), points_mm, like=self.points_mm[0])


def square(points_px: ArrayLike, points_mm: ArrayLike) -> Squaring:
    """Find the homography that takes reference points in the photo to their places on the board.

    Both sets are centred and scaled before solving. Four points fit exactly; with more the sum of squared distances
    *in the photo* is least, because that is where a finger slips.

    Args: points_px (N, 2) [px], points_mm (N, 2) [mm], same order, N >= 4, no three of four on a line.
    Errors: CornersMissingError, CornersInLineError, BeyondHorizonError (points that no camera sees at once).
    Source: PROJECTIVE, algorithms 4.2 and 4.3.

    >>> s = square([(0, 100), (100, 100), (100, 0), (0, 0)], [(0, 0), (500, 0), (500, 500), (0, 500)])
    >>> s.to_board_mm([(50, 75)]).round(6).tolist()
    [[250.0, 125.0]]
    """
    px, mm = points_of(points_px), points_of(points_mm)
    if len(px) != len(mm):
        raise CornersMissingError(f"{len(px)} points in the photo but {len(mm)} on the board.")
    from_px, from_mm = _centring(px), _centring(mm)
    px_n, mm_n = _move(from_px, px), _move(from_mm, mm)
    to_px = _least_squares(mm_n, px_n)
    if len(px) > 4:
        to_px = _refined(to_px, mm_n, px_n)
    depth = np.column_stack([mm_n, np.ones(len(mm_n))]) @ to_px[2]
    if not (np.all(depth > 0) or np.all(depth < 0)):
        raise BeyondHorizonError("No camera sees these points like that. Check where each point lies on the board.")
    if abs(np.linalg.det(to_px)) < 1e-12:
        raise CornersInLineError("The points lie on one line. Use points on both edges of the board.")
    homography = _settled(np.linalg.inv(from_mm) @ np.linalg.inv(to_px) @ from_px, px)
    distances = np.hypot(*(apply_homography(homography, px) - mm).T)
    return Squaring(homography, px, mm, distances)


def square_corners(corners_px: ArrayLike, length_mm: float, width_mm: float) -> Squaring:
    """The squaring of a photo that shows the whole board; corners are checked and put in order first.

    Args: corners_px, four (x, y) [px] in the order of `CORNER_NAMES`; length_mm, width_mm [mm].
    Errors: those of `corners_in_order` and `square`.
    Source: PROJECTIVE, plane from four points.
    """
    return square(corners_in_order(corners_px, length_mm, width_mm), corner_points_mm(length_mm, width_mm))


def apply_homography(homography: ArrayLike, points: ArrayLike, *, like: ArrayLike | None = None) -> Points:
    """Take (N, 2) points through a 3x3 homography.

    With `like`, a point known to be in view, points on the other side of the horizon are refused (BeyondHorizonError).
    Source: PROJECTIVE, homogeneous coordinates.
    """
    h = np.asarray(homography, dtype=float)
    xy = points_of(points, least=1)
    moved = np.column_stack([xy, np.ones(len(xy))]) @ h.T
    depth = moved[:, 2]
    if like is not None:
        depth_in_view = float(np.append(np.asarray(like, dtype=float), 1.0) @ h[2])
        if np.any(depth * np.sign(depth_in_view) <= abs(depth_in_view) * 1e-9):
            raise BeyondHorizonError("That point lies beyond the board's horizon. Choose a point on the board.")
    if np.any(depth == 0):
        raise BeyondHorizonError("That point lies on the board's horizon. Choose a point on the board.")
    return moved[:, :2] / depth[:, None]


def _centring(points: Points) -> Matrix:
    """Similarity that puts the centroid at 0 and the mean distance at sqrt 2 (Hartley and Zisserman, section 4.4)."""
    centre = points.mean(axis=0)
    spread = np.hypot(*(points - centre).T).mean()
    if spread == 0:
        raise CornersInLineError("All points lie on the same spot.")
    scale = np.sqrt(2) / spread
    return np.array([[scale, 0, -scale * centre[0]], [0, scale, -scale * centre[1]], [0, 0, 1]])


def _move(similarity: Matrix, points: Points) -> Points:
    return points * similarity[0, 0] + similarity[:2, 2]


def _least_squares(source: Points, target: Points) -> Matrix:
    """Direct linear transform: the singular vector of the smallest singular value."""
    x, y = source.T
    u, v = target.T
    one, nil = np.ones_like(x), np.zeros_like(x)
    rows = np.concatenate(
        [
            np.column_stack([x, y, one, nil, nil, nil, -u * x, -u * y, -u]),
            np.column_stack([nil, nil, nil, x, y, one, -v * x, -v * y, -v]),
        ]
    )
    _, sizes, vectors = np.linalg.svd(rows)
    if sizes[7] < 1e-9 * sizes[0]:
        raise CornersInLineError("Too many of the points lie on one line. Use points on both edges of the board.")
    return vectors[8].reshape(3, 3)


def _refined(start: Matrix, source: Points, target: Points) -> Matrix:
    """Levenberg-Marquardt on the distances in the target; the direct solution weighs points unevenly.

    A step counts only where it brings the points nearer and keeps all of them on one side of the horizon.
    """
    h = start / np.linalg.norm(start)
    missed, slopes = _misses(h, source, target)
    if not np.all(np.isfinite(missed)):
        return h
    damping = 1e-3
    for _ in range(_REFINING_STEPS):
        # The scale of h is free; the damping keeps the equations solvable along it.
        held = np.sqrt(damping) * np.diag(np.linalg.norm(slopes, axis=0) + 1e-6)
        step = np.linalg.lstsq(np.concatenate([slopes, held]), np.append(missed, np.zeros(9)), rcond=None)[0]
        tried = h + step.reshape(3, 3)
        tried /= np.linalg.norm(tried)
        then_missed, then_slopes = _misses(tried, source, target)
        if then_missed @ then_missed < missed @ missed:
            h, missed, slopes, damping = tried, then_missed, then_slopes, damping / 10
            if np.linalg.norm(step) < 1e-13:
                break
        elif damping > 1e9:
            break
        else:
            damping *= 10
    return h


def _misses(h: Matrix, source: Points, target: Points) -> tuple[Points, Points]:
    """How far each coordinate misses, and how it moves with h; infinitely far beyond the horizon."""
    x, y = source.T
    one, nil = np.ones_like(x), np.zeros_like(x)
    moved = np.column_stack([source, one]) @ h.T
    w = moved[:, 2]
    if not (np.all(w > 0) or np.all(w < 0)):
        return np.full(2 * len(source), np.inf), np.zeros((2 * len(source), 9))
    u, v = moved[:, 0] / w, moved[:, 1] / w
    along = np.column_stack([x, y, one, nil, nil, nil, -u * x, -u * y, -u]) / w[:, None]
    across = np.column_stack([nil, nil, nil, x, y, one, -v * x, -v * y, -v]) / w[:, None]
    return np.concatenate([target[:, 0] - u, target[:, 1] - v]), np.concatenate([along, across])


def _settled(h: Matrix, points: Points) -> Matrix:
    """Scale so that the last element is 1, or, where the horizon passes the photo's corner, the depth at the
    centroid."""
    depth = float(np.append(points.mean(axis=0), 1.0) @ h[2])
    return h / h[2, 2] if abs(h[2, 2]) > 1e-6 * abs(depth) else h / depth
