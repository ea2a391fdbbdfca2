"""A lens that bends straight edges: one radial term, found from the board's own edges."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike

from shopapi.craft.rectify.corners import Points, points_of
from shopapi.craft.rectify.refusals import RectifyError
from shopapi.craft.rectify.squaring import Squaring, square

# No phone's main lens bends more, not even before its own correction. From memory.
GREATEST_K = 0.3
_LEAST_ON_EDGE = 3
_LEAST_GAIN = 0.5
_STEPS = 8192
_GOLDEN = (np.sqrt(5) - 1) / 2


@dataclass(frozen=True)
class Lens:
    """How far a lens bends: what it draws at r (1 = half the photo's diagonal) from the centre, a pinhole would draw
    at r (1 + k r^2).

    k: 0 for a pinhole, positive for a barrel (straight edges bulge outwards), within 0.3 of 0. centre_px, radius_px:
    the photo's middle and half its diagonal [px].
    """

    k: float
    centre_px: tuple[float, float]
    radius_px: float

    @classmethod
    def of_photo(cls, k: float, size_px: tuple[int, int]) -> "Lens":
        """A lens whose axis goes through the middle of a photo of that width and height [px]."""
        width, height = size_px
        return cls(float(k), (width / 2, height / 2), float(np.hypot(width, height) / 2))

    def straightened(self, points_px: ArrayLike) -> Points:
        """Where a pinhole would have drawn (N, 2) photo pixels."""
        away = (points_of(points_px, least=1) - self.centre_px) / self.radius_px
        return self.centre_px + away * (self.radius_px * (1 + self.k * (away**2).sum(axis=1)))[:, None]

    def bent(self, points_px: ArrayLike) -> Points:
        """Where this lens draws (N, 2) pixels of a pinhole: the inverse of `straightened`, to 0.001 px on the photo."""
        away = (np.asarray(points_px, dtype=float) - self.centre_px) / self.radius_px
        straight = np.hypot(*away.T)
        # A pincushion turns back on itself somewhere outside the photo; nothing is drawn beyond.
        reach = 2.5 if self.k >= 0 else min(2.5, float(np.sqrt(-1 / (3 * self.k))))
        drawn = np.linspace(0, reach, _STEPS)
        bent = np.interp(straight, drawn * (1 + self.k * drawn**2), drawn)
        share = np.divide(bent, straight, out=np.ones_like(straight), where=straight > 0)
        return self.centre_px + away * (self.radius_px * share)[:, None]


@dataclass(frozen=True, eq=False)
class Straightened:
    """A squaring, and the lens it needs first; lens is None where the plain squaring already fits.

    With a lens, `squaring` takes *straightened* pixels to board millimetres: `to_board_mm(lens.straightened(px))`.
    """

    squaring: Squaring
    lens: Lens | None

    def to_board_mm(self, points_px: ArrayLike) -> Points:
        """Board millimetres of (N, 2) photo pixels."""
        return self.squaring.to_board_mm(self.lens.straightened(points_px) if self.lens else points_px)

    def to_photo_px(self, points_mm: ArrayLike) -> Points:
        """Photo pixels of (N, 2) board millimetres."""
        straight = self.squaring.to_photo_px(points_mm)
        return self.lens.bent(straight) if self.lens else straight


def straighten(
    points_px: ArrayLike,
    points_mm: ArrayLike,
    size_px: tuple[int, int],
    edges_px: Sequence[ArrayLike] = (),
    *,
    allowed_mm: float = 1.0,
) -> Straightened:
    """Square reference points, with a lens where their residual calls for one.

    A lens is looked for where the reference points, or the edges against straight lines, miss by more than
    `allowed_mm`; reference points that share a height on the board count as an edge. It is kept only where it halves
    what misses: a board with a bent edge, or a point set on the wrong tick, is no lens.

    Args: points_px, points_mm as in `square`; size_px width, height of the photo [px]; edges_px, for each straight
    board edge the (N, 2) pixels found along it; allowed_mm, the residual that needs no lens [mm].
    Errors: those of `square`.
    Source: BROWN-1971, one-term radial model.
    """
    plain = square(points_px, points_mm)
    px, mm = plain.points_px, plain.points_mm
    edges = [points_of(edge, least=1) for edge in edges_px] + _rows_of(px, mm)
    edges = [edge for edge in edges if len(edge) >= _LEAST_ON_EDGE]
    mm_per_px = _mm_per_px(px, mm)
    before = _missing_px(Lens.of_photo(0.0, size_px), px, mm, edges)
    worst_mm = max(plain.residual_mm, mm_per_px * max((_bow_px(edge) for edge in edges), default=0.0))
    if not edges or worst_mm <= allowed_mm:
        return Straightened(plain, None)
    k = _least(lambda k: _missing_px(Lens.of_photo(k, size_px), px, mm, edges), GREATEST_K)
    lens = Lens.of_photo(k, size_px)
    if _missing_px(lens, px, mm, edges) > _LEAST_GAIN * before:
        return Straightened(plain, None)
    return Straightened(square(lens.straightened(px), mm), lens)


def _rows_of(px: Points, mm: Points) -> list[Points]:
    """Reference points that lie at one height of the board, so on a straight line of the photo."""
    return [px[mm[:, 1] == y] for y in np.unique(mm[:, 1])]


def _missing_px(lens: Lens, px: Points, mm: Points, edges: list[Points]) -> float:
    """Root mean square of what misses, edges and points together, each at least as heavy as the other [px]."""
    straight = lens.straightened(px)
    try:
        squaring = square(straight, mm)
        off = np.hypot(*(squaring.to_photo_px(mm) - straight).T)
    except RectifyError:
        return float("inf")
    bows = [_bow_px(lens.straightened(edge)) ** 2 for edge in edges]
    return float(np.sqrt(np.mean(bows) + np.mean(off**2)))


def _bow_px(edge: Points) -> float:
    """Root mean square distance of points from the straight line that fits them best [px]."""
    sizes = np.linalg.svd(edge - edge.mean(axis=0), compute_uv=False)
    return float(sizes[-1] / np.sqrt(len(edge)))


def _mm_per_px(px: Points, mm: Points) -> float:
    spread = np.linalg.norm(px - px.mean(axis=0))
    return float(np.linalg.norm(mm - mm.mean(axis=0)) / spread)


def _least(of: Callable[[float], float], reach: float) -> float:
    """Where a valley within -reach to reach is deepest, by golden section; to 0.0005."""
    low, high = -reach, reach
    inner, outer = high - _GOLDEN * (high - low), low + _GOLDEN * (high - low)
    at_inner, at_outer = of(inner), of(outer)
    while high - low > 5e-4:
        if at_inner <= at_outer:
            high, outer, at_outer = outer, inner, at_inner
            inner = high - _GOLDEN * (high - low)
            at_inner = of(inner)
        else:
            low, inner, at_inner = inner, outer, at_outer
            outer = low + _GOLDEN * (high - low)
            at_outer = of(outer)
    return (low + high) / 2
