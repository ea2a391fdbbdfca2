"""Marks: what was noted on the faces of boards."""

from django.db import models

from shopapi.boards.models import Board, Face
from shopapi.workshops.scoping import WorkshopOwned


class Mark(WorkshopOwned):
    """A flaw or a prized figure, its shape in board mm; face B lies in face A's coordinates."""

    class Kind(models.TextChoices):
        KNOT = "knot", "Knot"
        CHECK = "check", "Check"
        SPLIT = "split", "Split"
        WANE = "wane", "Wane"
        SAPWOOD = "sapwood", "Sapwood"
        BARK_POCKET = "bark_pocket", "Bark pocket"
        WORM_HOLES = "worm_holes", "Worm holes"
        PITCH = "pitch", "Pitch"
        STAIN = "stain", "Stain"
        PITH = "pith", "Pith"
        SNIPE = "snipe", "Snipe"
        OTHER = "other", "Other"
        FIGURE = "figure", "Prized figure"

    class Blocks(models.TextChoices):
        ALL = "all", "No part may lie here"
        SHOW = "show", "Not where it would be seen"
        NONE = "none", "Blocks nothing"

    board = models.ForeignKey(Board, models.CASCADE, related_name="marks")
    face = models.CharField(max_length=1, choices=Face, default=Face.A)
    kind = models.CharField(max_length=12, choices=Kind)
    shape = models.JSONField()
    through = models.BooleanField(default=False)
    blocks = models.CharField(max_length=5, choices=Blocks, default=Blocks.ALL)
    note = models.CharField(max_length=500, blank=True)

    def __str__(self) -> str:
        return f"{self.kind} on {self.board}"
