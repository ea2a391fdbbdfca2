"""Lumber as it is tallied and sold."""

from shopapi.craft.measures import (
    board_feet,
    parse_quarters,
    rough_thickness_mm,
    surface_measure,
    surfaced_thickness_mm,
    volume_board_feet,
)
from shopapi.workings import fields
from shopapi.workings.declare import Cited, Field, Found, Line, WorkingKind
from shopapi.workings.given import Given

FAMILY = "Lumber"
_RULES = Cited("LUMBER-RULES", "rules of measurement")


def _quarters() -> Field:
    known = ("2/4", "3/4", "4/4", "5/4", "6/4", "7/4", "8/4", "10/4", "12/4", "14/4", "16/4")
    return fields.choice("thickness", "Thickness as sold", [(one, one) for one in known], "4/4")


def _board_feet(given: Given) -> Found:
    length, width, count = given.number("length_mm"), given.number("width_mm"), given.count("count")
    quarters = parse_quarters(given.word("thickness"))
    measure = surface_measure(length, width)
    one = board_feet(measure, quarters)
    exact = volume_board_feet(length, width, rough_thickness_mm(quarters))
    return Found(
        (
            Line("Tallied as", "number", one * count, own_unit="board feet", digits=2, main=True),
            Line("Each board", "number", one, own_unit="board feet", digits=2),
            Line("Surface measure of each", "number", float(measure), own_unit="sq ft"),
            Line("Exact volume of all, nothing rounded", "number", exact * count, own_unit="board feet", digits=2),
        ),
        ("A yard may tally in its own way: ask, and measure what you pay for.",),
    )


def _thickness(given: Given) -> Found:
    quarters, sides = parse_quarters(given.word("thickness")), int(given.word("sides"))
    with given.about("thickness"):
        surfaced = surfaced_thickness_mm(quarters, sides)
    return Found(
        (
            Line("Surfaced", "length", surfaced, fine=True, main=True),
            Line("Rough", "length", rough_thickness_mm(quarters), fine=True),
        ),
        ("What the rules set, no promise: many yards surface 4/4 to 15/16 or 3/4 in.",),
    )


KINDS = (
    WorkingKind(
        key="board_feet",
        family=FAMILY,
        title="Board feet and surface measure",
        purpose="What a board is tallied and paid as",
        formula="Width in inches × whole feet of length / 12, rounded; × quarters / 4, thin stock as 4/4.",
        cited=(_RULES,),
        limits="Length drops to whole feet first. Stock under 4/4 counts as 4/4.",
        fields=(
            fields.length("length_mm", "Length"),
            fields.length("width_mm", "Width"),
            _quarters(),
            fields.count("count", "How many boards", 10_000, 1),
        ),
        run=_board_feet,
    ),
    WorkingKind(
        key="quarters",
        family=FAMILY,
        title="Thickness in quarters",
        purpose="How thick 4/4, 5/4 or 8/4 is, rough and surfaced",
        formula="Rough: a quarter of an inch each. Surfaced: looked up.",
        cited=(Cited("LUMBER-RULES", "surfaced thickness table; 10/4 from memory"),),
        limits="Thicknesses the standard lists.",
        fields=(
            _quarters(),
            fields.choice("sides", "Surfaced on", (("2", "two sides"), ("1", "one side")), "2"),
        ),
        run=_thickness,
    ),
)
