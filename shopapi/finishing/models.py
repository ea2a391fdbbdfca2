"""Surface plans and the bench log."""

from django.core.validators import MaxValueValidator, MinValueValidator
from django.db import models

from shopapi.commissions.models import Commission
from shopapi.workshops.models import Member
from shopapi.workshops.scoping import WorkshopOwned


class SurfacePlan(WorkshopOwned):
    """The ordered sanding and finish steps of a commission, as picked and then edited by the maker."""

    commission = models.ForeignKey(Commission, models.CASCADE, related_name="surface_plans")
    name = models.CharField(max_length=120, blank=True)
    finish_class = models.CharField(max_length=40)
    coats = models.PositiveSmallIntegerField(default=3, validators=[MinValueValidator(1), MaxValueValidator(20)])
    start_grit = models.PositiveSmallIntegerField(
        default=100, validators=[MinValueValidator(24), MaxValueValidator(3000)]
    )
    final_grit = models.PositiveSmallIntegerField(
        default=180, validators=[MinValueValidator(24), MaxValueValidator(3000)]
    )
    raise_grain = models.BooleanField(default=False)

    def __str__(self) -> str:
        return self.name or self.finish_class


class Step(WorkshopOwned):
    """One action; `wait_hours` after the step before it, no later than `window_hours`."""

    class Kind(models.TextChoices):
        SAND = "sand", "Sand"
        RAISE_GRAIN = "raise_grain", "Raise the grain"
        DUST = "dust", "Dust off"
        COAT = "coat", "Coat"
        ABRADE = "abrade", "Abrade between coats"
        CURE = "cure", "Let it cure"
        OTHER = "other", "Other"

    plan = models.ForeignKey(SurfacePlan, models.CASCADE, related_name="steps")
    position = models.FloatField(default=0)
    kind = models.CharField(max_length=12, choices=Kind)
    title = models.CharField(max_length=160)
    detail = models.TextField(max_length=2000, blank=True)
    cautions = models.JSONField(default=list)
    wait_hours = models.FloatField(default=0, validators=[MinValueValidator(0), MaxValueValidator(8760)])
    window_hours = models.FloatField(null=True, blank=True, validators=[MinValueValidator(0), MaxValueValidator(8760)])
    hands_on_minutes = models.PositiveIntegerField(default=0)

    def __str__(self) -> str:
        return self.title


class BenchEntry(WorkshopOwned):
    """A line of the bench log: a step that was done, when, by whom, in what air."""

    step = models.ForeignKey(Step, models.PROTECT, related_name="entries")
    done_at = models.DateTimeField()
    done_by = models.ForeignKey(Member, models.SET_NULL, null=True, related_name="+")
    done_by_name = models.CharField(max_length=120, blank=True)  # stays readable when the member leaves
    temp_c = models.FloatField(null=True, blank=True, validators=[MinValueValidator(0), MaxValueValidator(45)])
    rh_pct = models.FloatField(null=True, blank=True, validators=[MinValueValidator(0), MaxValueValidator(100)])
    note = models.CharField(max_length=500, blank=True)
    early_reason = models.CharField(max_length=300, blank=True)

    class Meta:
        verbose_name_plural = "bench entries"

    def __str__(self) -> str:
        return f"{self.step} at {self.done_at}"
