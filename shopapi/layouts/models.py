"""Layouts: which part comes from where."""

from django.db import models

from shopapi.commissions.models import Commission
from shopapi.workshops.scoping import WorkshopOwned


class Layout(WorkshopOwned):
    """One question to the solver and its answer; what was asked is kept with it, so the answer stays traceable."""

    class State(models.TextChoices):
        QUEUED = "queued", "Waiting for its turn"
        RUNNING = "running", "Being worked out"
        DONE = "done", "Done"
        FAILED = "failed", "Did not work"

    class Aim(models.TextChoices):
        LOOKS = "looks", "Looks first"
        YIELD = "yield", "Least wood"

    commission = models.ForeignKey(Commission, models.CASCADE, related_name="layouts")
    boards = models.JSONField(default=list)  # ids to choose from; empty: every board in the rack of a wanted species
    aim = models.CharField(max_length=6, choices=Aim, default=Aim.LOOKS)
    seconds = models.FloatField(default=5)
    state = models.CharField(max_length=8, choices=State, default=State.QUEUED)
    problem = models.CharField(max_length=500, blank=True)
    asked = models.JSONField(default=dict)
    value = models.FloatField(null=True)
    bound = models.FloatField(null=True)
    proved_best = models.BooleanField(default=False)
    placements = models.JSONField(default=list)
    unplaced = models.JSONField(default=list)
    cuts = models.JSONField(default=dict)
    finished_at = models.DateTimeField(null=True)

    def __str__(self) -> str:
        return f"layout of {self.commission}"
