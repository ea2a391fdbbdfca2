"""How far wood moves: between two moistures, through a home's year, out of flat."""

from calendar import month_name

from shopapi.craft.moisture import Season, seasonal_moisture
from shopapi.craft.movement import HomeMonth, cup_depth, home_year, width_change, width_through_year
from shopapi.craft.species import specific_gravity_at
from shopapi.workings import fields
from shopapi.workings.declare import Cited, Column, Found, Line, Table, WorkingKind, all_of, words
from shopapi.workings.given import Given

FAMILY = "Movement"
MOVES = Cited("WOOD-HANDBOOK", "chapter 13, Eq. 13-2 (table 13-5) and Eq. 13-3")
TURNED = Cited("GEOMETRY", "ring angles between flatsawn and quartersawn")
RANGE = (
    "From 0 % to fibre saturation (30 %; 22 % for a few woods), above which wood no longer moves. Coefficients hold "
    "from 6 to 14 %; outside, shrinkage is taken as a straight line, which is coarser."
)
_BARE = ("none", "No finish")


def _width_change(given: Given) -> Found:
    start, end = given.moisture("mc_from_pct"), given.moisture("mc_to_pct")
    width = given.number("width_mm")
    with given.about("species"):
        change = width_change(width, given.wood(), start, end, given.number("ring_angle_deg"))
    return Found(
        (
            Line("Grows by" if change >= 0 else "Shrinks by", "length", abs(change), fine=True, main=True),
            Line("Width then", "length", width + change, fine=True),
        ),
        change.cautions,
        change.method,
    )


def _width_year(given: Given) -> Found:
    built = given.moisture("mc_built_pct")
    if given.number("rh_dry_pct") > given.number("rh_damp_pct"):
        given.refuse(
            "rh_dry_pct",
            f"The driest ({given.number('rh_dry_pct'):g} %) is above the dampest "
            f"({given.number('rh_damp_pct'):g} %). Swap them.",
        )
    year = home_year(
        given.number("rh_dry_pct"),
        given.number("rh_damp_pct"),
        given.number("temp_c"),
        int(given.word("dampest_month")),
    )
    with given.about("species"):  # what is not published for a wood is no fault of the air
        width_change(given.number("width_mm"), given.wood(), built, built, given.number("ring_angle_deg"))
    season = _behind_the_air(given, year)
    with given.about("rh_damp_pct"):
        course = width_through_year(
            given.number("width_mm"),
            given.wood(),
            built,
            year,
            given.number("ring_angle_deg"),
            None if season is None else season.monthly_pct,
        )
    lines = [
        Line("Moves over the year by", "length", course.swing_mm, fine=True, main=True),
        Line(f"Widest, {month_name[course.widest.month]}", "length", course.widest.width_mm, fine=True),
        Line(f"Narrowest, {month_name[course.narrowest.month]}", "length", course.narrowest.width_mm, fine=True),
    ]
    if season is not None:
        lines += [
            Line("Runs behind the air by", "hours", season.lag_days * 24),
            Line("Share of the air's swing it keeps", "percent", season.swing_share * 100),
        ]
    columns = (
        Column("Month"), Column("Air", "percent"), Column("Wood", "percent", 1), Column("Width", "length", fine=True),
        Column("Change", "length", fine=True),
    )  # fmt: skip
    rows = tuple(
        (month_name[one.month][:3], one.rh_pct, one.mc_pct, one.width_mm, one.change_mm) for one in course.months
    )
    cautions = all_of(course.cautions, () if season is None else season.cautions)
    return Found(tuple(lines), cautions, course.method, Table(columns, rows))


def _behind_the_air(given: Given, year: tuple[HomeMonth, ...]) -> Season | None:
    """The wood's own moisture by month, where its thickness says how slowly it follows."""
    thickness = given.maybe("thickness_mm")
    if thickness is None:
        return None
    finish = given.word("finish")
    coats = 0 if finish == "none" else given.count("coats")
    with given.about("species"):
        specific_gravity_at(given.wood(), 12)
    with given.about("rh_damp_pct"):
        return seasonal_moisture(
            [month.equilibrium_pct for month in year],
            thickness,
            given.wood(),
            None if coats == 0 else finish,
            coats,
            temp_c=given.number("temp_c"),
        )


def _cup(given: Given) -> Found:
    start, end = given.moisture("mc_from_pct"), given.moisture("mc_to_pct")
    with given.about("species"):
        depth = cup_depth(given.number("width_mm"), given.wood(), start, end, given.number("pith_mm"))
    side = "on the bark side" if depth > 0 else "on the heart side"
    return Found(
        (
            Line("Hollow by", "length", abs(depth), fine=True, main=True),
            words("Hollow", side if abs(depth) > 1e-9 else "nowhere: it stays flat"),
        ),
        depth.cautions,
        depth.method,
    )


_FROM_TO = (fields.moisture("mc_from_pct", "Moisture now"), fields.moisture("mc_to_pct", "Moisture later"))

KINDS = (
    WorkingKind(
        key="width_change",
        family=FAMILY,
        title="How far a width moves",
        purpose="Between two moistures, for one board or a panel of like boards",
        formula="Width × the wood's coefficient × points of moisture.",
        cited=(MOVES, TURNED),
        limits=RANGE,
        fields=(fields.wood(), fields.length("width_mm", "Width across the grain"), *_FROM_TO, fields.ring_angle()),
        run=_width_change,
    ),
    WorkingKind(
        key="width_year",
        family=FAMILY,
        title="A width through a home's year",
        purpose="Month by month, from the home's driest and dampest air",
        formula="The air swings once a year between driest and dampest; wood follows it, later and less when thick and "
        "finished; width × coefficient × points of moisture.",
        cited=(MOVES, Cited("WOOD-HANDBOOK", "chapter 4, Eq. 4-5; chapter 16, table 16-3"), Cited("CRANK-1975"),
               Cited("SIAU-1984"), Cited("OWN", "a cosine between driest and dampest")),
        limits=f"An outline of a year, not a forecast. {RANGE}",
        fields=(
            fields.wood(),
            fields.length("width_mm", "Width across the grain"),
            fields.moisture("mc_built_pct", "Moisture on the day of building", 8),
            fields.humidity("rh_dry_pct", "Driest air", 25, "Humidity of the home in the driest month"),
            fields.humidity("rh_damp_pct", "Dampest air", 55, "Humidity of the home in the dampest month"),
            fields.temperature("temp_c", "Room", 0, 40, 21, 70),
            fields.choice("dampest_month", "Dampest month",
                          [(str(number), month_name[number]) for number in range(1, 13)], "8"),
            fields.ring_angle(),
            fields.length("thickness_mm", "Thickness", least=1, most=200, need=False,
                          hint="Left empty, the wood follows the air at once: the most it can move"),
            fields.choice("finish", "Finish", (_BARE, *((one.value, one.word) for one in fields.finish().choices)),
                          "none", "Slows the wood where the thickness is given"),
            fields.count("coats", "Coats", 12, 3, least=0),
        ),
        run=_width_year,
    ),
    WorkingKind(
        key="cup",
        family=FAMILY,
        title="How far a flatsawn board cups",
        purpose="The most a free board goes hollow when it dries",
        formula="Rings shrink more along themselves than across, so they straighten as the board dries.",
        cited=(Cited("OWN", "stress-free shrinkage of rings round the pith"), MOVES),
        limits=f"A free board with even moisture: the upper limit. {RANGE}",
        fields=(
            fields.wood(),
            fields.length("width_mm", "Width"),
            fields.length("pith_mm", "From the pith to its middle", default=100, inch=4, hint="Judge it by the rings"),
            *_FROM_TO,
        ),
        run=_cup,
    ),
)  # fmt: skip
