"""Packets: the papers a client was handed, frozen as they were."""

from django.db import models

from shopapi.commissions.models import Commission
from shopapi.workshops.models import Workshop
from shopapi.workshops.scoping import WorkshopOwned


def _file_of(packet: "Packet", name: str) -> str:
    return f"{packet.workshop_id}/packets/{packet.pk}/{name}"


class Packet(WorkshopOwned):
    """The data a packet was printed from, and the PDF; a new one is a deliberate act and does not touch the old."""

    class State(models.TextChoices):
        QUEUED = "queued", "Waiting for its turn"
        RUNNING = "running", "Being printed"
        DONE = "done", "Done"
        FAILED = "failed", "Did not work"

    commission = models.ForeignKey(Commission, models.CASCADE, related_name="packets")
    paper = models.CharField(max_length=10, choices=Workshop.Paper, blank=True)
    state = models.CharField(max_length=8, choices=State, default=State.QUEUED)
    problem = models.CharField(max_length=500, blank=True)
    frozen = models.JSONField(default=dict)
    document = models.FileField(upload_to=_file_of, max_length=200, blank=True)
    made_at = models.DateTimeField(null=True)

    def __str__(self) -> str:
        return f"packet of {self.commission}"
