"""Glue: how much, how many clamps, and whether there is time."""

from shopapi.craft.adhesive import (
    assembly_time,
    clamp_plan,
    clamp_pressure,
    clamp_time,
    glue_class,
    glue_needed_g,
)
from shopapi.craft.adhesive.clamping import CLAMP_FORCE_LBF
from shopapi.craft.limits import OutOfRangeError
from shopapi.workings import fields
from shopapi.workings.declare import Cited, Column, Found, Line, Table, WorkingKind, all_of, words
from shopapi.workings.given import Given
from shopapi.workings.spoken import spoken

FAMILY = "Glue"
_N_PER_LBF = 4.4482216152605
_CLAMPS = {"parallel-jaw": "Parallel-jaw clamp", "pipe": "Pipe clamp", "bar": "I-beam bar clamp"}


def _quantity(given: Given) -> Found:
    answer = glue_needed_g(
        given.word("glue"),
        given.number("joint_length_mm"),
        given.number("joint_width_mm"),
        given.count("joints"),
        given.number("waste_pct"),
    )
    return Found(
        (Line("Glue", "grams", float(answer), digits=0, main=True),),
        (*answer.cautions, *glue_class(given.word("glue")).cautions),
        answer.method,
    )


def _clamps(given: Given) -> Found:
    force = CLAMP_FORCE_LBF[given.word("clamp")] * _N_PER_LBF
    length, thickness = given.number("joint_length_mm"), given.number("thickness_mm")
    with given.about("species"):
        plan = clamp_plan(
            length, thickness, given.number("outer_strip_mm"), given.wood(), given.number("caul_mm"), force
        )
        pressure = clamp_pressure(given.wood())
    return Found(
        (
            Line("Clamps", "number", float(plan.clamps), main=True),
            Line("To press hard enough", "number", float(plan.by_force), own_unit="clamps"),
            Line("To press everywhere (45° rule)", "number", float(plan.by_spread), own_unit="clamps"),
            Line("Force on the joint, at least", "force", plan.force_n),
            Line("Pressure from", "pressure", pressure.low_mpa, digits=2),
            Line("to", "pressure", pressure.high_mpa, digits=2),
        ),
        all_of(plan.cautions, pressure.cautions),
        table=Table(
            (Column("Clamp"), Column("From one end", "length")),
            tuple((str(number), place) for number, place in enumerate(plan.positions_mm, 1)),
        ),
    )


def _time(given: Given) -> Found:
    glue = glue_class(given.word("glue"))
    if given.number("temp_c") < glue.coldest_c:
        cold, least = (spoken(value, "temperature", given.tape) for value in (given.number("temp_c"), glue.coldest_c))
        given.refuse(
            "temp_c",
            f"{cold} is too cold for {glue.label}: wood, glue and air need {least} or more, or the joint fails later. "
            "Warm all three.",
        )
    clamped = clamp_time(glue, given.number("temp_c"))
    try:
        time = assembly_time(
            glue,
            given.count("edges"),
            given.number("edge_length_mm"),
            given.count("clamps"),
            given.number("temp_c"),
            given.number("rh_pct"),
        )
    except OutOfRangeError:
        given.refuse(
            "edge_length_mm",
            f"One edge of {given.tape.says(given.number('edge_length_mm'))} with {given.count('clamps')} clamps takes "
            f"longer than {glue.label} stays open. Take a slower glue, fewer clamps or a second pair of hands.",
        )
    parts = "in one go" if time.sub_panels == 1 else f"as {time.sub_panels} sub-panels first"
    return Found(
        (
            words("It fits" if time.fits else "It does not fit", f"glue it up {parts}", main=True),
            Line("In clamps", "hours", clamped.clamp_min / 60, main=True),
            Line("Spreading takes", "hours", time.spreading_min / 60),
            Line("and the glue stays open", "hours", time.open_min / 60),
            Line("All clamps set after", "hours", time.until_clamped_min / 60),
            Line("and the glue allows", "hours", time.total_min / 60),
            Line("Rest before planing or loading", "hours", clamped.rest_h),
        ),
        all_of(time.cautions, clamped.cautions, ("Rehearse dry, with every clamp set.",)),
    )


KINDS = (
    WorkingKind(
        key="glue_quantity",
        family=FAMILY,
        title="How much glue",
        purpose="For so many like joints",
        formula="Length × width × joints × spread on one face, plus waste.",
        cited=(Cited("GLUE-GUIDES", "spread rates, from memory"), Cited("COMMON-PRACTICE", "waste")),
        limits="One face of each joint spread, at the fuller rate.",
        fields=(
            fields.glue(),
            fields.length("joint_length_mm", "Length of a joint"),
            fields.length("joint_width_mm", "Width of a joint", hint="The boards' thickness, in an edge joint"),
            fields.count("joints", "Joints", 1000, 1),
            fields.percent("waste_pct", "Waste", 0, 200, 20, "Squeeze-out, bottle and roller"),
        ),
        run=_quantity,
    ),
    WorkingKind(
        key="clamps",
        family=FAMILY,
        title="How many clamps",
        purpose="For a panel, and where they go",
        formula="The larger of two: pressure × glue line / force of a clamp; length / (2 × way from clamp to joint).",
        cited=(Cited("GLUE-GUIDES", "pressure by wood, force by clamp, 45-degree rule"), Cited("MECHANICS")),
        limits="Water-based glue, edge joints. Epoxy wants no pressure beyond closing.",
        fields=(
            fields.wood(),
            fields.length("joint_length_mm", "Length of the joints"),
            fields.length("thickness_mm", "Thickness of the panel"),
            fields.length("outer_strip_mm", "Width of the narrower outer strip", least=5, most=2000),
            fields.length("caul_mm", "Caul between clamp and strip", default=0, inch=0, most=1000, zero_ok=True),
            fields.choice("clamp", "Clamp", _CLAMPS.items(), "pipe"),
        ),
        run=_clamps,
    ),
    WorkingKind(
        key="glue_time",
        family=FAMILY,
        title="Time for a glue-up",
        purpose="Whether all is closed before the glue skins, and how long it stays in clamps",
        formula="Edges × length at 50 mm (2 in) a second, and 20 s a clamp, against the short end of the glue's times.",
        cited=(
            Cited("GLUE-GUIDES", "open, total and clamp times, lowest temperature"),
            Cited("COMMON-PRACTICE", "pace of spreading and clamping; twice as long for 10 °C colder"),
        ),
        limits="Warm dry air shortens the glue's times; below its coldest temperature no time is given.",
        fields=(
            fields.glue(),
            fields.count("edges", "Edges to coat", 60),
            fields.length("edge_length_mm", "Length of each"),
            fields.count("clamps", "Clamps to set", 100),
            fields.temperature("temp_c", "Wood, glue and air", 0, 45, 20, 68),
            fields.humidity("rh_pct", "Humidity of the shop", 50),
        ),
        run=_time,
    ),
)
