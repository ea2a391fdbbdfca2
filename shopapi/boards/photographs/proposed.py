"""Corners proposed for the maker to nudge."""

from typing import Literal, TypedDict

from shopapi.boards.photographs.squared import pixels_of
from shopapi.craft import rectify


class Size(TypedDict):
    """The board as two scale cards measured it, or None."""

    length_mm: float | None
    width_mm: float | None


class Proposed(Size):
    """corners: pixels of the upright photo. sure: 0 to 1."""

    corners: list[list[float]]
    source: Literal["outline", "cards"]
    sure: float


def propose(upright: bytes, length_mm: float, width_mm: float) -> Proposed | None:
    """Where the board seems to lie, by scale cards or by its outline; None where nothing convinces."""
    photo = pixels_of(upright)
    cards = rectify.find_cards(photo)
    if cards is not None and cards.corners_px is not None:
        return Proposed(
            corners=cards.corners_px.round(1).tolist(),
            source="cards",
            sure=cards.sure,
            length_mm=cards.length_mm,
            width_mm=cards.width_mm,
        )
    found = rectify.outline_corners(photo, length_mm=length_mm, width_mm=width_mm)
    if found.corners_px is None:
        return None
    corners = found.corners_px.round(1).tolist()
    return Proposed(corners=corners, source="outline", sure=found.sure, length_mm=None, width_mm=None)
