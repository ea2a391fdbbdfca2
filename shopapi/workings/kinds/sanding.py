"""Grits: sequences without too large a jump, what a number means, and how much paper it takes."""

from typing import cast

from shopapi.craft.abrasives import (
    Scale,
    converted_grit,
    discs_needed,
    grain_size_um,
    grit_sequence,
    judge_sequence,
    raise_grain_after,
)
from shopapi.workings import fields
from shopapi.workings.declare import Cited, Column, Found, Line, Table, WorkingKind, words
from shopapi.workings.given import Given

FAMILY = "Sanding"
_DUST = (
    "Wood dust harms lungs: draw it off at the tool, wear a fitting mask, and do not sand what you would not breathe."
)
_GRADES = (40, 60, 80, 100, 120, 150, 180, 220, 240, 320, 400, 600, 800, 1000, 1200)


def _sequence(given: Given) -> Found:
    start, final = int(given.word("start_grit")), int(given.word("final_grit"))
    with given.about("final_grit"):
        grits = grit_sequence(start, final)
    area, waterborne = given.maybe("area_m2"), given.word("waterborne") == "yes"
    lines = [words("Sand with", ", ".join(f"P{grit}" for grit in grits), main=True)]
    if area is not None:
        discs = discs_needed(area, grits, given.number("disc_mm"))
        lines.append(Line("Discs, all grits together", "number", float(discs)))
    wet = raise_grain_after(grits, waterborne=waterborne)
    lines.append(words("Raise the grain with water", f"after P{wet}" if wet else "not needed"))
    steps = judge_sequence(grits)
    table = Table(
        (Column("Step"), Column("Times finer", "number", 2), Column("It is")),
        tuple((f"P{step.from_grit} to P{step.to_grit}", step.ratio, step.verdict) for step in steps),
    )
    warned = tuple(step.advice for step in steps if step.verdict != "good")
    return Found(tuple(lines), (*warned, _DUST), table=table if steps else None)


def _grit(given: Given) -> Found:
    scale = cast(Scale, given.word("scale"))
    other: Scale = "CAMI" if scale == "P" else "P"
    with given.about("grit"):
        size = grain_size_um(given.count("grit"), scale)
        near = converted_grit(given.count("grit"), scale, other)
    return Found(
        (
            words(f"Nearest {other} grade", str(near), main=True),
            Line("Grain is about", "number", float(size), own_unit="micrometres", digits=0),
        ),
        (*size.cautions, "P and CAMI numbers part above about 220."),
        size.method,
    )


KINDS = (
    WorkingKind(
        key="grits",
        family=FAMILY,
        title="Which grits to sand with",
        purpose="From the first to the last, with no jump too large",
        formula="Each grain 1.15 to 1.65 times finer than the one before; the fewest steps, as even as can be.",
        cited=(
            Cited("GRIT-STANDARDS", "grain sizes"),
            Cited("COMMON-PRACTICE", "size of a step; a 150 mm disc lasts 0.8 m²"),
        ),
        limits="P grades. Discs are a guess that oily or resinous wood breaks.",
        fields=(
            fields.choice("start_grit", "First grit", [(str(grit), f"P{grit}") for grit in _GRADES], "100"),
            fields.choice("final_grit", "Last grit", [(str(grit), f"P{grit}") for grit in _GRADES], "220"),
            fields.yes_no("waterborne", "A waterborne finish follows"),
            fields.area("area_m2", "Surface to sand", 1000, need=False, hint="For the number of discs"),
            fields.length("disc_mm", "Disc", default=150, inch=6, least=50, most=300),
        ),
        run=_sequence,
    ),
    WorkingKind(
        key="grit_scales",
        family=FAMILY,
        title="P and CAMI grits",
        purpose="What a grit number is in the other scale",
        formula="Grain size looked up, then the nearest grade of the other scale.",
        cited=(Cited("GRIT-STANDARDS"),),
        limits="P is certain to 1 %, CAMI to 8 %.",
        fields=(
            fields.choice("scale", "Scale", (("P", "P (ISO 6344)"), ("CAMI", "CAMI (plain numbers)")), "P"),
            fields.count("grit", "Grit", 10_000, 400),
        ),
        run=_grit,
    ),
)
