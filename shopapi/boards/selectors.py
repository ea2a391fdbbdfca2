"""Reads about boards and their photographs."""

from collections.abc import Iterable
from uuid import UUID

from shopapi.boards.models import Board, FacePicture, Reading, Shot
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


def face_picture(board: Board, face: str = "A") -> FacePicture | None:
    """The picture of a face, if there is one; the one before stands while it is made anew."""
    row = FacePicture.objects.for_workshop(board.workshop_id).filter(board=board, face=face).first()
    return row if row is not None and row.picture else None


def face_row(board: Board, face: str) -> FacePicture | None:
    """Also one that was removed: its id is taken up again."""
    return FacePicture.objects.gone_too(board.workshop_id).filter(board=board, face=face).first()


def face_in_sight(face_id: str) -> FacePicture | None:
    """None where it was removed."""
    return FacePicture.objects.select_related("board__workshop").filter(pk=face_id, gone_at=None).first()


def face_to_write(face: FacePicture) -> FacePicture | None:
    """The face as it is now, locked until commit; None where it was removed."""
    rows = FacePicture.objects.select_related("board__workshop").select_for_update(of=("self",))
    return rows.filter(pk=face.pk, gone_at=None).first()


def unfinished_faces() -> list[FacePicture]:
    """Faces of all workshops whose picture the background worker has still to make."""
    rows = FacePicture.objects.select_related("board__workshop")
    return list(rows.filter(state=FacePicture.State.JOINING, gone_at=None).order_by("created_at"))


def faces_without_picture() -> list[tuple[Board, str]]:
    """Faces of all workshops whose photographs were squared before faces had pictures."""
    shots = Shot.objects.select_related("board").filter(state=Shot.State.SQUARED, gone_at=None)
    have = set(FacePicture.objects.values_list("board", "face"))
    return list({(shot.board, shot.face) for shot in shots if (shot.board_id, shot.face) not in have})


def squared_shots(board: Board, face: str) -> list[Shot]:
    """A face's squared photographs, the newest first."""
    rows = Shot.objects.for_workshop(board.workshop_id).filter(board=board, face=face, state=Shot.State.SQUARED)
    return list(rows.order_by("-created_at", "id"))


def shots_to_join(board: Board, face: str) -> list[Shot]:
    """The squared photographs that make a face's picture: one of the whole board makes those before it needless."""
    chosen = []
    for shot in squared_shots(board, face):
        chosen.append(shot)
        if shot.shows_all_of(board.length_mm):
            break
    return chosen


def awaited_shots(board: Board, face: str) -> int:
    """How many photographs of the face are still to be squared without another word from the maker."""
    waiting = [Shot.State.RECEIVED, Shot.State.SQUARING]
    rows = Shot.objects.for_workshop(board.workshop_id).filter(board=board, face=face, state__in=waiting)
    return sum(1 for shot in rows if shot.corners or shot.points)


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
