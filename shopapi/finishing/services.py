"""Writes about surface plans and the bench log."""

from datetime import datetime, timedelta
from typing import Any
from uuid import UUID
from zoneinfo import ZoneInfo

from django.db import transaction
from django.utils import timezone

from shopapi.craft.surface_plan import plan_steps
from shopapi.finishing import selectors
from shopapi.finishing.models import BenchEntry, Step, SurfacePlan
from shopapi.rest import Refusal
from shopapi.workshops.models import Member, Workshop
from shopapi.workshops.scoping import remove

_HELD_BY_THE_FINISH = {Step.Kind.COAT, Step.Kind.ABRADE, Step.Kind.CURE}
_CLOCK_SLACK = timedelta(minutes=10)  # phones' clocks differ


@transaction.atomic
def surface_plan_create(*, workshop: Workshop, id: UUID | None = None, **chosen: Any) -> SurfacePlan:
    """The plan with its steps, made from what the maker picked; the steps are theirs to edit from then on."""
    plan = SurfacePlan(workshop=workshop, **chosen)
    if id is not None:
        plan.id = id
    plan.save()
    steps = plan_steps(
        plan.finish_class,
        coats=plan.coats,
        start_grit=plan.start_grit,
        final_grit=plan.final_grit,
        raise_grain=plan.raise_grain,
    )
    for position, step in enumerate(steps, start=1):
        Step.objects.create(
            workshop=workshop,
            plan=plan,
            position=position,
            kind=step.kind,
            title=step.title,
            detail=step.detail,
            cautions=list(step.cautions),
            wait_hours=step.wait_hours,
            window_hours=step.window_hours,
            hands_on_minutes=step.hands_on_minutes,
        )
    return plan


@transaction.atomic
def step_remove(*, step: Step) -> None:
    """Takes a step out of its plan. What it waited for, the next step that the finish holds back waits for instead."""
    if step.wait_hours:
        later = [other for other in selectors.steps_of(step.plan) if other.position > step.position]
        heir = next((other for other in later if other.kind in _HELD_BY_THE_FINISH), None)
        if heir is not None and heir.wait_hours < step.wait_hours:
            heir.wait_hours = step.wait_hours
            if heir.window_hours is not None:
                heir.window_hours = max(heir.window_hours, heir.wait_hours)
            heir.save(update_fields=["wait_hours", "window_hours"])
    remove(step)


@transaction.atomic
def bench_entry_create(
    *, member: Member, step: Step, done_at: datetime, early_reason: str = "", id: UUID | None = None, **air: Any
) -> BenchEntry:
    """Ticks a step off. Refused when what lies under it is not dry, unless a reason is given, which is kept."""
    if done_at > timezone.now() + _CLOCK_SLACK:
        raise Refusal("That time has not come yet; check the clock of this phone.", kind="in-the-future")
    turn = selectors.turn_of_step(step)
    if turn and done_at < turn.earliest and not early_reason.strip():
        before = Step.objects.get(pk=turn.before.step)
        raise Refusal(
            f"“{before.title}” is dry enough {_clock(turn.earliest, member.workshop)}. "
            "Wait until then, or say why not.",
            kind="not-dry",
            ready_at=turn.earliest.isoformat(),
        )
    entry = BenchEntry(
        workshop=member.workshop,
        step=step,
        done_at=done_at,
        done_by=member,
        done_by_name=member.name,
        early_reason=early_reason.strip(),
        **air,
    )
    if id is not None:
        entry.id = id
    entry.save()
    return entry


def _clock(moment: datetime, workshop: Workshop) -> str:
    local = moment.astimezone(ZoneInfo(workshop.time_zone))
    # %-I is not known everywhere, so the leading zero goes by hand.
    hour = local.strftime("%I:%M %p").lstrip("0").lower() if workshop.units == "inch" else local.strftime("%H:%M")
    return f"on {local.strftime('%A')} {local.day} {local.strftime('%B')} at {hour}"
