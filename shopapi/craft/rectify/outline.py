"""A board's four corners proposed from its photograph, for the maker to nudge."""

from dataclasses import dataclass
from typing import Literal

from shopapi.craft.rectify.corners import Points
from shopapi.craft.rectify.warp import Picture

How = Literal["outline", "cards", "none"]


@dataclass(frozen=True, eq=False)
class Proposal:
    """Where a board seems to lie in its photograph.

    corners_px: (4, 2) in the order of `CORNER_NAMES`, pixels of the photo as handed over, or None where no outline
    convinces. The butt end is taken to be the left one, or the nearer one where the board runs away from the camera.
    sure: 0 (a guess) to 1. how: what it rests on.
    """

    corners_px: Points | None
    sure: float
    how: How


def propose_corners(image: Picture, *, length_mm: float | None = None, width_mm: float | None = None) -> Proposal:
    """Propose a board's corners from its contrast with what lies around it.

    Args: image (H, W, 3) 8 bit BGR, the upright photo; length_mm, width_mm [mm], the tape's sizes where known.
    Errors: PictureError.
    """
    raise NotImplementedError
