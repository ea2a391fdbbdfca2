"""Reads about buying."""

from shopapi.boards.models import Board
from shopapi.buying.models import Offer


def tag_taken(offer: Offer) -> bool:
    return Board.objects.for_workshop(offer.workshop_id).filter(tag=offer.tag).exists()


def came_from_another(offer: Offer) -> bool:
    """Whether the offer's board is what another offer became."""
    others = Offer.objects.for_workshop(offer.workshop_id).filter(board=offer.board, bought=True)
    return others.exclude(pk=offer.pk).exists()
