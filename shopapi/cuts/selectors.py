"""Reads about cuts."""

from shopapi.boards.models import Board, FacePicture, Reading, Shot
from shopapi.cuts.models import Cut
from shopapi.marks.models import Mark


def children_of(cut: Cut) -> list[Board]:
    ids = [piece["id"] for piece in cut.pieces]
    return list(Board.objects.gone_too(cut.workshop_id).filter(pk__in=ids).order_by("tag", "id"))


def touched_children(cut: Cut) -> list[Board]:
    """The boards made by the cut on which something was changed, added or removed since."""
    children = children_of(cut)
    touched = {board.pk for board in children if board.seq > cut.made_seq}
    for model in (Mark, Reading, Shot, Cut):
        rows = model.objects.gone_too(cut.workshop_id).filter(board__in=children, seq__gt=cut.made_seq)
        touched |= set(rows.values_list("board", flat=True))
    return [board for board in children if board.pk in touched]


def bare_children(cut: Cut, face: str) -> list[Board]:
    """The boards made by the cut of whose face there is no picture, nor a photograph on its way."""
    children = [board for board in children_of(cut) if board.gone_at is None]
    shown = set()
    for model in (FacePicture, Shot):
        rows = model.objects.for_workshop(cut.workshop_id).filter(board__in=children, face=face)
        shown |= set(rows.values_list("board", flat=True))
    return [board for board in children if board.pk not in shown]
