"""Writes about cuts: making smaller boards of one, and undoing that."""

import hashlib
from collections.abc import Sequence
from decimal import Decimal
from typing import Any, TypedDict, TypeVar
from uuid import UUID, uuid4

from django.core.files.base import ContentFile
from django.db import transaction

from shopapi.boards.models import Board, FacePicture, Reading, Shot
from shopapi.boards.photographs import cut_out
from shopapi.craft.marks import Rect, clip, parse_shape, shape_to_dict
from shopapi.cuts import selectors
from shopapi.cuts.models import Cut
from shopapi.marks.models import Mark
from shopapi.workshops.models import Workshop
from shopapi.workshops.scoping import WorkshopOwned, remove

LEAST_SHOWN_MM = 1.0

Row = TypeVar("Row", bound=WorkshopOwned)


class Piece(TypedDict):
    id: str
    tag: str
    x_mm: float
    y_mm: float
    length_mm: float
    width_mm: float


class BoardNotHereError(Exception):
    """The board cannot be cut: it is used up or gone. The message is meant for the maker."""


class PiecesTouchedError(Exception):
    """The cut cannot be undone: its pieces were worked on. The message is meant for the maker."""


@transaction.atomic
def cut_create(
    *,
    workshop: Workshop,
    board: Board,
    kind: str,
    pieces: Sequence[Piece],
    at_mm: float | None = None,
    kerf_mm: float = 0,
    id: UUID | None = None,
) -> Cut:
    """Makes a board of each piece, with its stretch of picture, its marks and readings; the board counts as used.

    Raises BoardNotHereError where the board is used up or gone.
    """
    board = Board.objects.select_for_update().get(pk=board.pk)
    if board.gone_at or board.status != Board.Status.IN_RACK:
        raise BoardNotHereError(
            f"{board.tag} is not in the rack any more: it was cut, used or sold meanwhile. Cut one of its pieces."
        )
    cut = Cut(workshop=workshop, board=board, kind=kind, at_mm=at_mm, kerf_mm=kerf_mm, pieces=list(pieces))
    if id is not None:
        cut.id = id
    cut.save()
    for piece, price in zip(pieces, _shared_price(board, pieces, kind), strict=True):
        _make_child(board, piece, price)
    board.status = Board.Status.USED
    board.save(update_fields=["status"])
    cut.made_seq = board.seq
    Cut.objects.filter(pk=cut.pk).update(made_seq=cut.made_seq)  # not a change that a phone would see
    return cut


@transaction.atomic
def cut_undo(*, cut: Cut) -> None:
    """Takes the pieces away and puts the board back into the rack. Raises PiecesTouchedError."""
    if touched := selectors.touched_children(cut):
        tags = ", ".join(board.tag for board in touched)
        raise PiecesTouchedError(
            f"The cut cannot be undone: {tags} was worked on since. Nothing was changed; remove pieces one by one."
        )
    for child in selectors.children_of(cut):
        remove(child)
    board = cut.board
    board.status = Board.Status.IN_RACK
    board.save(update_fields=["status"])
    remove(cut)


def _shared_price(board: Board, pieces: Sequence[Piece], kind: str) -> list[Decimal | None]:
    """What was paid for the board, shared by area.

    The pieces of a cut carry all of it, the last takes the rest, so that nothing paid is forgotten. The offcuts of a
    layout carry their share of the board only: the parts cut from it carry the rest.
    """
    if board.price is None:
        return [None] * len(pieces)
    layout = kind == Cut.Kind.LAYOUT
    areas = [piece["length_mm"] * piece["width_mm"] for piece in pieces]
    whole = board.length_mm * board.width_mm if layout else sum(areas)
    shares = [(board.price * Decimal(area / whole)).quantize(Decimal("0.01")) for area in areas]
    if shares and not layout:
        shares[-1] += board.price - sum(shares, Decimal())
    return [max(share, Decimal()) for share in shares]


def _make_child(board: Board, piece: Piece, price: Decimal | None) -> None:
    kept = ("species", "thickness_mm", "thickness_quarters", "source", "place", "flitch", "notes")
    child = Board(
        id=piece["id"],
        workshop_id=board.workshop_id,
        tag=piece["tag"],
        length_mm=piece["length_mm"],
        width_mm=piece["width_mm"],
        price=price,
        parent=board,
        origin_x_mm=piece["x_mm"],
        origin_y_mm=piece["y_mm"],
        **{name: getattr(board, name) for name in kept},
    )
    child.save()
    area = _area(piece)
    _pass_on_readings(board, child)
    _pass_on_marks(board, child, area)
    for shot in _of(Shot, board, state=Shot.State.SQUARED):
        _pass_on_shot(shot, child, area)
    for face in _of(FacePicture, board):
        _pass_on_face(face, child, area)


def _area(piece: Piece) -> Rect:
    return Rect(piece["x_mm"], piece["y_mm"], piece["x_mm"] + piece["length_mm"], piece["y_mm"] + piece["width_mm"])


def _pass_on_readings(board: Board, child: Board) -> None:
    for reading in _of(Reading, board):
        _copy(reading, child).save()


def _pass_on_marks(board: Board, child: Board, area: Rect) -> None:
    for mark in _of(Mark, board):
        for shape in clip(parse_shape(mark.shape), area):
            copy = _copy(mark, child)
            copy.shape = shape_to_dict(shape)
            copy.save()


def _pass_on_shot(shot: Shot, child: Board, area: Rect) -> None:
    """The photograph stays what it is: the piece keeps it with its own stretch of the squared picture."""
    x0, x1 = shot.stretch_on(shot.squared_length_mm or shot.board.length_mm)
    from_mm, to_mm = max(x0, area.x0_mm), min(x1, area.x1_mm)
    if to_mm - from_mm < LEAST_SHOWN_MM:
        return
    across_mm = shot.squared_across_mm or shot.board.width_mm
    low_mm = _low_mm(shot.face, across_mm, area)
    with shot.squared.open("rb") as file:
        made = cut_out(
            file.read(), shot.mm_per_px or 1, across_mm, from_mm - x0, low_mm, to_mm - from_mm, child.width_mm
        )
    copy = _copy(shot, child)
    copy.corners = copy.points = None  # the piece's corners are not in the photograph
    copy.homography = _moved(shot.homography or [], area.x0_mm, low_mm)
    copy.x0_mm, copy.x1_mm = from_mm - area.x0_mm, to_mm - area.x0_mm
    copy.mm_per_px = made.mm_per_px
    copy.squared_width_px, copy.squared_height_px = made.width_px, made.height_px
    copy.squared_length_mm, copy.squared_across_mm = child.length_mm, child.width_mm
    copy.squared.save("squared.jpg", ContentFile(made.jpeg), save=False)
    copy.save()


def _pass_on_face(face: FacePicture, child: Board, area: Rect) -> None:
    """The piece keeps its stretch of the face's picture, and what was suggested there and not dismissed."""
    if not face.picture:
        return
    across_mm = face.squared_across_mm or face.board.width_mm
    low_mm = _low_mm(face.face, across_mm, area)
    with face.picture.open("rb") as file:
        made = cut_out(file.read(), face.mm_per_px or 1, across_mm, area.x0_mm, low_mm, child.length_mm, child.width_mm)
    copy = _copy(face, child)
    copy.id = FacePicture.key_of(child, face.face)
    copy.stretches = []  # its photographs are rows of their own; what they show is said by them
    copy.gaps = _within(face.gaps, area)
    copy.overlaps = _within(face.overlaps, area)
    copy.remarks = []
    wanted = (row for row in face.suggestions if row["key"] not in face.dismissed)
    copy.suggestions = [part for row in wanted for part in _part(row, area)]
    copy.dismissed = []
    copy.sha256 = hashlib.sha256(made.jpeg).hexdigest()
    copy.mm_per_px = made.mm_per_px
    copy.width_px, copy.height_px = made.width_px, made.height_px
    copy.squared_length_mm, copy.squared_across_mm = child.length_mm, child.width_mm
    copy.state, copy.problem = FacePicture.State.JOINED, ""
    copy.picture.save("face.jpg", ContentFile(made.jpeg), save=False)
    copy.save()


def _low_mm(face: str, across_mm: float, area: Rect) -> float:
    """The picture of face B has face A's upper edge below."""
    return area.y0_mm if face == "A" else across_mm - area.y1_mm


def _within(stretches: Sequence[Sequence[Any]], area: Rect) -> list[list[Any]]:
    """Stretches along the board as far as they lie on a piece, from the piece's own butt end."""
    length_mm = area.x1_mm - area.x0_mm
    moved = [[max(0.0, x0 - area.x0_mm), min(length_mm, x1 - area.x0_mm), *more] for x0, x1, *more in stretches]
    return [each for each in moved if each[1] - each[0] >= LEAST_SHOWN_MM]


def _part(suggestion: dict[str, Any], area: Rect) -> list[dict[str, Any]]:
    shapes = clip(parse_shape(suggestion["shape"]), area)
    return [{**suggestion, "shape": shape_to_dict(shape)} for shape in shapes[:1]]


@transaction.atomic
def pieces_follow_picture(face: FacePicture) -> None:
    """A board that was cut before its photographs were squared: its pieces get their stretch of the picture now."""
    for cut in Cut.objects.for_workshop(face.workshop_id).filter(board=face.board):
        untouched = not selectors.touched_children(cut)
        for child in selectors.bare_children(cut, face.face):
            area = next(_area(piece) for piece in cut.pieces if piece["id"] == str(child.pk))
            for shot in _of(Shot, face.board, state=Shot.State.SQUARED, face=face.face):
                _pass_on_shot(shot, child, area)
            _pass_on_face(face, child, area)
        if untouched:
            now = Workshop.objects.values_list("change_seq", flat=True).get(pk=face.workshop_id)
            Cut.objects.filter(pk=cut.pk).update(made_seq=now)


def _moved(homography: list[list[float]], x_mm: float, y_mm: float) -> list[list[float]]:
    """The homography of a picture whose origin lies at x, y of the old one."""
    along, across, depth = homography
    return [
        [value - x_mm * d for value, d in zip(along, depth, strict=True)],
        [value - y_mm * d for value, d in zip(across, depth, strict=True)],
        depth,
    ]


def _of(model: type[Row], board: Board, **more: Any) -> list[Row]:
    rows = model.objects.for_workshop(board.workshop_id).filter(board=board, **more)
    return list(rows.order_by("created_at", "id"))


def _copy(row: Row, child: Board) -> Row:
    """The row again, on the child board, as a new one."""
    values = {
        field.attname: getattr(row, field.attname)
        for field in row._meta.concrete_fields
        if field.name not in {"id", "board", "revision", "seq", "gone_at", "created_at", "updated_at"}
    }
    return type(row)(**values, id=uuid4(), board=child)
