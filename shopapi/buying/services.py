"""Writes about boards seen at the dealer: what was bought stands in the rack."""

from typing import Any

from django.db import transaction

from shopapi.boards.models import Board
from shopapi.buying import selectors
from shopapi.buying.models import Offer


class OfferError(ValueError):
    """The board cannot be taken into the rack as asked; `field` is what to change, the message is for the maker."""

    def __init__(self, field: str, words: str) -> None:
        super().__init__(words)
        self.field = field


@transaction.atomic
def offer_create(**fields: Any) -> Offer:
    """Notes a board seen. One that was bought already goes into the rack. Raises OfferError."""
    return _settle(Offer(**fields))


@transaction.atomic
def offer_update(*, offer: Offer, **changes: Any) -> Offer:
    """Saves the changes; buying and giving back follow from `bought`. Raises OfferError."""
    if changes.get("bought") is False and not changes.get("board"):
        changes["board"] = None
    for name, value in changes.items():
        setattr(offer, name, value)
    return _settle(offer)


def _settle(offer: Offer) -> Offer:
    """What was bought has a board, which the phone made or is made here; what was not has none."""
    if offer.board is not None:
        if not offer.bought:
            raise OfferError("board", "Only what was bought has a board in the rack; say that it was bought.")
        if selectors.came_from_another(offer):
            raise OfferError("board", f"Board {offer.board} was bought as another board of the list.")
        _pay_for(offer.board, offer)
    elif offer.bought:
        offer.board = _into_rack(offer)
    offer.save()
    return offer


def _pay_for(board: Board, offer: Offer) -> None:
    """A helper's phone makes the board without knowing the price."""
    if board.price is None and offer.price is not None:
        board.price = offer.price
        board.save(update_fields=["price"])


def _into_rack(offer: Offer) -> Board:
    if not offer.tag:
        raise OfferError("tag", "Give the board a tag first: it is what you chalk on it.")
    if selectors.tag_taken(offer):
        raise OfferError("tag", f"Another board in the rack carries {offer.tag}; chalk a different tag.")
    kept = ("tag", "species", "length_mm", "width_mm", "thickness_mm", "thickness_quarters", "price")
    board = Board(
        workshop_id=offer.workshop_id,
        source=offer.trip.dealer,
        notes=offer.note,
        **{name: getattr(offer, name) for name in kept},
    )
    board.save()
    return board
