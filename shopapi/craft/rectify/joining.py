"""Several shots along a face joined to one squared picture."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Literal

from shopapi.craft.rectify.lens import Lens
from shopapi.craft.rectify.squaring import Squaring
from shopapi.craft.rectify.warp import Picture

Righted = Literal["turned", "mirrored"]


@dataclass(frozen=True, eq=False)
class Stretch:
    """One shot of a face and the stretch of the board it covers.

    image: the upright photo, 8 bit BGR, or a function that reads it (called once or twice, so that not all photos need
    lie in memory). squaring: photo pixels to board mm. x0_mm, x1_mm: along the grain from the butt end [mm].
    name: how a refusal calls it.
    """

    image: Picture | Callable[[], Picture]
    squaring: Squaring
    x0_mm: float
    x1_mm: float
    name: str = ""
    lens: Lens | None = None


@dataclass(frozen=True)
class Overlap:
    """Where two shots show the same wood.

    disagreement_mm: how far apart they put it [mm], or None where the wood has nothing to go by.
    """

    x0_mm: float
    x1_mm: float
    disagreement_mm: float | None


@dataclass(frozen=True, eq=False)
class Joined:
    """A face's picture made of its shots: butt end left, upper edge at row 0, `mm_per_px` both ways.

    gaps: stretches that no shot covers [mm]. righted: for each stretch in the order given, how it was put right.
    """

    picture: Picture
    mm_per_px: float
    gaps: tuple[tuple[float, float], ...]
    overlaps: tuple[Overlap, ...]
    righted: tuple[Righted | None, ...]


def join_shots(
    stretches: Sequence[Stretch], length_mm: float, width_mm: float, mm_per_px: float | None = None
) -> Joined:
    """Join a face's shots; the order they are given in makes no difference to the picture.

    Args: stretches, at least one; length_mm, width_mm, the board's [mm]; mm_per_px, as fine as the best shot where
    None [mm].
    Errors: BoardSizeError, PictureError, NoStretchError, MirroredShotError.
    """
    raise NotImplementedError
