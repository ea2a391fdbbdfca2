"""Whether it holds: sag, screws, tipping."""

import math
from typing import cast

from shopapi.craft.stiffness import Drawer, lead_hole_mm, sag, screw_withdrawal, storage_balance, table_tip_force
from shopapi.craft.stiffness.beams import Ends
from shopapi.workings import fields
from shopapi.workings.declare import Cited, Field, Found, Line, WorkingKind, words
from shopapi.workings.given import Given

FAMILY = "Strength"


def _sag(given: Given) -> Found:
    span, at = given.number("span_mm"), given.maybe("point_at_mm")
    if at is not None and at > span:
        says = given.tape.says
        given.refuse("point_at_mm", f"Place of the load {says(at)} is out of range: from 0 to the span, {says(span)}.")
    with given.about("species"):
        found = sag(
            span,
            given.number("width_mm"),
            given.number("thickness_mm"),
            given.wood(),
            given.number("spread_kg"),
            given.number("point_kg"),
            at,
            given.number("mc_pct"),
            cast(Ends, given.word("ends")),
        )
    return Found(
        (
            Line("Sags in the end by", "length", found.lasting_mm, fine=True, main=True),
            words("That is", found.verdict, main=True),
            Line("Sags at once by", "length", found.at_once_mm, fine=True),
            Line("Span over sag in the end", "number", found.span_to_sag),
        ),
        found.cautions,
    )


def _screw(given: Given) -> Found:
    diameter, root = given.number("diameter_mm"), given.maybe("root_mm")
    with given.about("species"):
        holds = screw_withdrawal(given.wood(), diameter, given.number("thread_mm"))
        lead = None if root is None else lead_hole_mm(root, given.wood())
    lines = [
        Line("Build for, each screw", "force", holds.design_n, main=True),
        Line("Gives way at", "force", holds.ultimate_n),
    ]
    if lead is not None:
        lines.append(Line("Lead hole for the thread", "length", lead, fine=True))
    return Found(tuple(lines), holds.cautions)


def _table(given: Given) -> Found:
    top, inset = given.number("top_mm"), given.number("inset_mm")
    if inset > top / 2:
        says = given.tape.says
        given.refuse("inset_mm", f"{says(inset)} in from the edge is past the middle of a top {says(top)} wide.")
    force = table_tip_force(given.number("mass_kg"), top, given.number("feet_mm"), inset)
    line = (
        words("Pressed there it", "cannot tip: the feet reach as far as the force", main=True)
        if math.isinf(force)
        else Line("Tips when pressed with", "force", float(force), main=True)
    )
    return Found((line,), force.cautions, force.method)


def _chest(given: Given) -> Found:
    drawer = Drawer(given.number("drawer_kg"), given.number("drawer_before_mm"))
    out = given.count("drawers")
    found = storage_balance(
        given.number("mass_kg"),
        given.number("behind_mm"),
        [drawer] * out,
        given.number("pull_n"),
        given.number("pull_height_mm"),
    )
    lines = [
        words("With these drawers out and this pull", "it stands" if found.stands else "it tips over", main=True),
        Line("Moment that holds it", "number", found.holding_nm, own_unit="N m", digits=1),
        Line("Moment that tips it", "number", found.tipping_nm, own_unit="N m", digits=1),
    ]
    if math.isfinite(found.pull_to_tip_n):
        lines.insert(1, Line("Pull that tips it, at that height", "force", found.pull_to_tip_n, main=True))
    return Found(tuple(lines), found.cautions)


def _height(name: str, label: str, hint: str = "") -> Field:
    return fields.length(name, label, default=0, inch=0, most=5000, zero_ok=True, hint=hint)


KINDS = (
    WorkingKind(
        key="shelf_sag", family=FAMILY, title="Sag of a shelf, rail or top",
        purpose="How far it bends under its load, at once and after years",
        formula="Load × span³ / (stiffness × width × thickness³); twice as thick bends an eighth. In the end about "
        "twice the first sag.",
        cited=(
            Cited("MECHANICS", "5wL⁴/384EI and PL³/48EI, or a fifth and a quarter of them where the ends are held"),
            Cited("WOOD-HANDBOOK", "stiffness, tables 5-3 and 5-5; creep, chapter 5, from memory"),
            Cited("COMMON-PRACTICE", "what the eye makes of span / sag"),
        ),
        limits="Solid wood, 4 to 20 % moisture, at least 10 times as long as thick.",
        fields=(
            fields.wood(),
            fields.length("span_mm", "Span between supports"),
            fields.length("width_mm", "Width (depth of a shelf)"),
            fields.length("thickness_mm", "Thickness, up and down"),
            fields.mass("spread_kg", "Load spread evenly", 10_000, 25, 50,
                        "Books: about 35 kg a metre, 25 lb a foot; common practice"),
            fields.mass("point_kg", "Load in one place", 10_000, 0),
            fields.length("point_at_mm", "That place, from one support", need=False, zero_ok=True,
                          hint="Left empty: the middle"),
            fields.percent("mc_pct", "Moisture in use", 4, 20, 8),
            fields.choice("ends", "Ends", (("resting", "on supports"), ("fixed", "housed and glued")), "resting"),
        ),
        run=_sag,
    ),
    WorkingKind(
        key="screw_hold", family=FAMILY, title="How hard a screw holds",
        purpose="Pulled straight out of side grain",
        formula="Specific gravity² × diameter × thread in the wood, by one number for breaking and a safer one.",
        cited=(Cited("SCREW-RULES", "withdrawal; lead holes"), Cited("WOOD-HANDBOOK", "Eq. 8-10, from memory")),
        limits="Side grain of dry wood; not end grain, inserts, or wood that was damp when screwed.",
        fields=(
            fields.wood(),
            fields.length("diameter_mm", "Screw diameter (shank)", default=5, inch=3 / 16, least=2, most=10),
            fields.length("thread_mm", "Thread in the wood", most=150),
            fields.length("root_mm", "Root of the thread", least=1, most=10, need=False, hint="For its lead hole"),
        ),
        run=_screw,
    ),
    WorkingKind(
        key="table_tip", family=FAMILY, title="Table that tips when leaned on",
        purpose="Force near the edge that lifts the legs across from it",
        formula="Weight × half the feet's width / how far the force acts outside the feet.",
        cited=(Cited("ISO-7172", "place of the force"), Cited("MECHANICS", "moments about the feet")),
        limits="Even floor, stiff table. No standard's required force is given here.",
        fields=(
            fields.mass("mass_kg", "Weight of the table", 2000, least=0.1),
            fields.length("top_mm", "Top, across the edge pressed"),
            fields.length("feet_mm", "Feet, outside to outside, same way"),
            fields.length("inset_mm", "In from the edge", default=50, inch=2, zero_ok=True),
        ),
        run=_table,
    ),
    WorkingKind(
        key="chest_tip", family=FAMILY, title="Chest or cabinet with drawers out",
        purpose="Whether it stands, and what pull tips it",
        formula="Weight × distance behind the front feet holds; drawers before the feet and the pull tip.",
        cited=(Cited("MECHANICS", "moments about the front feet"),),
        limits="Nobody climbing is counted: give a child as a drawer of its weight. No standard's test is reproduced.",
        fields=(
            fields.mass("mass_kg", "Weight without the drawers that are out", 2000, least=0.1),
            fields.length("behind_mm", "Its centre, behind the front feet", most=5000, zero_ok=True),
            fields.count("drawers", "Drawers out", 40, 1, least=0),
            fields.mass("drawer_kg", "Each with contents", 500, 8, 18),
            _height("drawer_before_mm", "Its centre, in front of the feet"),
            Field("pull_n", "Pull to the front", "force", default=0, least=0, most=10_000),
            _height("pull_height_mm", "Height of the pull"),
        ),
        run=_chest,
    ),
)  # fmt: skip
