"""Reads about surface plans: which step comes next, and what it waits for."""

from datetime import datetime

from shopapi.commissions.models import Commission
from shopapi.craft.turns import Done, PlanStep, Turn, turn_of
from shopapi.finishing.models import BenchEntry, Step, SurfacePlan
from shopapi.workshops.models import Workshop


def steps_of(plan: SurfacePlan) -> list[Step]:
    return list(Step.objects.for_workshop(plan.workshop_id).filter(plan=plan).order_by("position", "created_at", "id"))


def plans_of(commission: Commission) -> list[SurfacePlan]:
    """The plans of a commission, the first made first."""
    rows = SurfacePlan.objects.for_workshop(commission.workshop_id).filter(commission=commission)
    return list(rows.order_by("created_at", "id"))


def entries_of(plan: SurfacePlan) -> list[BenchEntry]:
    rows = BenchEntry.objects.for_workshop(plan.workshop_id).filter(step__plan=plan)
    return list(rows.select_related("step", "done_by").order_by("done_at", "created_at"))


def latest_air(workshop: Workshop, *, since: datetime) -> BenchEntry | None:
    """The newest line of the bench log that tells both temperature and humidity of the shop's air."""
    rows = BenchEntry.objects.for_workshop(workshop).filter(temp_c__isnull=False, rh_pct__isnull=False)
    return rows.filter(done_at__gte=since).order_by("-done_at", "-created_at").first()


def turn_of_step(step: Step) -> Turn | None:
    """When the step may start; None where nothing was done before it."""
    steps = [
        PlanStep(str(one.pk), one.position, one.kind, one.wait_hours, one.window_hours) for one in steps_of(step.plan)
    ]
    log = [Done(str(entry.step_id), entry.done_at, entry.temp_c, entry.rh_pct) for entry in entries_of(step.plan)]
    return turn_of(str(step.pk), steps, log, step.plan.finish_class)
