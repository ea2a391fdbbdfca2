"""A lens that bends straight edges: one radial term, found from the board's own edges."""

from collections.abc import Sequence
from dataclasses import dataclass

from numpy.typing import ArrayLike

from shopapi.craft.rectify.corners import Points
from shopapi.craft.rectify.squaring import Squaring


@dataclass(frozen=True)
class Lens:
    """How far a lens bends: a place at r (1 = half the photo's diagonal) from the centre is drawn at r (1 + k r^2).

    k: 0 for a pinhole, negative for a barrel. centre_px, radius_px: the photo's middle and half its diagonal [px].
    """

    k: float
    centre_px: tuple[float, float]
    radius_px: float

    def straightened(self, points_px: ArrayLike) -> Points:
        """Where a pinhole would have drawn (N, 2) photo pixels."""
        raise NotImplementedError

    def bent(self, points_px: ArrayLike) -> Points:
        """Where this lens draws (N, 2) pixels of a pinhole: the inverse of `straightened`."""
        raise NotImplementedError


@dataclass(frozen=True, eq=False)
class Straightened:
    """A squaring, and the lens it needs first; lens is None where the plain squaring already fits.

    With a lens, `squaring` takes *straightened* pixels to board millimetres: `to_board_mm(lens.straightened(px))`.
    """

    squaring: Squaring
    lens: Lens | None


def straighten(
    points_px: ArrayLike,
    points_mm: ArrayLike,
    size_px: tuple[int, int],
    edges_px: Sequence[ArrayLike] = (),
    *,
    allowed_mm: float = 1.0,
) -> Straightened:
    """Square reference points, with a lens where their residual calls for one.

    Args: points_px, points_mm as in `square`; size_px width, height of the photo [px]; edges_px, for each straight
    board edge the (N, 2) pixels found along it; allowed_mm, the residual that needs no lens [mm].
    Errors: those of `square`.
    """
    raise NotImplementedError
