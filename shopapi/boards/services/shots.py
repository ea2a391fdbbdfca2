"""Writes about photographs."""

from collections.abc import Sequence
from typing import BinaryIO
from uuid import UUID

from django.core.files.base import ContentFile
from django.db import transaction

from shopapi.boards import photographs
from shopapi.boards.models import Board, Shot
from shopapi.workshops.models import Member


@transaction.atomic
def shot_create(*, member: Member, board: Board, face: str, photo: BinaryIO, id: UUID | None = None) -> Shot:
    """Keeps the photograph, its upright copy and a preview. Raises photographs.PhotoError where it cannot be read."""
    taken = photographs.read_upload(photo)
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
    shot.original.save(f"original.{taken.suffix}", ContentFile(taken.original), save=False)
    shot.upright.save("upright.jpg", ContentFile(taken.upright), save=False)
    shot.preview.save("preview.jpg", ContentFile(taken.preview), save=False)
    shot.save()
    return shot


@transaction.atomic
def shot_square(*, shot: Shot, corners: Sequence[Sequence[float]]) -> Shot:
    """Squares the shot to its board's tape sizes. Raises craft.rectify.RectifyError for corners that cannot be."""
    board = shot.board
    with shot.upright.open("rb") as file:
        made = photographs.square_photo(file.read(), corners, board.length_mm, board.width_mm)
    shot.corners = [[float(x), float(y)] for x, y in made.corners_px]
    shot.homography = made.homography
    shot.residual_mm = made.residual_mm
    shot.slip_mm = made.slip_mm
    shot.mm_per_px = made.mm_per_px
    shot.squared_width_px, shot.squared_height_px = made.width_px, made.height_px
    shot.squared_length_mm, shot.squared_across_mm = board.length_mm, board.width_mm
    # The picture squared before stays: a packet that was handed out names it.
    shot.squared.save("squared.jpg", ContentFile(made.jpeg), save=False)
    shot.state = Shot.State.SQUARED
    shot.save()
    return shot
