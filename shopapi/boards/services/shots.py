"""Writes about photographs: kept in the request, turned upright and squared by the background worker."""

import logging
from collections.abc import Sequence
from typing import Any, BinaryIO
from uuid import UUID

from django.core.files.base import ContentFile
from django.db import OperationalError, transaction

from shopapi.boards import photographs, selectors
from shopapi.boards.models import Shot
from shopapi.boards.services.faces import face_ask, face_ask_worker, face_work
from shopapi.craft import rectify
from shopapi.workshops.models import Member
from shopapi.workshops.scoping import remove

log = logging.getLogger(__name__)

Corners = Sequence[Sequence[float]]
Points = Sequence[photographs.ReferencePoint]
AT_THE_END_MM = 0.5
State = Shot.State
STUMBLED = "The photograph could not be worked on. It is kept as it came; set its corners again, or take another."


@transaction.atomic
def shot_create(
    *, member: Member, board: Any, face: str, photo: BinaryIO, id: UUID | None = None, corners: Corners | None = None
) -> Shot:
    """Keeps the photograph; the background worker turns it upright and squares it.

    Raises photographs.PhotoError where it cannot be read, craft.rectify.RectifyError for corners that cannot be.
    """
    shot = shot_keep(member=member, board=board, face=face, photo=photo, id=id, corners=corners)
    _enqueue(shot)
    return shot


@transaction.atomic
def shot_keep(
    *, member: Member, board: Any, face: str, photo: BinaryIO, id: UUID | None = None, corners: Corners | None = None
) -> Shot:
    """As `shot_create`, with nothing asked of the background worker: `shot_work` is called by whoever keeps it."""
    taken = photographs.receive(photo)
    shot = Shot(
        workshop=member.workshop,
        board=board,
        face=face,
        taken_by=member,
        sha256=taken.sha256,
        width_px=taken.width_px,
        height_px=taken.height_px,
    )
    if id is not None:
        shot.id = id
    if corners is not None:
        shot.corners = _checked(shot, corners)
    shot.original.save(f"original.{taken.suffix}", ContentFile(taken.original), save=False)
    shot.save()
    return shot


@transaction.atomic
def shot_square(*, shot: Shot, corners: Corners) -> Shot:
    """Sets the corners and asks for the squaring. Raises craft.rectify.RectifyError for corners that cannot be."""
    shot.corners, shot.points = _checked(shot, corners), None
    return _ask(shot)


@transaction.atomic
def shot_square_stretch(*, shot: Shot, points: Points) -> Shot:
    """Sets reference points on a stretch of the board. Raises craft.rectify.RectifyError for points that cannot be."""
    size = (shot.width_px, shot.height_px)
    shot.points = photographs.checked_points(points, shot.board.length_mm, shot.board.width_mm, size)
    shot.corners = None
    return _ask(shot)


@transaction.atomic
def shot_square_anew(*, shot: Shot, old_length_mm: float, old_width_mm: float) -> None:
    """Asks for the squaring again, after the board was measured anew; points at its far end and edge go with them."""
    for point in shot.points or ():
        x, y = point["mm"]
        point["mm"] = [
            shot.board.length_mm if abs(x - old_length_mm) < AT_THE_END_MM else x,
            shot.board.width_mm if abs(y - old_width_mm) < AT_THE_END_MM else y,
        ]
    _ask(shot, by_worker=True)


def shot_work(*, shot: Shot, suggest: bool = True) -> None:
    """Does all that the photograph waits for, then its face's picture; what goes wrong is kept in words.

    May be called twice, or be stopped half way and called again.
    """
    left: Shot | None = shot
    try:
        if shot.state == State.RECEIVED:
            left = _turn_upright(shot)
        while left is not None and left.state == State.SQUARING:
            left = _square(left)
    except Exception:
        log.exception("shot %s failed", shot.pk)
        left = _store(shot, state=State.FAILED, problem=STUMBLED)
    # Another photograph of the face on its way makes the picture when it is squared.
    if left is not None and (left.corners or left.points) and not selectors.awaited_shots(left.board, left.face):
        face = face_ask(board=left.board, face=left.face)
        if face is not None:
            face_work(face=selectors.face_in_sight(str(face.pk)) or face, suggest=suggest)


@transaction.atomic
def shot_remove(*, shot: Shot) -> None:
    """Takes the photograph out of sight; its face's picture is made of those that are left."""
    remove(shot)
    face_ask_worker(board=shot.board, face=shot.face)


@transaction.atomic
def shot_turn_over(*, shot: Shot, face: str) -> None:
    """The photograph is of the other face."""
    before, shot.face = shot.face, face
    shot.save(update_fields=["face"])
    for either in {before, face}:
        face_ask_worker(board=shot.board, face=either)


def photographs_left_behind() -> int:
    """Puts what a stopped service left half done, or an older one left undone, into the queue."""
    shots = selectors.unfinished_shots()
    faces = [(face.board, face.face) for face in selectors.unfinished_faces()] + selectors.faces_without_picture()
    for shot in shots:
        _enqueue(shot)
    for board, face in faces:
        face_ask_worker(board=board, face=face)
    return len(shots) + len(faces)


def _checked(shot: Shot, corners: Corners) -> list[list[float]]:
    return photographs.checked_corners(
        corners, shot.board.length_mm, shot.board.width_mm, (shot.width_px, shot.height_px)
    )


def _ask(shot: Shot, *, by_worker: bool = False) -> Shot:
    shot.state = State.SQUARING if shot.upright else State.RECEIVED
    shot.problem = ""
    shot.save(update_fields=["corners", "points", "state", "problem"], by_worker=by_worker)
    _enqueue(shot)
    return shot


def _enqueue(shot: Shot) -> None:
    from shopapi.boards.tasks import work_on_shot

    transaction.on_commit(lambda: work_on_shot.enqueue(str(shot.pk)))


def _turn_upright(shot: Shot) -> Shot | None:
    with shot.original.open("rb") as file:
        made = photographs.stand_upright(file.read())
    shot.upright.save("upright.jpg", ContentFile(made.upright), save=False)
    shot.preview.save("preview.jpg", ContentFile(made.preview), save=False)
    proposal = None if shot.corners or shot.points else _propose(shot, made.upright)
    return _store(shot, upright=shot.upright.name, preview=shot.preview.name, proposal=proposal, state=State.READY)


def _propose(shot: Shot, upright: bytes) -> dict[str, Any] | None:
    """What is proposed for the corners; a photo that nothing can be made of is squared by hand all the same."""
    try:
        found = photographs.propose(upright, shot.board.length_mm, shot.board.width_mm)
    except Exception:
        log.exception("no proposal for shot %s", shot.pk)
        return None
    if found is None:
        return None
    return {("from" if name == "source" else name): value for name, value in found.items()}


def _square(shot: Shot) -> Shot | None:
    """Squares the shot to its board's tape sizes."""
    board = shot.board
    with shot.upright.open("rb") as file:
        upright = file.read()
    try:
        if shot.points:
            made = photographs.square_stretch(upright, shot.points, board.length_mm, board.width_mm)
        else:
            made = photographs.square_photo(upright, shot.corners or [], board.length_mm, board.width_mm)
    except rectify.RectifyError as error:
        return _store(shot, asked=_asked(shot), state=State.FAILED, problem=str(error)[:500])
    # The picture squared before stays: a packet that was handed out names it.
    shot.squared.save("squared.jpg", ContentFile(made.jpeg), save=False)
    return _store(
        shot,
        asked=_asked(shot),
        state=State.SQUARED,
        problem="",
        squared=shot.squared.name,
        homography=made.homography,
        lens_k=made.lens_k,
        x0_mm=made.x0_mm,
        x1_mm=made.x1_mm,
        point_residuals_mm=made.residuals_mm,
        residual_mm=made.residual_mm,
        slip_mm=made.slip_mm,
        mm_per_px=made.mm_per_px,
        squared_width_px=made.width_px,
        squared_height_px=made.height_px,
        squared_length_mm=board.length_mm,
        squared_across_mm=board.width_mm,
    )


Asked = tuple[Any, ...]


def _asked(shot: Shot) -> Asked:
    return shot.corners, shot.points, shot.board.length_mm, shot.board.width_mm


def _store(shot: Shot, *, asked: Asked | None = None, **found: Any) -> Shot | None:
    """Keeps what was found, unless the shot was removed or asked something else meanwhile; gives it as it is now."""
    for is_last in (False, True):
        try:
            return _store_once(shot, asked, found)
        except OperationalError:  # two that wait for each other: the database ends one of them
            if is_last:
                raise
    return None


@transaction.atomic
def _store_once(shot: Shot, asked: Asked | None, found: dict[str, Any]) -> Shot | None:
    now = selectors.shot_to_write(shot)
    if now is None or (asked is not None and asked != _asked(now)):
        return now
    for name, value in found.items():
        setattr(now, name, value)
    if now.state == State.READY and (now.corners or now.points):
        now.state = State.SQUARING
    now.save(update_fields=[*found, "state"], by_worker=True)
    return now
