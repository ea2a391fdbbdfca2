"""Workings that were kept: what was asked and answered, with a commission or one of its parts."""

from django.db import models

from shopapi.commissions.models import Commission, Part
from shopapi.workshops.scoping import WorkshopOwned


class Working(WorkshopOwned):
    """One answer, kept with its inputs as they were; another answer is another working."""

    kind = models.CharField(max_length=40)
    title = models.CharField(max_length=120, blank=True)
    commission = models.ForeignKey(Commission, models.CASCADE, related_name="workings")
    # A part may go; what was worked out for it stays with the commission.
    part = models.ForeignKey(Part, models.SET_NULL, null=True, blank=True, related_name="workings")
    inputs = models.JSONField(default=dict)
    answer = models.JSONField(default=dict, editable=False)

    def __str__(self) -> str:
        return self.title or self.kind
