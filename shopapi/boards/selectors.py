"""Reads about boards and their photographs."""

from collections.abc import Iterable
from uuid import UUID

from shopapi.boards.models import Board, Reading, Shot
from shopapi.workshops.models import Workshop


def boards_in_rack(workshop: Workshop, *, species: Iterable[str], ids: Iterable[str | UUID] = ()) -> list[Board]:
    """Boards in the rack of these species, or of these only the ones named."""
    rows = Board.objects.for_workshop(workshop).filter(status=Board.Status.IN_RACK, species__in=set(species))
    if ids := list(ids):
        rows = rows.filter(pk__in=ids)
    return list(rows.order_by("tag", "id"))


def boards_by_id(workshop: Workshop, ids: Iterable[str | UUID]) -> dict[str, Board]:
    """Also boards that were used or removed since: an old layout still names them."""
    return {str(board.pk): board for board in Board.objects.gone_too(workshop).filter(pk__in=list(ids))}


def squared_shot(board: Board, face: str = "A") -> Shot | None:
    """The newest squared photograph of a face."""
    return (
        Shot.objects.for_workshop(board.workshop_id)
        .filter(board=board, face=face, state=Shot.State.SQUARED)
        .order_by("-created_at")
        .first()
    )


def latest_reading(board: Board) -> Reading | None:
    return (
        Reading.objects.for_workshop(board.workshop_id).filter(board=board).order_by("-read_on", "-created_at").first()
    )
