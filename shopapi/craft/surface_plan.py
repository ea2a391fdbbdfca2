"""A surface plan: sanding and finish steps in order, and when each may start.

Waits are least times after the step before, at 20 °C and 50 % RH; `ready_at` stretches or shortens them for the air in
which the step before was done, by the drying model of craft.finish. The label of the product in hand rules.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import datetime, timedelta
from typing import Literal, Protocol

from shopapi.craft.abrasives import grit_sequence
from shopapi.craft.finish import LABEL_RULES, Drying, FinishClass, drying_factor, finish_class
from shopapi.craft.limits import OutOfRangeError

StepKind = Literal["sand", "raise_grain", "dust", "coat", "abrade", "cure", "other"]

# COMMON-PRACTICE, no source: hands-on minutes for a piece of a desk's size, and the waits no label gives.
_SAND_MINUTES, _ABRADE_MINUTES, _DUST_MINUTES, _COAT_MINUTES, _WATER_MINUTES = 40, 20, 10, 30, 10
_WATER_DRIES_H = 2.0
# A dusted surface stays clean, and a scuffed one keyed, about a working day.
_CLEAN_FOR_H = 8.0

_DUST = "Wood dust harms lungs and nose and can cause cancer (oak, beech): extraction at the tool, a fitting dust mask."


@dataclass(frozen=True)
class PlannedStep:
    """One step of a surface plan. `wait_hours` is the least time after the step before, `window_hours` the latest
    sensible start after it (None: no limit), both at 20 °C and 50 % RH."""

    kind: StepKind
    title: str
    detail: str
    wait_hours: float = 0.0
    window_hours: float | None = None
    hands_on_minutes: int = 0
    cautions: tuple[str, ...] = ()


class Waiting(Protocol):
    """What ready_at needs of a step: a PlannedStep, or any row with these fields."""

    @property
    def kind(self) -> str: ...
    @property
    def wait_hours(self) -> float: ...
    @property
    def window_hours(self) -> float | None: ...


@dataclass(frozen=True)
class Ready:
    """When a step may start: earliest, latest sensible start (None: no limit), and what to say beside it."""

    earliest: datetime
    latest: datetime | None
    note: str


def plan_steps(
    finish: FinishClass | str,
    coats: int | None = None,
    start_grit: int = 120,
    final_grit: int | None = None,
    raise_grain: bool | None = None,  # noqa: FBT001 - the plan's own yes or no, as the maker set it
) -> tuple[PlannedStep, ...]:
    """The ordered steps of a surface plan: sand, raise the grain, dust off, coat, abrade between coats, cure.

    finish: class or its name. coats: 1 to the class's most; None takes its usual number. start_grit, final_grit: P
    grades; None ends where the class wants. raise_grain: None does as the class wants. The maker edits all of it.
    Raises OutOfRangeError.
    Source: FINISH-SHEETS for times; order, minutes and the wait for water are common practice, no source.

    >>> [step.kind for step in plan_steps("hardwax_oil", coats=1, start_grit=180)]
    ['sand', 'dust', 'coat', 'cure', 'cure']
    """
    one = finish_class(finish) if isinstance(finish, str) else finish
    coats = one.coats if coats is None else coats
    if isinstance(coats, bool) or not isinstance(coats, int) or not 1 <= coats <= one.most_coats:
        raise OutOfRangeError(f"{coats} coats of {one.label} is out of range: it must be from 1 to {one.most_coats}.")
    grits = grit_sequence(start_grit, one.final_grit if final_grit is None else final_grit)
    wet = one.raise_grain if raise_grain is None else raise_grain
    return (*_sanding(grits, wet=wet), *_coating(one, coats), *_curing(one))


def ready_at(step: Waiting, done_at: datetime, temp_c: float, rh_pct: float, finish: FinishClass | str) -> Ready:
    """When a step may start, from when and in what air the step before it was done.

    step: a PlannedStep or a row like it. done_at: when the step before was done (with its time zone). temp_c: shop air
    then [°C], 0 to 45. rh_pct: [%], 0 to 100. finish: the plan's class or its name. Waits after a coat follow the
    finish's drying, waits after water follow water's; a cure is never shortened; steps without a wait can go at once.
    An estimate: a factor of 1.5 either way, so test the surface. Raises OutOfRangeError.
    Source: OWN, the drying model of craft.finish on the waits of FINISH-SHEETS.

    >>> from datetime import UTC
    >>> coat = PlannedStep("coat", "Coat 2", "", wait_hours=3, window_hours=24)
    >>> ready_at(coat, datetime(2026, 1, 5, 8, tzinfo=UTC), 20, 75, "waterborne_polyurethane").earliest.hour
    14
    """
    one = finish_class(finish) if isinstance(finish, str) else finish
    factor = drying_factor(_drying_of(step, one), temp_c, rh_pct)
    scale = 1.0 if step.kind == "other" else float(factor)
    if step.kind == "cure":
        scale = max(1.0, scale)
    wait = timedelta(hours=step.wait_hours * scale)
    latest = None
    if step.window_hours is not None:
        # A window only widens, as the wait does: warm air must not forbid what the label allows.
        latest = done_at + max(wait, timedelta(hours=step.window_hours * max(1.0, scale if step.wait_hours else 1.0)))
    waited = bool(step.wait_hours)
    notes = [LABEL_RULES, *factor.cautions, *_air(one, temp_c, rh_pct)] if waited else []
    return Ready(done_at + wait, latest, " ".join(notes))


def _drying_of(step: Waiting, one: FinishClass) -> Drying:
    """What holds the step back: sanding waits for water to leave the wood, everything else for the finish."""
    return "water" if step.kind in ("sand", "raise_grain", "dust") else one.drying


def _air(one: FinishClass, temp_c: float, rh_pct: float) -> Iterator[str]:
    if not one.coldest_c <= temp_c <= one.warmest_c:
        yield f"{temp_c:g} °C is outside {one.coldest_c:g} to {one.warmest_c:g} °C for this finish."
    if rh_pct > one.dampest_rh_pct:
        yield f"{rh_pct:g} % RH is above {one.dampest_rh_pct:g} % for this finish."


def _sanding(grits: tuple[int, ...], *, wet: bool) -> Iterator[PlannedStep]:
    for grit in grits:
        yield PlannedStep(
            "sand", f"Sand with {grit}", "With the grain, in low side light, until the last scratches are gone.",
            hands_on_minutes=_SAND_MINUTES, cautions=(_DUST,),
        )  # fmt: skip
    if wet:
        yield PlannedStep(
            "raise_grain", "Raise the grain", "Wipe both faces alike with a damp clean cloth; let it dry.",
            hands_on_minutes=_WATER_MINUTES,
        )  # fmt: skip
        yield PlannedStep(
            "sand", f"Knock back with {grits[-1]}", "Two light strokes by hand: only the fuzz, not the fresh wood.",
            wait_hours=_WATER_DRIES_H, hands_on_minutes=_SAND_MINUTES // 2, cautions=(_DUST,),
        )  # fmt: skip


def _coating(one: FinishClass, coats: int) -> Iterator[PlannedStep]:
    yield _dust()
    yield _coat(one, 1, window_hours=_CLEAN_FOR_H)
    for number in range(2, coats + 1):
        if one.abrade_grit:
            yield PlannedStep(
                "abrade", f"Abrade with {one.abrade_grit}", "By hand, lightly, until evenly dull; mind the edges.",
                wait_hours=one.recoat_h, hands_on_minutes=_ABRADE_MINUTES, cautions=(_DUST,),
            )  # fmt: skip
            yield _dust()
            yield _coat(one, number, window_hours=_CLEAN_FOR_H)
        else:
            yield replace(_coat(one, number, window_hours=one.latest_h), wait_hours=one.recoat_h)


def _dust() -> PlannedStep:
    return PlannedStep(
        "dust", "Take off the dust", "Vacuum, then wipe with a clean cloth; let the dust in the air settle.",
        hands_on_minutes=_DUST_MINUTES, cautions=(_DUST,),
    )  # fmt: skip


def _coat(one: FinishClass, number: int, window_hours: float | None) -> PlannedStep:
    detail = "Thin and even, the hidden faces too, so that the wood stays flat."
    return PlannedStep(
        "coat", f"Coat {number}: {one.label}", detail,
        window_hours=window_hours, hands_on_minutes=_COAT_MINUTES, cautions=(*one.cautions, LABEL_RULES),
    )  # fmt: skip


def _curing(one: FinishClass) -> Iterator[PlannedStep]:
    yield PlannedStep(
        "cure", "Ready for light use", "May be handled, packed in soft cloth and used with care.",
        wait_hours=one.light_use_h, cautions=(LABEL_RULES,),
    )  # fmt: skip
    yield PlannedStep(
        "cure", "Ready for full use", "May be cleaned, set with wet and warm things on mats, and packed tight.",
        wait_hours=one.full_use_h - one.light_use_h, cautions=(LABEL_RULES,),
    )  # fmt: skip
