"""Corners proposed for the maker to nudge: by scale cards where they lie on the board, else by its outline."""

from shopapi.craft.rectify.cards import find_cards
from shopapi.craft.rectify.outline import Proposal, outline_corners
from shopapi.craft.rectify.warp import Picture


def propose_corners(image: Picture, *, length_mm: float | None = None, width_mm: float | None = None) -> Proposal:
    """Propose a board's corners; `how` tells whether scale cards bore the outline out.

    Args: image (H, W, 3) 8 bit BGR, the upright photo; length_mm, width_mm [mm], the tape's sizes where known.
    Errors: PictureError.
    Accuracy: the share of photos that need no nudge is measured by tests/benchmarks/bench_vision.py.
    Source: OWN, cards before outline.
    """
    cards = find_cards(image)
    if cards is not None and cards.corners_px is not None:
        return Proposal(cards.corners_px, cards.sure, "cards")
    return outline_corners(image, length_mm=length_mm, width_mm=width_mm)
