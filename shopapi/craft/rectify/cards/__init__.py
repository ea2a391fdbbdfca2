"""Scale cards: two printed markers on a board give scale and perspective without a tape."""

from shopapi.craft.rectify.cards.measuring import Cards, find_cards
from shopapi.craft.rectify.cards.print_model import CARD_SIDE_MM, MARKER_CELLS, MARKER_IDS, MARKER_SIDE_MM, marker_cells

__all__ = [
    "CARD_SIDE_MM",
    "MARKER_CELLS",
    "MARKER_IDS",
    "MARKER_SIDE_MM",
    "Cards",
    "find_cards",
    "marker_cells",
]
