"""Finish: how much to buy, when the next coat may go on, when the piece may be used."""

from shopapi.craft.finish import cure_times, drying_factor, finish_class, quantity_litres, recoat_window
from shopapi.workings import fields
from shopapi.workings.declare import Cited, Found, Line, WorkingKind, all_of, words
from shopapi.workings.given import Given

FAMILY = "Finish"


def _quantity(given: Given) -> Found:
    finish = finish_class(given.word("finish"))
    litres = quantity_litres(finish, given.number("area_m2"), given.count("coats"), given.number("waste_pct"))
    return Found(
        (Line("Finish to buy", "volume", float(litres), digits=2, main=True),),
        (*litres.cautions, *finish.cautions),
        litres.method,
    )


def _coats(given: Given) -> Found:
    finish = finish_class(given.word("finish"))
    temp, rh = given.number("temp_c"), given.number("rh_pct")
    window, cure = recoat_window(finish, temp, rh), cure_times(finish, temp, rh)
    factor = drying_factor(finish.drying, temp, rh)
    latest = (
        words("Latest without abrading first", "no limit")
        if window.latest_hours is None
        else Line("Latest without abrading first", "hours", window.latest_hours)
    )
    return Found(
        (
            Line("Next coat after", "hours", window.earliest_hours, main=True),
            latest,
            Line("Light use after", "hours", cure.light_use_hours),
            Line("Full use after", "hours", cure.full_use_hours),
            Line("Drying takes, against 20 °C (68 °F) and 50 %", "number", float(factor), own_unit="times", digits=1),
            words("To repair it", finish.repair),
        ),
        all_of((window.note,), finish.cautions, factor.cautions, (f"Times: {finish.how}.",)),
    )


KINDS = (
    WorkingKind(
        key="finish_quantity",
        family=FAMILY,
        title="How much finish",
        purpose="To buy, for a surface and so many coats",
        formula="Coats × surface / coverage at its low end, plus waste.",
        cited=(Cited("FINISH-SHEETS", "coverage by class"), Cited("COMMON-PRACTICE", "waste")),
        limits="Generic classes: the can in hand says its own coverage.",
        fields=(
            fields.finish(),
            fields.area("area_m2", "Surface, all faces coated", 1000),
            fields.count("coats", "Coats", 20, 3),
            fields.percent("waste_pct", "Waste", 0, 100, 15, "Left in can, rag and brush"),
        ),
        run=_quantity,
    ),
    WorkingKind(
        key="coat_times",
        family=FAMILY,
        title="When the next coat may go on",
        purpose="And when the piece may be used, in this air",
        formula="Times at 20 °C (68 °F) and 50 % humidity, lengthened in cold or damp air as the finish hardens.",
        cited=(
            Cited("FINISH-SHEETS", "times by class"),
            Cited("OWN", "what air does to drying; a factor of 1.5 either way"),
        ),
        limits="Thin coats, moving air, 0 to 45 °C (32 to 113 °F). A cure is never told shorter than at 20 °C.",
        fields=(
            fields.finish(),
            fields.temperature("temp_c", "Shop air", 0, 45, 20, 68),
            fields.humidity("rh_pct", "Humidity of the shop", 50),
        ),
        run=_coats,
    ),
)  # fmt: skip
