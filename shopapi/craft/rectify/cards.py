"""Scale cards: two printed markers on a board give scale and perspective without a tape."""

from dataclasses import dataclass

from shopapi.craft.rectify.corners import Points
from shopapi.craft.rectify.squaring import Matrix
from shopapi.craft.rectify.warp import Picture

# What `printing.documents.scale_card` prints: two markers of the 4 x 4 dictionary, black border included in the side.
MARKER_IDS = (10, 21)
MARKER_SIDE_MM = 60.0


@dataclass(frozen=True, eq=False)
class Cards:
    """What two scale cards on a board tell.

    homography: 3x3, photo pixels to millimetres on the board's plane; board millimetres where the outline was found,
    else counted from the first card's corner. corners_px: the board's corners, as in `Proposal`, or None without an
    outline. length_mm, width_mm: the board as measured from the outline [mm], or None. residual_mm: how far the
    cards' corners are from square [mm]. sure: 0 to 1.
    """

    homography: Matrix
    cards_px: tuple[Points, ...]
    corners_px: Points | None
    length_mm: float | None
    width_mm: float | None
    residual_mm: float
    sure: float


def find_cards(image: Picture) -> Cards | None:
    """Find two scale cards in a photo and measure the board they lie on; None where fewer than two are seen.

    Args: image (H, W, 3) 8 bit BGR, the upright photo.
    Errors: PictureError.
    """
    raise NotImplementedError
