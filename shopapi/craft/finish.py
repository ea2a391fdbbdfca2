"""Generic classes of finish: coverage, when the next coat may go on, cure, rags, repair. The label always rules.

The drying model, one for each way a finish hardens, from the times at 20 °C and 50 % RH:
- reaction (drying oils, oil-and-urethane, hardwax oil): twice as fast for every 10 °C, slower in damp air above 50 % RH
  by 1 % a point;
- water: as fast as water leaves into the air, in proportion to saturation pressure times (1 - RH);
- solvent (shellac, lacquer): twice as fast for every 10 °C, humidity only brings its own dangers.
"""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Literal

from shopapi.craft.limits import Answer, OutOfRangeError, require, require_more_than_zero
from shopapi.craft.moisture import saturation_pressure_hpa

Drying = Literal["reaction", "water", "solvent"]
RagHazard = Literal["self-heating", "burns easily", "low"]

REFERENCE_TEMP_C, REFERENCE_RH_PCT = 20.0, 50.0
_COLDEST_C, _HOTTEST_C = 0.0, 45.0
# Above this no time is worth printing: the model would only run off to infinity.
_DAMPEST_COUNTED_PCT = 90.0

LABEL_RULES = "The label of the product in hand rules; times are for thin coats with the air moving."
_SELF_HEATING_RAGS = (
    "Rags wet with this finish can catch fire by themselves within hours: spread them flat or hang them singly "
    "outdoors until hard, or put them under water in a metal can with a lid. Follow the label and local rules."
)
_SOLVENT = "Flammable vapour: no flame, spark or heater, plenty of air, a fitting respirator; follow the label."


@dataclass(frozen=True)
class FinishClass:
    """One generic class of finish with its times at 20 °C and 50 % RH; `how` says what the numbers rest on.

    `recoat_h` is the earliest next coat, `latest_h` the latest without abrading first (None: no limit).
    """

    name: str
    label: str
    drying: Drying
    coats: int
    most_coats: int
    coverage_m2_per_l: tuple[float, float]
    recoat_h: float
    latest_h: float | None
    light_use_h: float
    full_use_h: float
    abrade_grit: int | None
    final_grit: int
    raise_grain: bool
    coldest_c: float
    warmest_c: float
    dampest_rh_pct: float
    rag_hazard: RagHazard
    repair: str
    care: tuple[str, ...]
    cautions: tuple[str, ...]
    how: str


@dataclass(frozen=True)
class Window:
    """When the next coat may go on, in hours after the last: earliest, and latest without abrading (None: no limit)."""

    earliest_hours: float
    latest_hours: float | None
    note: str


@dataclass(frozen=True)
class Cure:
    """Hours from the last coat to light use and to full use, with what must be said beside them."""

    light_use_hours: float
    full_use_hours: float
    note: str


_SPILLS = "Wipe up spills soon; use coasters and mats, also under anything damp or hot."
_DUSTING = "Dust with a soft dry cloth; now and then a damp one, dried at once."
_NO_SPRAYS = "No silicone sprays, scouring pads or ammonia."

_CLASSES = (
    FinishClass(
        name="oil_urethane", label="Wiping oil-and-urethane", drying="reaction", coats=3, most_coats=6,
        coverage_m2_per_l=(12.3, 14.7), recoat_h=12, latest_h=24, light_use_h=72, full_use_h=21 * 24, abrade_grit=400,
        final_grit=220, raise_grain=False, coldest_c=13, warmest_c=32, dampest_rh_pct=85, rag_hazard="self-heating",
        repair="Scuff the spot with 400 along the grain and wipe on a thin coat; blend out over the whole part.",
        care=(_SPILLS, _DUSTING, _NO_SPRAYS, "Wipe on a thin fresh coat when it looks dry, every few years."),
        cautions=(_SELF_HEATING_RAGS, _SOLVENT),
        how="times and coverage from memory; air limits of oil-modified polyurethane, read in a secondary copy",
    ),
    FinishClass(
        name="oil_polyurethane", label="Brushed oil-modified polyurethane", drying="reaction", coats=3, most_coats=5,
        coverage_m2_per_l=(8.6, 12.3), recoat_h=10, latest_h=24, light_use_h=72, full_use_h=30 * 24, abrade_grit=320,
        final_grit=220, raise_grain=False, coldest_c=13, warmest_c=32, dampest_rh_pct=85, rag_hazard="self-heating",
        repair="Scuff the whole part with 320 and coat it again; spots in the film show.",
        care=(_SPILLS, _DUSTING, _NO_SPRAYS),
        cautions=(_SELF_HEATING_RAGS, _SOLVENT),
        how="recoat, cure, coverage and air limits read in secondary copies; light use from memory",
    ),
    FinishClass(
        name="waterborne_polyurethane", label="Waterborne polyurethane", drying="water", coats=3, most_coats=6,
        coverage_m2_per_l=(11.0, 14.7), recoat_h=3, latest_h=24, light_use_h=24, full_use_h=7 * 24, abrade_grit=320,
        final_grit=220, raise_grain=True, coldest_c=13, warmest_c=30, dampest_rh_pct=70, rag_hazard="low",
        repair="Scuff the whole part with 320 and coat it again; spots in the film show.",
        care=(_SPILLS, _DUSTING, _NO_SPRAYS, "It can harden for up to 30 days: no rubber feet or cloths before."),
        cautions=("Good air while it dries; gloves; follow the label.",),
        how="recoat, light use, cure and coverage read in secondary copies; air limits are common practice",
    ),
    FinishClass(
        name="shellac", label="Shellac", drying="solvent", coats=4, most_coats=12, coverage_m2_per_l=(7.4, 12.3),
        recoat_h=1, latest_h=None, light_use_h=24, full_use_h=28 * 24, abrade_grit=None, final_grit=220,
        raise_grain=False, coldest_c=15, warmest_c=30, dampest_rh_pct=70, rag_hazard="burns easily",
        repair="A fresh coat melts into the old one: pad the spot with thin shellac.",
        care=(_DUSTING, _NO_SPRAYS, "Keep alcohol, heat and strong soap away: they cloud or dissolve shellac."),
        cautions=(_SOLVENT, "In damp air shellac turns milky: wait for drier air."),
        how="recoat, cure and air limits read in a secondary copy (thin cuts); coverage from memory",
    ),
    FinishClass(
        name="hardwax_oil", label="Hardwax oil", drying="reaction", coats=2, most_coats=3, coverage_m2_per_l=(24, 50),
        recoat_h=24, latest_h=None, light_use_h=72, full_use_h=10 * 24, abrade_grit=None, final_grit=180,
        raise_grain=False, coldest_c=16, warmest_c=30, dampest_rh_pct=75, rag_hazard="self-heating",
        repair="Clean the spot, scuff it lightly, rub in a little oil and buff off all that is not taken up.",
        care=(_SPILLS, _DUSTING, "Rub in a thin coat when it looks dry, about once a year on a table."),
        cautions=(_SELF_HEATING_RAGS, "Buff off every bit of surplus: what stays on top stays sticky."),
        how="times and lowest temperature read in a secondary copy (23 °C, 50 % RH); coverage from memory",
    ),
    FinishClass(
        name="lacquer", label="Nitrocellulose lacquer", drying="solvent", coats=4, most_coats=8,
        coverage_m2_per_l=(4.9, 9.8), recoat_h=1.5, latest_h=None, light_use_h=48, full_use_h=28 * 24, abrade_grit=400,
        final_grit=220, raise_grain=False, coldest_c=15, warmest_c=30, dampest_rh_pct=65, rag_hazard="burns easily",
        repair="A fresh coat melts into the old one: spray or pad the spot, then level it.",
        care=(_SPILLS, _DUSTING, _NO_SPRAYS, "Keep alcohol and hot dishes away."),
        cautions=(_SOLVENT, "Spraying needs a booth that local rules allow.", "In damp air lacquer turns milky."),
        how="from memory, not verified",
    ),
    FinishClass(
        name="drying_oil", label="Drying oil (linseed, tung)", drying="reaction", coats=4, most_coats=8,
        coverage_m2_per_l=(10, 20), recoat_h=24, latest_h=None, light_use_h=7 * 24, full_use_h=30 * 24,
        abrade_grit=None, final_grit=220, raise_grain=False, coldest_c=10, warmest_c=32, dampest_rh_pct=75,
        rag_hazard="self-heating",
        repair="Rub more oil into the spot and wipe it dry.",
        care=(_SPILLS, _DUSTING, "It stops no water: oil it again when it looks dry, at first every few months."),
        cautions=(_SELF_HEATING_RAGS, "Wipe off all surplus after 15 minutes: a thick coat stays sticky."),
        how="from memory, not verified; coverage is common practice",
    ),
)  # fmt: skip

FINISH_CLASSES: dict[str, FinishClass] = {one.name: one for one in _CLASSES}


def finish_class(name: str) -> FinishClass:
    """The class of finish of that name or label. Raises OutOfRangeError listing the names.

    Source: FINISH-SHEETS, by generic class; `how` says which numbers are from memory.

    >>> finish_class("shellac").recoat_h
    1
    """
    for one in _CLASSES:
        if name.casefold().strip() in (one.name, one.label.casefold()):
            return one
    raise OutOfRangeError(f'"{name}" is not a class of finish. Known: {", ".join(FINISH_CLASSES)}.')


def all_finish_classes() -> tuple[FinishClass, ...]:
    """Every class of finish. Source: FINISH-SHEETS, by generic class.

    >>> len(all_finish_classes())
    7
    """
    return _CLASSES


def drying_factor(drying: Drying, temp_c: float, rh_pct: float) -> Answer:
    """How many times longer drying takes in this air than at 20 °C and 50 % RH; below 1 it is quicker.

    drying: "reaction", "water" or "solvent". temp_c: shop air [°C], 0 to 45. rh_pct: [%], 0 to 100; above 90 it is
    counted as 90, with a caution. An estimate: a factor of 1.5 either way. Raises OutOfRangeError.
    Source: OWN, the model told at the head of this module; twice as fast for 10 °C is common practice, no source.

    >>> round(drying_factor("reaction", 10, 50), 2), round(drying_factor("water", 20, 75), 2)
    (2.0, 2.0)
    """
    require("Shop temperature", temp_c, _COLDEST_C, _HOTTEST_C, "°C")
    require("Shop humidity", rh_pct, 0, 100, "%")
    if drying not in _MODELS:
        raise OutOfRangeError(f'"{drying}" is no way of drying. Known: {", ".join(_MODELS)}.')
    cautions = ("Air this damp hardly dries anything: wait for drier air.",) if rh_pct > _DAMPEST_COUNTED_PCT else ()
    return Answer(_MODELS[drying](temp_c, min(rh_pct, _DAMPEST_COUNTED_PCT)), "", f"{drying} model", cautions)


def recoat_window(finish: FinishClass | str, temp_c: float, rh_pct: float) -> Window:
    """When the next coat may go on in this air, in hours after the last coat.

    finish: class or its name. temp_c: shop air [°C], 0 to 45. rh_pct: [%], 0 to 100. Outside the class's own air limits
    the note says so. Raises OutOfRangeError.
    Source: FINISH-SHEETS for the times at 20 °C and 50 % RH; scaled by drying_factor (OWN).

    >>> recoat_window("waterborne_polyurethane", 20, 50).earliest_hours
    3.0
    """
    one = _class_of(finish)
    factor = drying_factor(one.drying, temp_c, rh_pct)
    latest = None if one.latest_h is None else one.latest_h * max(factor, 1.0)
    later = "" if latest is None else f" After {latest:.0f} h abrade first."
    return Window(one.recoat_h * factor, latest, f"{LABEL_RULES}{later}{_air_note(one, temp_c, rh_pct)}")


def cure_times(finish: FinishClass | str, temp_c: float, rh_pct: float) -> Cure:
    """Hours after the last coat until the piece may be used lightly, and fully, in this air; never under the reference.

    finish: class or its name. temp_c: [°C], 0 to 45. rh_pct: [%], 0 to 100. Warm dry air shortens nothing here: a cure
    promised to a client should not come out early. Raises OutOfRangeError.
    Source: FINISH-SHEETS for the times at 20 °C and 50 % RH; lengthened by drying_factor (OWN).

    >>> cure_times("hardwax_oil", 25, 40).full_use_hours
    240.0
    """
    one = _class_of(finish)
    factor = max(1.0, drying_factor(one.drying, temp_c, rh_pct))
    note = f"{LABEL_RULES}{_air_note(one, temp_c, rh_pct)}"
    return Cure(one.light_use_h * factor, one.full_use_h * factor, note)


def quantity_litres(finish: FinishClass | str, area_m2: float, coats: int, waste_pct: float = 15.0) -> Answer:
    """Finish to buy [litres] for a surface: coats x area / coverage at its low end, plus waste.

    finish: class or its name. area_m2: all faces to be coated [m2], more than 0. coats: 1 to 20. waste_pct: left in
    can, rag and brush [%], 0 to 100 (15 is common practice). Raises OutOfRangeError.
    Source: FINISH-SHEETS, coverage by class; the waste is common practice, no source.

    >>> round(quantity_litres("oil_urethane", 4.0, 3), 2)
    1.12
    """
    one = _class_of(finish)
    require_more_than_zero("Area", area_m2, unit="m2")
    require("Coats", coats, 1, 20)
    require("Waste", waste_pct, 0, 100, "%")
    litres = coats * area_m2 / one.coverage_m2_per_l[0] * (1 + waste_pct / 100)
    return Answer(litres, "litres", "coats x area / coverage + waste", (f"Coverage: {one.how}.", LABEL_RULES))


def _class_of(finish: FinishClass | str) -> FinishClass:
    return finish_class(finish) if isinstance(finish, str) else finish


def _by_ten_degrees(temp_c: float) -> float:
    return float(2.0 ** ((REFERENCE_TEMP_C - temp_c) / 10))


def _reaction(temp_c: float, rh_pct: float) -> float:
    return _by_ten_degrees(temp_c) * (1 + max(0.0, rh_pct - REFERENCE_RH_PCT) / 100)


def _water(temp_c: float, rh_pct: float) -> float:
    reference = saturation_pressure_hpa(REFERENCE_TEMP_C) * (100 - REFERENCE_RH_PCT)
    return reference / (saturation_pressure_hpa(temp_c) * (100 - rh_pct))


def _solvent(temp_c: float, rh_pct: float) -> float:
    return _by_ten_degrees(temp_c)


_MODELS: dict[Drying, Callable[[float, float], float]] = {"reaction": _reaction, "water": _water, "solvent": _solvent}


def _air_note(one: FinishClass, temp_c: float, rh_pct: float) -> str:
    notes = []
    if temp_c < one.coldest_c:
        notes.append(f" {temp_c:g} °C is colder than {one.coldest_c:g} °C, where it may not harden: warm the shop.")
    if temp_c > one.warmest_c:
        notes.append(f" {temp_c:g} °C is warmer than {one.warmest_c:g} °C: it dries before it levels.")
    if rh_pct > one.dampest_rh_pct:
        notes.append(f" {rh_pct:g} % RH is damper than {one.dampest_rh_pct:g} %: wait for drier air.")
    return "".join(notes)
