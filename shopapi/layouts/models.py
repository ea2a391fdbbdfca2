"""Layouts: which part comes from where."""

from django.core.validators import MinValueValidator
from django.db import models

from shopapi.boards.models import Board
from shopapi.commissions.models import Commission
from shopapi.workshops.scoping import WorkshopOwned


class Layout(WorkshopOwned):
    """One question to the solver and its answer; what was asked is kept with it, so the answer stays traceable."""

    class State(models.TextChoices):
        QUEUED = "queued", "Waiting for its turn"
        RUNNING = "running", "Being worked out"
        DONE = "done", "Done"
        FAILED = "failed", "Did not work"

    class Made(models.TextChoices):
        SOLVED = "solved", "Worked out"
        BY_HAND = "by_hand", "Laid out by hand"

    class Aim(models.TextChoices):
        LOOKS = "looks", "Looks first"
        YIELD = "yield", "Least wood"

    commission = models.ForeignKey(Commission, models.CASCADE, related_name="layouts")
    boards = models.JSONField(default=list)  # ids to choose from; empty: every board in the rack of a wanted species
    excluded = models.JSONField(default=list)  # ids never to take
    based_on = models.ForeignKey("self", models.SET_NULL, null=True, blank=True, related_name="followers")
    made = models.CharField(max_length=7, choices=Made, default=Made.SOLVED)
    pinned = models.JSONField(default=list)  # placements that stay where they are; by hand: all of them
    aim = models.CharField(max_length=6, choices=Aim, default=Aim.LOOKS)
    seconds = models.FloatField(default=5)
    state = models.CharField(max_length=8, choices=State, default=State.QUEUED)
    problem = models.CharField(max_length=500, blank=True)
    stop_asked = models.BooleanField(default=False)
    progress = models.JSONField(null=True)  # {value, bound, gap_pct, seconds} while it runs
    asked = models.JSONField(default=dict)
    value = models.FloatField(null=True)
    bound = models.FloatField(null=True)
    proved_best = models.BooleanField(default=False)
    placements = models.JSONField(default=list)
    unplaced = models.JSONField(default=list)
    cuts = models.JSONField(default=dict)
    figures = models.JSONField(null=True)
    kept_together = models.JSONField(default=list)  # [{group, level, stocks}]: how near its pieces come from
    bound_covers = models.CharField(max_length=500, blank=True)
    carried_out_on = models.DateField(null=True)
    carried = models.JSONField(default=list)  # [{board, cut, on}]: boards sawn by this layout
    finished_at = models.DateTimeField(null=True)

    def __str__(self) -> str:
        return f"layout of {self.commission}"


class Outcome(WorkshopOwned):
    """What really came out of a board, noted after cutting."""

    board = models.ForeignKey(Board, models.CASCADE, related_name="outcomes")
    layout = models.ForeignKey(Layout, models.SET_NULL, null=True, blank=True, related_name="outcomes")
    species = models.CharField(max_length=80, blank=True)
    grade = models.CharField(max_length=40, blank=True)
    board_mm2 = models.FloatField(validators=[MinValueValidator(1)])  # what was cut up, without offcuts kept
    got_mm2 = models.FloatField(validators=[MinValueValidator(0)])  # good rough pieces
    made_on = models.DateField()
    note = models.CharField(max_length=500, blank=True)

    def __str__(self) -> str:
        return f"outcome of {self.board}"

    @property
    def waste_pct(self) -> float:
        return 100 * (1 - self.got_mm2 / self.board_mm2)
