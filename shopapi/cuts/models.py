"""Cuts: boards that became smaller boards."""

from django.core.validators import MinValueValidator
from django.db import models

from shopapi.boards.models import Board
from shopapi.workshops.scoping import WorkshopOwned


class Cut(WorkshopOwned):
    """One board sawn into pieces, each of which is a board from then on."""

    class Kind(models.TextChoices):
        CROSSCUT = "crosscut", "Across the grain"
        RIP = "rip", "Along the grain"
        LAYOUT = "layout", "As laid out"

    board = models.ForeignKey(Board, models.CASCADE, related_name="cuts")
    kind = models.CharField(max_length=8, choices=Kind)
    # Where the saw's lower side runs, from the butt end or from the lower edge; none for a whole layout.
    at_mm = models.FloatField(null=True, blank=True, validators=[MinValueValidator(0)])
    kerf_mm = models.FloatField(default=0, validators=[MinValueValidator(0)])
    pieces = models.JSONField()  # [{id, tag, x_mm, y_mm, length_mm, width_mm}], mm of the board that was cut
    # The feed's number when all pieces were made: whatever came later on a piece keeps the cut from being undone.
    made_seq = models.PositiveBigIntegerField(default=0, editable=False)

    def __str__(self) -> str:
        return f"cut of {self.board}"
