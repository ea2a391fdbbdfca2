"""Reads about surface plans: which step comes next, and what it waits for."""

from dataclasses import dataclass

from shopapi.craft.finish import REFERENCE_RH_PCT, REFERENCE_TEMP_C
from shopapi.craft.surface_plan import Ready, ready_at
from shopapi.finishing.models import BenchEntry, Step, SurfacePlan


@dataclass(frozen=True)
class Turn:
    """Where a step stands: the last thing done before it, and when it may start after that."""

    before: BenchEntry
    ready: Ready


@dataclass(frozen=True)
class _Waiting:
    kind: str
    wait_hours: float
    window_hours: float | None


def steps_of(plan: SurfacePlan) -> list[Step]:
    return list(Step.objects.for_workshop(plan.workshop_id).filter(plan=plan).order_by("position", "created_at", "id"))


def entries_of(plan: SurfacePlan) -> list[BenchEntry]:
    rows = BenchEntry.objects.for_workshop(plan.workshop_id).filter(step__plan=plan)
    return list(rows.select_related("step", "done_by").order_by("done_at", "created_at"))


def turn_of(step: Step) -> Turn | None:
    """When the step may start, given what was done and in what air; None where nothing was done before it.

    Steps in between that were left out do not shorten the wait: what they would have waited for is counted.
    """
    entries = entries_of(step.plan)
    before = max((e for e in entries if e.step.position < step.position), key=lambda e: e.done_at, default=None)
    if before is None:
        return None
    done = {entry.step_id for entry in entries}
    skipped = [
        other
        for other in steps_of(step.plan)
        if before.step.position < other.position < step.position and other.pk not in done
    ]
    longest = max([step, *skipped], key=lambda one: one.wait_hours)
    waiting = _Waiting(
        kind=longest.kind,
        wait_hours=sum(one.wait_hours for one in [step, *skipped]),
        window_hours=None if skipped else step.window_hours,
    )
    # Where nobody noted the air, the times stand as they are: at 20 °C and 50 % RH.
    temp_c = REFERENCE_TEMP_C if before.temp_c is None else before.temp_c
    rh_pct = REFERENCE_RH_PCT if before.rh_pct is None else before.rh_pct
    return Turn(before, ready_at(waiting, before.done_at, temp_c, rh_pct, step.plan.finish_class))
