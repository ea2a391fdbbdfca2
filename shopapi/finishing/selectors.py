"""Reads about surface plans: which step comes next, and what it waits for."""

from dataclasses import dataclass
from datetime import datetime

from shopapi.craft.surface_plan import Readiness, readiness
from shopapi.finishing.models import BenchEntry, Step, SurfacePlan


@dataclass(frozen=True)
class Turn:
    """Where a step stands: what was done before it, and when it may start."""

    before: BenchEntry | None
    ready: Readiness | None  # None: nothing was done that it has to wait for


def steps_of(plan: SurfacePlan) -> list[Step]:
    return list(Step.objects.for_workshop(plan.workshop_id).filter(plan=plan).order_by("position", "created_at", "id"))


def entries_of(plan: SurfacePlan) -> list[BenchEntry]:
    rows = BenchEntry.objects.for_workshop(plan.workshop_id).filter(step__plan=plan)
    return list(rows.select_related("step", "done_by").order_by("done_at", "created_at"))


def turn_of(step: Step, entries: list[BenchEntry]) -> Turn:
    """When the step may start, from the last thing done before it and the air it was done in."""
    before = max(
        (entry for entry in entries if entry.step.position < step.position),
        key=lambda entry: entry.done_at,
        default=None,
    )
    if before is None:
        return Turn(None, None)
    return Turn(
        before,
        readiness(
            wait_hours=step.wait_hours,
            window_hours=step.window_hours,
            done_at=before.done_at,
            temp_c=before.temp_c,
            rh_pct=before.rh_pct,
        ),
    )


def last_done(plan: SurfacePlan) -> datetime | None:
    return max((entry.done_at for entry in entries_of(plan)), default=None)
