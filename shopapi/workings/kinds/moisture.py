"""Wood and air: what each does to the other's moisture, and how long it takes."""

from calendar import month_name

from shopapi.craft.moisture import (
    acclimation,
    dew_point_c,
    equilibrium_moisture,
    humidity_for,
    indoor_humidity,
    interior_moisture,
    meter_reading_corrected,
    outdoor_moisture,
    places,
)
from shopapi.craft.moisture.places import Region
from shopapi.workings import fields
from shopapi.workings.declare import Cited, Column, Found, Line, Table, WorkingKind, all_of
from shopapi.workings.given import Given

FAMILY = "Moisture"
_EMC = Cited("WOOD-HANDBOOK", "chapter 4, Eq. 4-5")
_REGIONS: dict[Region, str] = {
    "most": "Most of the United States",
    "dry southwest": "Dry southwest",
    "damp coast": "Damp southern coast",
}
_CITIES = tuple(f"{one.city}, {one.state}" for one in places())
_DAYS = (3.0, 7.0, 14.0, 21.0, 30.0, 45.0, 60.0, 90.0, 120.0)


def _wood_in_air(given: Given) -> Found:
    answer = equilibrium_moisture(given.number("temp_c"), given.number("rh_pct"))
    return Found((Line("Wood settles at", "percent", float(answer), digits=1, main=True),), answer.cautions)


def _air_for_wood(given: Given) -> Found:
    with given.about("mc_pct"):
        answer = humidity_for(given.number("mc_pct"), given.number("temp_c"))
    return Found((Line("Humidity to keep", "percent", float(answer), digits=0, main=True),), answer.cautions)


def _warmed_air(given: Given) -> Found:
    outdoor_c, outdoor_rh, indoor_c = (given.number(name) for name in ("outdoor_c", "outdoor_rh_pct", "indoor_c"))
    indoor = indoor_humidity(outdoor_c, outdoor_rh, indoor_c)
    wood = equilibrium_moisture(indoor_c, float(indoor))
    lines = [
        Line("Humidity indoors", "percent", float(indoor), digits=0, main=True),
        Line("Wood would settle at", "percent", float(wood), digits=1, main=True),
    ]
    if outdoor_rh >= 1:  # air without water has no dew
        dew = dew_point_c(outdoor_c, outdoor_rh)
        lines.append(Line("Dew on anything colder than", "temperature", float(dew), digits=0))
    return Found(tuple(lines), all_of(indoor.cautions, wood.cautions), indoor.method)


def _outdoor_year(given: Given) -> Found:
    place = outdoor_moisture(given.word("city"))
    driest, dampest = min(place.monthly_pct), max(place.monthly_pct)
    named = [month_name[number] for number in range(1, 13)]
    return Found(
        (
            Line(f"Driest, {named[place.monthly_pct.index(driest)]}", "percent", driest, digits=1, main=True),
            Line(f"Dampest, {named[place.monthly_pct.index(dampest)]}", "percent", dampest, digits=1, main=True),
        ),
        (
            f"How these months were got: {place.how}.",
            "Outdoors, under a roof. Heated rooms are driest when it is dampest outside.",
        ),
        table=Table((Column("Month"), Column("Wood", "percent", 1)), tuple(zip(named, place.monthly_pct, strict=True))),
    )


def _build_at(given: Given) -> Found:
    advice = interior_moisture(next(region for region in _REGIONS if region == given.word("region")))
    return Found(
        (
            Line("Build at", "percent", advice.average_pct, main=True),
            Line("Single pieces from", "percent", advice.low_pct),
            Line("to", "percent", advice.high_pct),
        ),
        (f"How it was got: {advice.how}.", "What counts is the home: measure its air, or ask for winter and summer."),
    )


def _pin_meter(given: Given) -> Found:
    answer = meter_reading_corrected(given.number("reading_pct"), given.number("wood_c"))
    return Found(
        (
            Line("The wood holds", "percent", float(answer), digits=1, main=True),
            Line("Changed by", "percent", float(answer) - given.number("reading_pct"), digits=1),
        ),
        (*answer.cautions, "Not for a meter that corrects temperature itself."),
        answer.method,
    )


def _acclimation(given: Given) -> Found:
    air = equilibrium_moisture(given.number("temp_c"), given.number("rh_pct"))
    if not 2 <= air <= 28:
        given.refuse("rh_pct", f"Wood would settle at {air:.1f} % in this air; days are reckoned from 2 to 28 % only.")
    with given.about("species"):
        board = acclimation(
            given.number("thickness_mm"),
            given.wood(),
            given.number("mc_start_pct"),
            float(air),
            _DAYS,
            faces=int(given.word("faces")),
            temp_c=given.number("temp_c"),
        )
    return Found(
        (
            Line("Within a point of the air after", "hours", board.settled_days * 24, main=True),
            Line("It settles at", "percent", float(air), digits=1),
            Line("Two thirds of the way takes", "hours", board.time_constant_days * 24),
        ),
        all_of(board.cautions, air.cautions, ("Stack it on stickers with air all round, or it takes far longer.",)),
        table=Table(
            (Column("After", "hours"), Column("Mean moisture", "percent", 1)),
            tuple((day * 24, mc) for day, mc in zip(board.days, board.mean_mc_pct, strict=True)),
        ),
    )


KINDS = (
    WorkingKind(
        key="wood_in_air",
        family=FAMILY,
        title="Moisture of wood in this air",
        purpose="What wood settles at in steady air",
        formula="The handbook's equation of the air's humidity and temperature (equilibrium moisture).",
        cited=(_EMC,),
        limits="Checked from -1 to 132 °C (30 to 270 °F) and up to 95 % humidity. Real boards sit 1 to 2 points off.",
        fields=(fields.temperature("temp_c", "Air", -40, 140, 20, 70), fields.humidity("rh_pct", "Humidity")),
        run=_wood_in_air,
    ),
    WorkingKind(
        key="air_for_wood",
        family=FAMILY,
        title="Air that keeps wood at a moisture",
        purpose="Humidity to hold in the shop or the home",
        formula="The handbook's equation, turned round: the humidity at which wood settles at this moisture.",
        cited=(_EMC,),
        limits="Up to what saturated air gives, about 28 % in a room.",
        fields=(
            fields.moisture("mc_pct", "Moisture to keep", 8),
            fields.temperature("temp_c", "Air", -40, 140, 20, 70),
        ),
        run=_air_for_wood,
    ),
    WorkingKind(
        key="warmed_air",
        family=FAMILY,
        title="Outdoor air, warmed indoors",
        purpose="How dry a heated room gets when it is cold outside",
        formula="The water in the air stays the same; warm air could hold more, so its humidity falls.",
        cited=(Cited("WMO-MAGNUS", "water form"), Cited("SERVICE-CLIMATE", "examples"), _EMC),
        limits="From -40 to 50 °C (-40 to 122 °F), with no water added indoors: the driest it can be, no forecast.",
        fields=(
            fields.temperature("outdoor_c", "Outdoors", -40, 50, None),
            fields.humidity("outdoor_rh_pct", "Humidity outdoors", 80),
            fields.temperature("indoor_c", "Indoors", -40, 50, 21, 70),
        ),
        run=_warmed_air,
    ),
    WorkingKind(
        key="outdoor_year",
        family=FAMILY,
        title="Wood kept outdoors, month by month",
        purpose="What lumber under a roof settles at, by city",
        formula="Looked up by city and month.",
        cited=(Cited("WOOD-HANDBOOK", "chapter 13, table 13-1"), Cited("SIMPSON-1998")),
        limits="Cities of the United States; outdoors under a roof, not in a home.",
        fields=(fields.choice("city", "City", [(name, name) for name in _CITIES], "Denver, CO"),),
        run=_outdoor_year,
    ),
    WorkingKind(
        key="build_at",
        family=FAMILY,
        title="Moisture to build at",
        purpose="What wood should hold when furniture is made for a region",
        formula="Looked up by region.",
        cited=(Cited("WOOD-HANDBOOK", "chapter 13, table 13-2"),),
        limits="Interiors in the United States.",
        fields=(fields.choice("region", "Region", _REGIONS.items(), "most"),),
        run=_build_at,
    ),
    WorkingKind(
        key="pin_meter",
        family=FAMILY,
        title="Pin meter in cold or warm wood",
        purpose="Corrects a reading for the wood's temperature",
        formula="The published temperature correction, referred to 21 °C (70 °F), where nothing changes.",
        cited=(Cited("METER-CORRECTION"),),
        limits="Readings from 6 to 25 %, wood from -10 to 60 °C (14 to 140 °F); about a point either way.",
        fields=(
            fields.percent("reading_pct", "The meter shows", 6, 25, 12, "Already set to the species"),
            fields.temperature("wood_c", "Wood", -10, 60, None),
        ),
        run=_pin_meter,
    ),
    WorkingKind(
        key="acclimation",
        family=FAMILY,
        title="Days until a board has settled",
        purpose="How long boards lie in the shop before they are worked",
        formula="Moisture moves through half the thickness: twice as thick takes nearly four times as long.",
        cited=(
            Cited("CRANK-1975", "plane sheet with surface resistance"),
            Cited("SIAU-1984", "speed of moisture across the grain"),
            _EMC,
        ),
        limits="Bare boards up to 200 mm (8 in) thick, 2 to 28 % moisture, 0 to 50 °C (32 to 122 °F). Right within a "
        "factor of 2.",
        fields=(
            fields.wood(),
            fields.length("thickness_mm", "Thickness", least=1, most=200),
            fields.percent("mc_start_pct", "Moisture now", 2, 28, 12),
            fields.temperature("temp_c", "Shop air", 0, 50, 20, 68),
            fields.humidity("rh_pct", "Humidity of the shop", 45),
            fields.choice("faces", "Air reaches", (("2", "both faces"), ("1", "one face")), "2"),
        ),
        run=_acclimation,
    ),
)  # fmt: skip
