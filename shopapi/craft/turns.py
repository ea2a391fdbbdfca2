"""Whose turn it is: when a step of a surface plan may start, given what was done so far and in what air."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime

from shopapi.craft.finish import REFERENCE_RH_PCT, REFERENCE_TEMP_C, FinishClass
from shopapi.craft.surface_plan import ready_at


@dataclass(frozen=True)
class PlanStep:
    """A step in its place; waits as in craft.surface_plan."""

    id: str
    position: float
    kind: str
    wait_hours: float
    window_hours: float | None


@dataclass(frozen=True)
class Done:
    """A line of the bench log; air that nobody noted is None. [°C, %]"""

    step: str
    done_at: datetime
    temp_c: float | None = None
    rh_pct: float | None = None


@dataclass(frozen=True)
class Turn:
    """The last thing done before a step, and the earliest and latest sensible start after it (None: no limit)."""

    before: Done
    earliest: datetime
    latest: datetime | None
    note: str


def turn_of(step_id: str, steps: Sequence[PlanStep], log: Sequence[Done], finish: FinishClass | str) -> Turn | None:
    """When the step may start; None where nothing was done before it.

    step_id: of one of `steps`. log: in any order. finish: the plan's class or its name. Steps in between that were
    left out do not shorten the wait: what they would have waited for is counted. Where nobody noted the air, times
    stand at 20 °C and 50 % RH. An estimate, as ready_at. Raises KeyError for an unknown step, OutOfRangeError as
    ready_at.
    Source: OWN, the waits of craft.surface_plan one after the other.
    """
    by_id = {step.id: step for step in steps}
    step = by_id[step_id]
    earlier = [done for done in log if done.step in by_id and by_id[done.step].position < step.position]
    if not earlier:
        return None
    before = max(earlier, key=lambda done: done.done_at)
    ticked = {done.step for done in log}
    left_out = [
        other
        for other in sorted(steps, key=lambda one: one.position)
        if by_id[before.step].position < other.position < step.position and other.id not in ticked
    ]
    temp_c = REFERENCE_TEMP_C if before.temp_c is None else before.temp_c
    rh_pct = REFERENCE_RH_PCT if before.rh_pct is None else before.rh_pct
    moment = before.done_at
    for other in left_out:
        moment = ready_at(other, moment, temp_c, rh_pct, finish).earliest
    ready = ready_at(step, moment, temp_c, rh_pct, finish)
    return Turn(before, ready.earliest, None if left_out else ready.latest, ready.note)
