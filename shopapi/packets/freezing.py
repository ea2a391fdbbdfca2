"""From rows to a packet's frozen data: every number it prints is gathered or reckoned here, once."""

from collections.abc import Iterable
from dataclasses import dataclass, field
from datetime import date, datetime, timedelta
from statistics import fmean

from django.utils import timezone

from shopapi.boards.models import Board
from shopapi.boards.selectors import latest_reading
from shopapi.commissions.models import Commission, Part
from shopapi.commissions.selectors import parts_of, widest_panel
from shopapi.craft.finish import REFERENCE_RH_PCT, REFERENCE_TEMP_C, cure_times, finish_class
from shopapi.craft.limits import OutOfRangeError
from shopapi.craft.moisture import equilibrium_moisture, seasonal_moisture
from shopapi.craft.movement import HomeMonth, home_year
from shopapi.craft.packet import (
    BoardUsed,
    FinishEntry,
    FinishRecord,
    Maker,
    MovementYear,
    PacketData,
    Paper,
    PartLine,
    UseDates,
    care_plan,
    cautions_for,
    mass_of_parts_kg,
    movement_year,
)
from shopapi.craft.sources import source
from shopapi.craft.species import UnknownSpeciesError
from shopapi.finishing.models import BenchEntry, Step, SurfacePlan
from shopapi.finishing.selectors import entries_of, plans_of, steps_of
from shopapi.layouts.breakdown import local_time, measures_of, picture_of, pieces_on, plain_name, used_boards
from shopapi.layouts.models import Layout
from shopapi.layouts.selectors import latest_done
from shopapi.printing.wording import air
from shopapi.workshops.models import Workshop

DEFAULT_CLASS = ""
MOST_COATS = 12  # more are not in the table of finishes


@dataclass
class Gathered:
    """What the parts of a packet share while it is put together."""

    commission: Commission
    layout: Layout | None
    boards: list[Board]
    warnings: list[str] = field(default_factory=list)

    @property
    def workshop(self) -> Workshop:
        return self.commission.workshop


def packet_data(commission: Commission, paper: Paper) -> PacketData:
    """The packet of a commission as things stand now."""
    layout = latest_done(commission)
    used = used_boards(layout) if layout else []
    gathered = Gathered(commission, layout, [board for _, _, board in used if board])
    plans = plans_of(commission)
    parts = tuple(_part(part) for part in parts_of(commission))
    use = _use(plans, gathered)
    built_mc_pct = _built_moisture(gathered, plans)
    full_use_on = use.full_use_on if use else None
    # The class of the last plan rules care and cautions: it is what lies on top.
    on_top = plans[-1].finish_class if plans else DEFAULT_CLASS
    return PacketData(
        maker=_maker(commission.workshop),
        piece=commission.title,
        made_on=_local_day(timezone.now(), gathered),
        client=commission.client.name if commission.client else "",
        description=commission.piece,
        reference=reference_of(commission),
        ordered_on=_local_day(commission.created_at, gathered),
        home_place=commission.home_place,
        paper=paper,
        measures=measures_of(commission.workshop),
        boards=_boards(used, gathered),
        parts=parts,
        finish=_finish(plans, gathered),
        use=use,
        care=care_plan(on_top, full_use_on),
        movement=_movement(gathered, built_mc_pct, plans),
        cautions=cautions_for(on_top, mass_kg=_mass(parts, built_mc_pct, gathered), full_use_on=full_use_on),
        warnings=tuple(dict.fromkeys(gathered.warnings)),
    )


def reference_of(commission: Commission) -> str:
    """A short number a client can read out: the beginning of the commission's id."""
    digits = commission.pk.hex[:6].upper()
    return f"{digits[:3]}-{digits[3:]}"


def _local_day(moment: datetime, gathered: Gathered) -> date:
    return local_time(moment, gathered.workshop).date()


def _maker(workshop: Workshop) -> Maker:
    return Maker(workshop.name, workshop.maker_name, workshop.phone, workshop.email, workshop.address, workshop.website)


def _boards(used: list[tuple[str, dict, Board | None]], gathered: Gathered) -> tuple[BoardUsed, ...]:
    if gathered.layout is None:
        gathered.warnings.append("No layout was made for this piece, so its boards are not shown.")
    return tuple(
        BoardUsed(
            tag=kept["tag"],
            species=kept["species"],
            length_mm=float(kept["length_mm"]),
            width_mm=float(kept["width_mm"]),
            thickness_mm=float(kept["thickness_mm"]),
            origin=board.source if board else "",
            picture=picture_of(board, kept),
            pieces=pieces_on(gathered.layout, key, plain_name) if gathered.layout else (),
        )
        for key, kept, board in used
    )


def _part(part: Part) -> PartLine:
    return PartLine(
        part.name,
        part.quantity,
        part.length_mm,
        part.width_mm,
        part.thickness_mm,
        part.species,
        part.strip_count,
    )


def _mass(parts: tuple[PartLine, ...], mc_pct: float, gathered: Gathered) -> float | None:
    if not parts:
        return None
    try:
        return mass_of_parts_kg(parts, mc_pct)
    except (OutOfRangeError, UnknownSpeciesError) as error:
        gathered.warnings.append(f"Its weight is not reckoned: {error}")
        return None


# Finish


def _finish(plans: list[SurfacePlan], gathered: Gathered) -> FinishRecord:
    entries = sorted((entry for plan in plans for entry in entries_of(plan)), key=lambda entry: entry.done_at)
    kinds = dict.fromkeys(_label(plan) for plan in plans)
    return FinishRecord(", ".join(kinds), tuple(_entry(entry, gathered) for entry in entries))


def _label(plan: SurfacePlan) -> str:
    try:
        label = finish_class(plan.finish_class).label
    except OutOfRangeError:
        label = plan.finish_class
    return f"{label[:1].lower()}{label[1:]}" if label[1:2].islower() else label


def _entry(entry: BenchEntry, gathered: Gathered) -> FinishEntry:
    return FinishEntry(
        done_at=local_time(entry.done_at, gathered.workshop),
        what=entry.step.title,
        by=entry.done_by_name,
        temp_c=entry.temp_c,
        rh_pct=entry.rh_pct,
        note=entry.note,
        early_reason=entry.early_reason,
    )


def _use(plans: list[SurfacePlan], gathered: Gathered) -> UseDates | None:
    """The latest of the plans' days; None while a coat of any of them is not in the bench log."""
    dates = []
    for plan in plans:
        last = _last_coat(plan)
        if last is None:
            return None
        try:
            dates.append(_use_of(plan, last, gathered))
        except OutOfRangeError as error:
            gathered.warnings.append(f"The day of full use is not known: {error}")
            return None
    return max(dates, key=lambda use: use.full_use_on, default=None)


def _last_coat(plan: SurfacePlan) -> BenchEntry | None:
    coats = {step.pk for step in steps_of(plan) if step.kind == Step.Kind.COAT}
    entries = [entry for entry in entries_of(plan) if entry.step_id in coats]
    done = {entry.step_id for entry in entries}
    return entries[-1] if coats and done == coats else None


def _use_of(plan: SurfacePlan, last: BenchEntry, gathered: Gathered) -> UseDates:
    known = last.temp_c is not None and last.rh_pct is not None
    temp_c = last.temp_c if last.temp_c is not None else REFERENCE_TEMP_C
    rh_pct = last.rh_pct if last.rh_pct is not None else REFERENCE_RH_PCT
    cure = cure_times(plan.finish_class, temp_c, rh_pct)
    coated = local_time(last.done_at, gathered.workshop)
    looked = "the air of the bench log" if known else "ordinary shop air, as none was noted"
    basis = (
        f"Reckoned for {_label(plan)}, {_span(cure.light_use_hours)} to light use and {_span(cure.full_use_hours)} to "
        f"full use in {looked} ({air(temp_c, rh_pct, measures_of(gathered.workshop))}). {cure.note}"
    )
    return UseDates(
        last_coat_on=coated.date(),
        light_use_on=_day_after(coated, cure.light_use_hours),
        full_use_on=_day_after(coated, cure.full_use_hours),
        basis=basis,
        source=source("FINISH-SHEETS").title,
    )


def _span(hours: float) -> str:
    return f"{hours:.0f} h" if hours < 72 else f"{hours / 24:.0f} days"


def _day_after(coated: datetime, hours: float) -> date:
    """The first whole day on which the time is over: a promise should not come out early."""
    over = coated + timedelta(hours=hours)
    return over.date() if over.time() == over.time().min else over.date() + timedelta(days=1)


# Seasons


def _built_moisture(gathered: Gathered, plans: list[SurfacePlan]) -> float:
    """Moisture of the wood when the piece was made [%]: measured, else that of the shop's air, else of the home's "
    "year."""
    readings = [reading.mc_pct for board in gathered.boards if (reading := latest_reading(board))]
    if readings:
        return fmean(readings)
    airs = [_equilibrium(entry) for plan in plans for entry in entries_of(plan)]
    known = [each for each in airs if each is not None]
    if known:
        gathered.warnings.append(
            "The boards' moisture was not measured; the shop's air in the bench log stands for it."
        )
        return fmean(known)
    gathered.warnings.append("The boards' moisture was not measured; the middle of the home's year stands for it.")
    return fmean(month.equilibrium_pct for month in _home(gathered.commission))


def _equilibrium(entry: BenchEntry) -> float | None:
    if entry.temp_c is None or entry.rh_pct is None:
        return None
    return float(equilibrium_moisture(entry.temp_c, entry.rh_pct))


def _home(commission: Commission) -> tuple[HomeMonth, ...]:
    return home_year(commission.home_rh_dry_pct, commission.home_rh_damp_pct, commission.home_temp_c)


def _movement(gathered: Gathered, built_mc_pct: float, plans: list[SurfacePlan]) -> MovementYear | None:
    commission, part = gathered.commission, widest_panel(gathered.commission)
    if part is None:
        gathered.warnings.append("No part is on the list, so the movement of the wood is not reckoned.")
        return None
    across_mm = part.length_mm if part.grain == Part.Grain.WIDTH else part.width_mm
    home = _home(commission)
    # What is not planned yet is reckoned bare, which moves a little more.
    finish, coats = (plans[-1].finish_class, min(plans[-1].coats, MOST_COATS)) if plans else (None, 0)
    try:
        season = seasonal_moisture(
            [month.equilibrium_pct for month in home],
            part.thickness_mm,
            part.species,
            finish,
            coats,
            temp_c=commission.home_temp_c,
        )
        return movement_year(
            part.name, part.species, across_mm, built_mc_pct, home, commission.home_place, season=season
        )
    except (OutOfRangeError, UnknownSpeciesError) as error:
        gathered.warnings.append(f"The movement of the {part.name} is not reckoned: {error}")
        return None


def warnings_of(data: PacketData) -> Iterable[str]:
    """Everything a packet warns of, for the one who prints it."""
    return (*data.warnings, *(data.movement.warnings if data.movement else ()))
