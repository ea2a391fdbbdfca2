"""Writes about face pictures: made anew whenever a photograph of the face is squared or removed."""

import hashlib
import logging
from collections.abc import Callable
from typing import Any

from django.core.files.base import ContentFile
from django.db import transaction

from shopapi.boards import photographs, selectors
from shopapi.boards.models import Board, FacePicture, Shot
from shopapi.craft import rectify
from shopapi.craft.measures import Unit, format_length
from shopapi.workshops.models import Workshop
from shopapi.workshops.scoping import remove

log = logging.getLogger(__name__)

State = FacePicture.State
STUMBLED = "The photographs of this face could not be joined. They are kept; set their points again."
# Two photographs that put the same wood farther apart than this are worth a word [mm].
WORTH_A_WORD_MM = 5.0
_LEAST_SHARED_MM = 25.0

# What else keeps a face's picture, such as the pieces that a board was cut into meanwhile.
after_join: list[Callable[[FacePicture], None]] = []


@transaction.atomic
def face_ask(*, board: Board, face: str) -> FacePicture | None:
    """Notes that the face's picture is to be made anew; it goes where no squared photograph is left."""
    if board.gone_at is not None:
        return None
    row = selectors.face_row(board, face)
    if not selectors.squared_shots(board, face):
        if row is not None and row.gone_at is None:
            remove(row)
        return None
    if row is None:
        key = FacePicture.key_of(board, face)
        fresh = {"workshop_id": board.workshop_id, "board": board, "face": face}
        row, _ = FacePicture.objects.get_or_create(pk=key, defaults=fresh)
    row.gone_at = None
    row.state = State.JOINING
    row.save(update_fields=["gone_at", "state"], by_worker=True)
    return row


def face_ask_worker(*, board: Board, face: str) -> None:
    """As `face_ask`, and lets the background worker make it."""
    from shopapi.boards.tasks import work_on_face

    row = face_ask(board=board, face=face)
    if row is not None:
        transaction.on_commit(lambda: work_on_face.enqueue(str(row.pk)))


def face_work(*, face: FacePicture, suggest: bool = True) -> None:
    """Makes the picture that the face waits for, then what it suggests; what goes wrong is kept in words."""
    left: FacePicture | None = face
    try:
        while left is not None and left.state == State.JOINING:
            left = _join(left)
        if left is not None and left.state == State.JOINED:
            for follow in after_join:
                follow(left)
            if suggest:
                _suggest(left)
    except Exception:
        log.exception("face picture %s failed", face.pk)
        _store(face, None, state=State.FAILED, problem=STUMBLED)


Asked = tuple[Any, ...]


def _asked(board: Board, shots: list[Shot]) -> Asked:
    return board.length_mm, board.width_mm, [(shot.pk, shot.squared.name, shot.x0_mm, shot.x1_mm) for shot in shots]


def _join(face: FacePicture) -> FacePicture | None:
    board = face.board
    shots = selectors.shots_to_join(board, face.face)
    asked = _asked(board, shots)
    if not shots:
        face_ask(board=board, face=face.face)
        return None
    size = {"squared_length_mm": board.length_mm, "squared_across_mm": board.width_mm}
    if len(shots) == 1 and _sees_all(shots[0], board):
        return _store(face, asked, **_as_squared(shots[0]), **size)
    shown = [_shown(shot, board) for shot in shots]
    try:
        made = photographs.join_face(shown, board.length_mm, board.width_mm)
    except rectify.RectifyError as error:
        return _store(face, asked, state=State.FAILED, problem=str(error)[:500])
    joined = made.joined
    face.picture.save("face.jpg", ContentFile(made.jpeg), save=False)
    stretches = [
        {"shot": str(shot.pk), "x0_mm": each.x0_mm, "x1_mm": each.x1_mm, "righted": righted}
        for shot, each, righted in zip(shots, shown, joined.righted, strict=True)
    ]
    return _store(
        face,
        asked,
        state=State.JOINED,
        problem="",
        picture=face.picture.name,
        sha256=hashlib.sha256(made.jpeg).hexdigest(),
        stretches=sorted(stretches, key=lambda stretch: stretch["x0_mm"]),
        gaps=[list(gap) for gap in joined.gaps],
        overlaps=[[each.x0_mm, each.x1_mm, each.disagreement_mm] for each in joined.overlaps],
        remarks=_remarks(board.workshop, shown, joined),
        mm_per_px=joined.mm_per_px,
        width_px=made.width_px,
        height_px=made.height_px,
        suggestions=[],
        **size,
    )


def _sees_all(shot: Shot, board: Board) -> bool:
    """A photograph of the whole board, squared to the size the board has now, is the face's picture as it is."""
    is_current = (shot.squared_length_mm, shot.squared_across_mm) == (board.length_mm, board.width_mm)
    return is_current and shot.shows_all_of(board.length_mm)


def _as_squared(shot: Shot) -> dict[str, Any]:
    with shot.squared.open("rb") as file:
        digest = hashlib.sha256(file.read()).hexdigest()
    return {
        "state": State.JOINED,
        "problem": "",
        "picture": shot.squared.name,
        "sha256": digest,
        "stretches": [{"shot": str(shot.pk), "x0_mm": 0.0, "x1_mm": shot.squared_length_mm, "righted": None}],
        "gaps": [],
        "overlaps": [],
        "remarks": [],
        "mm_per_px": shot.mm_per_px,
        "width_px": shot.squared_width_px,
        "height_px": shot.squared_height_px,
        "suggestions": [],
    }


def _shown(shot: Shot, board: Board) -> photographs.Shown:
    def upright() -> bytes:
        with shot.upright.open("rb") as file:
            return bytes(file.read())

    x0, x1 = shot.stretch_on(board.length_mm)
    say = _say(board.workshop)
    return photographs.Shown(
        upright=upright,
        size_px=(shot.width_px, shot.height_px),
        homography=shot.homography or [],
        lens_k=shot.lens_k,
        x0_mm=x0,
        x1_mm=x1,
        name=f"The photograph of {say(x0)} to {say(x1)}",
    )


def _say(workshop: Workshop) -> Callable[[float], str]:
    unit: Unit = "inch" if workshop.units == "inch" else "metric"
    return lambda mm: format_length(mm, unit, workshop.inch_denominator)


def _remarks(workshop: Workshop, shown: list[photographs.Shown], joined: rectify.Joined) -> list[str]:
    """What the maker should know about how the photographs fit, in words."""
    say = _say(workshop)
    how = {"turned": "lay upside down and was turned about", "mirrored": "was mirrored and was put right"}
    righted = zip(shown, joined.righted, strict=True)
    words = [f"{each.name} {how[wrong]}." for each, wrong in righted if wrong is not None]
    for overlap in joined.overlaps:
        where = f"Between {say(overlap.x0_mm)} and {say(overlap.x1_mm)} from the butt end"
        apart = overlap.disagreement_mm
        if apart is None and overlap.x1_mm - overlap.x0_mm >= _LEAST_SHARED_MM:
            words.append(
                f"{where} two photographs show no wood in common. Check their distances, and that both are this face."
            )
        elif apart is not None and apart > WORTH_A_WORD_MM:
            words.append(
                f"{where} two photographs put the same wood {say(apart)} apart. Check the distances at their points."
            )
    return words


def _suggest(face: FacePicture) -> None:
    with face.picture.open("rb") as file:
        picture = file.read()
    found = photographs.suggestions_for(picture, face.mm_per_px or 1.0, face.squared_across_mm or 1.0, face.face)
    with transaction.atomic():
        now = selectors.face_to_write(face)
        if now is not None and now.picture.name == face.picture.name and now.suggestions != found:
            now.suggestions = found
            now.save(update_fields=["suggestions"], by_worker=True)


@transaction.atomic
def _store(face: FacePicture, asked: Asked | None, **found: Any) -> FacePicture | None:
    """Keeps what was found, unless the photographs changed meanwhile; gives the face as it is now."""
    now = selectors.face_to_write(face)
    if now is None:
        return None
    if asked is not None and asked != _asked(now.board, selectors.shots_to_join(now.board, now.face)):
        return now
    for name, value in found.items():
        setattr(now, name, value)
    now.save(update_fields=list(found), by_worker=True)
    return now
