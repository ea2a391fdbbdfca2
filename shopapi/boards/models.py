"""The rack: boards, their moisture readings and the photographs of their faces."""

import uuid
from typing import Any

from django.core.validators import MaxValueValidator, MinValueValidator
from django.db import models
from django.db.models import Q

from shopapi.workshops.models import Member
from shopapi.workshops.scoping import WorkshopOwned


class Face(models.TextChoices):
    A = "A", "Face A"
    B = "B", "Face B"


class Board(WorkshopOwned):
    """One piece of rough or milled lumber, known in the shop by the tag chalked on it."""

    class Status(models.TextChoices):
        IN_RACK = "in_rack", "In the rack"
        USED = "used", "Used"
        GONE = "gone", "Sold or burnt"

    tag = models.CharField(max_length=20)
    species = models.CharField(max_length=80)
    length_mm = models.FloatField()
    width_mm = models.FloatField()
    thickness_mm = models.FloatField()
    thickness_quarters = models.PositiveSmallIntegerField(
        null=True, blank=True, validators=[MinValueValidator(2), MaxValueValidator(32)]
    )
    price = models.DecimalField(
        max_digits=12, decimal_places=2, null=True, blank=True, validators=[MinValueValidator(0)]
    )
    source = models.CharField(max_length=200, blank=True)
    place = models.CharField(max_length=120, blank=True)
    flitch = models.CharField(max_length=60, blank=True)
    notes = models.TextField(max_length=4000, blank=True)
    status = models.CharField(max_length=10, choices=Status, default=Status.IN_RACK)
    # A piece of another board: where its lower butt-end corner lay on that one.
    parent = models.ForeignKey("self", models.SET_NULL, null=True, blank=True, editable=False, related_name="offcuts")
    origin_x_mm = models.FloatField(null=True, blank=True, editable=False)
    origin_y_mm = models.FloatField(null=True, blank=True, editable=False)

    class Meta:
        constraints = [
            models.UniqueConstraint(
                fields=["workshop", "tag"],
                condition=Q(gone_at=None),
                name="one_board_a_tag",
                violation_error_message="Another board in the rack carries this tag; chalk a different one.",
            ),
            models.CheckConstraint(
                condition=Q(length_mm__gt=0, width_mm__gt=0, thickness_mm__gt=0),
                name="board_has_size",
                violation_error_message="Length, width and thickness must be more than nothing.",
            ),
        ]

    def __str__(self) -> str:
        return self.tag


class Reading(WorkshopOwned):
    """A moisture reading, in % of dry mass."""

    board = models.ForeignKey(Board, models.CASCADE, related_name="readings")
    mc_pct = models.FloatField(validators=[MinValueValidator(0), MaxValueValidator(200)])
    read_on = models.DateField()
    meter = models.CharField(max_length=120, blank=True)
    place = models.CharField(max_length=120, blank=True)  # where the board stood
    temp_c = models.FloatField(  # of the wood
        null=True, blank=True, validators=[MinValueValidator(-40), MaxValueValidator(80)]
    )
    note = models.CharField(max_length=500, blank=True)

    def __str__(self) -> str:
        return f"{self.mc_pct} % on {self.read_on}"


def _file_of(shot: "Shot", name: str) -> str:
    return f"{shot.workshop_id}/shots/{shot.pk}/{name}"


class WorkedOn(WorkshopOwned):
    """A row that the background worker writes to as well: a phone that has not heard of that yet is not stale."""

    # The revision since which only the worker wrote.
    asked_revision = models.PositiveIntegerField(default=0, editable=False)

    class Meta:
        abstract = True

    def save(self, *args: Any, by_worker: bool = False, **kwargs: Any) -> None:
        if not by_worker:
            self.asked_revision = self.revision + 1
            if (fields := kwargs.get("update_fields")) is not None:
                kwargs["update_fields"] = {*fields, "asked_revision"}
        super().save(*args, **kwargs)


class Shot(WorkedOn):
    """One photograph of a board face: as it came, upright, and squared up once its corners are known."""

    class State(models.TextChoices):
        RECEIVED = "received", "Being turned upright"
        READY = "ready", "Waits for its corners"
        SQUARING = "squaring", "Being squared up"
        SQUARED = "squared", "Squared up"
        FAILED = "failed", "Did not work"

    board = models.ForeignKey(Board, models.CASCADE, related_name="shots")
    face = models.CharField(max_length=1, choices=Face, default=Face.A)
    state = models.CharField(max_length=10, choices=State, default=State.RECEIVED)
    problem = models.CharField(max_length=500, blank=True)
    taken_by = models.ForeignKey(Member, models.SET_NULL, null=True, related_name="+")
    original = models.FileField(upload_to=_file_of, max_length=200)
    upright = models.FileField(upload_to=_file_of, max_length=200, blank=True)
    preview = models.FileField(upload_to=_file_of, max_length=200, blank=True)
    squared = models.FileField(upload_to=_file_of, max_length=200, blank=True)
    sha256 = models.CharField(max_length=64)
    width_px = models.PositiveIntegerField()
    height_px = models.PositiveIntegerField()
    corners = models.JSONField(null=True, blank=True)  # [[x, y] * 4], pixels of the upright photo
    points = models.JSONField(null=True, blank=True)  # [{"px": [x, y], "mm": [x, y]}], instead of corners
    proposal = models.JSONField(null=True, blank=True)  # {"corners", "from", "sure", "length_mm", "width_mm"}
    # 3 x 3, upright photo pixels (straightened ones where there is a lens) to board mm
    homography = models.JSONField(null=True, blank=True)
    lens_k = models.FloatField(null=True, blank=True)  # as in craft.rectify.Lens; none where the lens bends nothing
    x0_mm = models.FloatField(null=True, blank=True)
    x1_mm = models.FloatField(null=True, blank=True)
    point_residuals_mm = models.JSONField(null=True, blank=True)  # of each corner or point
    residual_mm = models.FloatField(null=True, blank=True)
    slip_mm = models.FloatField(null=True, blank=True)
    mm_per_px = models.FloatField(null=True, blank=True)
    squared_width_px = models.PositiveIntegerField(null=True, blank=True)
    squared_height_px = models.PositiveIntegerField(null=True, blank=True)
    # The board's size the squaring was made for: a board measured anew is squared anew.
    squared_length_mm = models.FloatField(null=True, blank=True)
    squared_across_mm = models.FloatField(null=True, blank=True)

    def __str__(self) -> str:
        return f"{self.board} face {self.face}"

    def stretch_on(self, length_mm: float) -> tuple[float, float]:
        """Which stretch of its board the photograph shows; all of it where it was squared by the board's corners."""
        if self.x0_mm is None or self.x1_mm is None or self.corners:
            return 0.0, length_mm
        return max(0.0, self.x0_mm), min(length_mm, self.x1_mm)

    def shows_all_of(self, length_mm: float) -> bool:
        x0, x1 = self.stretch_on(length_mm)
        return x0 <= END_SLACK_MM and x1 >= length_mm - END_SLACK_MM


# What a rounding of the tape may leave at a board's end.
END_SLACK_MM = 1.0


def _picture_of(face: "FacePicture", name: str) -> str:
    return f"{face.workshop_id}/faces/{face.pk}/{name}"


class FacePicture(WorkedOn):
    """The picture of a face, joined of all its squared photographs; made by the service alone."""

    class State(models.TextChoices):
        JOINING = "joining", "Being joined"
        JOINED = "joined", "Joined"
        FAILED = "failed", "Did not work"

    board = models.ForeignKey(Board, models.CASCADE, related_name="face_pictures")
    face = models.CharField(max_length=1, choices=Face)
    state = models.CharField(max_length=10, choices=State, default=State.JOINING)
    problem = models.CharField(max_length=500, blank=True)
    picture = models.FileField(upload_to=_picture_of, max_length=200, blank=True)
    sha256 = models.CharField(max_length=64, blank=True)
    stretches = models.JSONField(default=list)  # [{"shot", "x0_mm", "x1_mm", "righted"}], from the butt end on
    gaps = models.JSONField(default=list)  # [[x0, x1]] mm that no photograph shows
    overlaps = models.JSONField(default=list)  # [[x0, x1, disagreement or none]] mm
    remarks = models.JSONField(default=list)  # what the maker should know about how they fit, in words
    mm_per_px = models.FloatField(null=True, blank=True)
    width_px = models.PositiveIntegerField(null=True, blank=True)
    height_px = models.PositiveIntegerField(null=True, blank=True)
    # The board's size the picture was made for.
    squared_length_mm = models.FloatField(null=True, blank=True)
    squared_across_mm = models.FloatField(null=True, blank=True)
    suggestions = models.JSONField(default=list)  # [{"key", "kind", "shape", "score"}], shapes as those of marks
    dismissed = models.JSONField(default=list)  # keys of suggestions the maker took or did not want

    class Meta:
        constraints = [models.UniqueConstraint(fields=["board", "face"], name="one_picture_a_face")]

    def __str__(self) -> str:
        return f"{self.board} face {self.face}"

    @staticmethod
    def key_of(board: Board, face: str) -> uuid.UUID:
        """The id of a face's picture is always the same, so that two workers cannot make two."""
        return uuid.uuid5(board.pk if isinstance(board.pk, uuid.UUID) else uuid.UUID(str(board.pk)), f"face {face}")
