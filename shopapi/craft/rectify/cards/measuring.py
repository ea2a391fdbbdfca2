"""Finding two scale cards in a photo and measuring the board they lie on."""

from dataclasses import dataclass

import cv2
import numpy as np

from shopapi.craft.rectify.cards.finding import find_markers
from shopapi.craft.rectify.cards.solving import Plane, plane_of_board, plane_of_cards
from shopapi.craft.rectify.corners import Points
from shopapi.craft.rectify.outline import outline_corners
from shopapi.craft.rectify.squaring import Matrix
from shopapi.craft.rectify.warp import Picture, check_picture

# Cards farther from their place than this are no flat cards on one plane, or not the cards that were printed.
_GREATEST_OFF_PX = 3.0


@dataclass(frozen=True, eq=False)
class Cards:
    """What two scale cards on a board tell.

    homography: 3x3, photo pixels to millimetres on the board's plane: board millimetres where the outline was found,
    else from the first card's middle, x towards the second's. cards_px: the two markers' corners. corners_px: the
    board's corners, as in `Proposal`, or None without an outline. length_mm, width_mm: the board as measured, or None.
    residual_mm: how far the cards' corners are from square, root mean square [mm]. sure: 0 to 1.
    """

    homography: Matrix
    cards_px: tuple[Points, Points]
    corners_px: Points | None
    length_mm: float | None
    width_mm: float | None
    residual_mm: float
    sure: float


def find_cards(image: Picture) -> Cards | None:
    """Find two scale cards in a photo and measure the board they lie on; None where fewer than two are seen.

    The cards may lie anywhere on the face, turned as they please, but flat, and the farther apart the better.

    Args: image (H, W, 3) 8 bit BGR, the upright photo.
    Errors: PictureError.
    Accuracy: the board's sides within about 0.5 % where both cards are at least 40 pixels wide; see the benchmark.
    Source: PROJECTIVE, plane from known points; markers by the detector of OpenCV.
    """
    check_picture(image)
    cards = find_markers(image)
    if cards is None:
        return None
    proposal = outline_corners(image)
    if proposal.corners_px is not None and _inside(cards, proposal.corners_px):
        plane = plane_of_board(cards, proposal.corners_px)
        if plane is not None and plane.sides_mm is not None and plane.off_px.max() < _GREATEST_OFF_PX:
            length, width = plane.sides_mm
            rectangle = np.array([[[0, 0], [length, 0], [length, width], [0, width]]])
            corners = cv2.perspectiveTransform(rectangle, plane.to_px)[0]
            return _told(plane, cards, corners, proposal.sure)
    plane = plane_of_cards(cards)
    if plane is None or plane.off_px.max() >= _GREATEST_OFF_PX:
        return None
    return _told(plane, cards, None, 1.0)


def _told(plane: Plane, cards: tuple[Points, Points], corners: Points | None, sure: float) -> Cards:
    to_mm = np.linalg.inv(plane.to_px)
    length, width = plane.sides_mm or (None, None)
    middle = np.concatenate(cards).mean(axis=0)
    ends = cv2.perspectiveTransform(np.array([[middle, middle + np.array([1.0, 0.0])]]), to_mm)[0]
    mm_per_px = float(np.hypot(*(ends[1] - ends[0])))
    off = float(np.sqrt(np.mean(plane.off_px**2)))
    fit = max(0.0, 1 - off / _GREATEST_OFF_PX)
    return Cards(to_mm / to_mm[2, 2], cards, corners, length, width, off * mm_per_px, round(sure * fit, 3))


def _inside(cards: tuple[Points, Points], corners: Points) -> bool:
    outline = corners.astype(np.float32)
    places = np.concatenate(cards)
    return all(cv2.pointPolygonTest(outline, (float(x), float(y)), measureDist=False) >= 0 for x, y in places)
