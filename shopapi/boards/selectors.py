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


def shots_with_points(board: Board) -> list[Shot]:
    """Shots whose corners or other reference points the maker set."""
    shots = Shot.objects.for_workshop(board.workshop_id).filter(board=board)
    return [shot for shot in shots if shot.corners or shot.points]


def unfinished_shots() -> list[Shot]:
    """Shots of all workshops that the background worker has still to do something for."""
    waiting = [Shot.State.RECEIVED, Shot.State.SQUARING]
    return list(Shot.objects.select_related("board").filter(state__in=waiting, gone_at=None).order_by("created_at"))


def shot_in_sight(shot_id: str) -> Shot | None:
    """None where it was removed."""
    return Shot.objects.select_related("board").filter(pk=shot_id, gone_at=None).first()


def shot_to_write(shot: Shot) -> Shot | None:
    """The shot as it is now, locked until commit; None where it was removed."""
    rows = Shot.objects.select_related("board").select_for_update(of=("self",))
    return rows.filter(pk=shot.pk, gone_at=None).first()


def latest_reading(board: Board) -> Reading | None:
    return (
        Reading.objects.for_workshop(board.workshop_id).filter(board=board).order_by("-read_on", "-created_at").first()
    )
