"""Angles and lengths of leaning legs, sloping boxes, laps, tapers and bevels."""

from typing import Literal, cast

from shopapi.craft.splay import (
    angle_between_legs,
    crossing_in_frame,
    edge_bevel,
    half_lap,
    hopper,
    leans_from_resultant,
    splayed_leg,
    taper,
)
from shopapi.workings import fields
from shopapi.workings.declare import Cited, Field, Found, Line, WorkingKind
from shopapi.workings.given import Given

FAMILY = "Angles and joints"
_SAW = "Prove the setting on scrap; guards on, blade stopped before hands come near."
_LEG = "Rake is the lean seen from the side, splay the lean seen from the front."


def _lean(name: str, label: str, default: float | None = None) -> Field:
    return fields.angle(name, label, 0, 75, default, "From upright, as drawn in that view")


def _degrees(label: str, value: float, *, main: bool = False) -> Line:
    return Line(label, "angle", value, digits=2, main=main)


def _mm(label: str, value: float, *, main: bool = False) -> Line:
    return Line(label, "length", value, fine=True, main=main)


def _leg(given: Given) -> Found:
    leg = splayed_leg(
        given.number("height_mm"),
        given.number("rake_deg"),
        given.number("splay_deg"),
        given.number("width_mm"),
        given.number("thickness_mm"),
    )
    return Found(
        (
            _mm("True length", leg.true_length_mm, main=True),
            _degrees("Leans in all (resultant)", leg.resultant_deg, main=True),
            _degrees("In the direction (sightline), from front-to-back", leg.sightline_deg),
            _degrees("End cut, miter gauge", leg.end_miter_deg),
            _degrees("End cut, blade tilt", leg.end_bevel_deg),
            _degrees("Line on the faces between", leg.neighbour_mark_deg),
            _mm("Foot stands out to the side by", leg.foot_offset_side_mm),
            _mm("Foot stands out to the front by", leg.foot_offset_front_mm),
            _mm("Cut the blank to", leg.blank_length_mm),
        ),
        (_SAW,),
    )


def _drilled(given: Given) -> Found:
    rake, splay = leans_from_resultant(given.number("resultant_deg"), given.number("sightline_deg"))
    return Found((_degrees("Rake", rake, main=True), _degrees("Splay", splay, main=True)))


def _between(given: Given) -> Found:
    which = cast(Literal["left and right", "front and back", "diagonal"], given.word("which"))
    angle = angle_between_legs(given.number("rake_deg"), given.number("splay_deg"), which)
    return Found((_degrees("Between the two legs", angle, main=True), _degrees("Half of it", angle / 2)))


def _box(given: Given) -> Found:
    saw = hopper(given.count("sides"), given.number("slope_deg"))
    return Found(
        (_degrees("Miter gauge", saw.miter_deg, main=True), _degrees("Blade tilt", saw.bevel_deg, main=True)), (_SAW,)
    )


def _half_lap(given: Given) -> Found:
    lap = half_lap(
        given.number("width_mm"),
        given.number("other_width_mm"),
        given.number("thickness_mm"),
        given.number("crossing_deg"),
        given.number("middle_mm"),
        given.number("depth_pct") / 100,
    )
    (low_from, low_to), (high_from, high_to) = lap.lower_edge_mm, lap.upper_edge_mm
    return Found(
        (
            _mm("Notch along the part", lap.notch_length_mm, main=True),
            _mm("Notch depth", lap.notch_depth_mm, main=True),
            _mm("Shoulders shift from edge to edge by", lap.shoulder_offset_mm),
            _mm("Lower edge, near shoulder at", low_from),
            _mm("Lower edge, far shoulder at", low_to),
            _mm("Upper edge, near shoulder at", high_from),
            _mm("Upper edge, far shoulder at", high_to),
        ),
        ("Cut slightly full and pare to fit.", _SAW),
    )


def _in_frame(given: Given) -> Found:
    cross = crossing_in_frame(given.number("length_mm"), given.number("height_mm"))
    return Found(
        (
            _degrees("They cross at", cross.crossing_angle_deg, main=True),
            _degrees("Each lies at", cross.member_angle_deg),
            _mm("Corner to corner", cross.diagonal_mm),
        ),
        ("Between centre lines: a part of real width fitted inside a frame lies at a slightly other angle.",),
    )


def _taper(given: Given) -> Found:
    start, end = given.number("from_mm"), given.number("to_mm")
    if end > start:
        says = given.tape.says
        given.refuse("to_mm", f"A taper gets thinner: it cannot go from {says(start)} to {says(end)}. Swap them.")
    found = taper(given.number("length_mm"), start, end, given.maybe("jig_mm"))
    return Found(
        (
            _degrees("Angle", found.angle_deg, main=True),
            _mm("Jig offset", found.jig_offset_mm, main=True),
            _mm("Comes off at the thin end", found.taken_mm),
        ),
        ("One face. For two opposite faces use half of what comes off, twice.", _SAW),
    )


def _bevel(given: Given) -> Found:
    found = edge_bevel(given.number("run_mm"), given.number("rise_mm"))
    return Found(
        (
            _degrees("Angle from the face", found.angle_deg, main=True),
            _degrees("Blade tilt, part lying flat", found.blade_tilt_deg, main=True),
            _mm("Bevelled face is", found.face_mm),
        ),
        ("Wide bevels take several passes, the last one light.", _SAW),
    )


def _cited(place: str) -> tuple[Cited, ...]:
    return (Cited("GEOMETRY", place),)


KINDS = (
    WorkingKind(
        key="leg_splay", family=FAMILY, title="Leg that leans one or two ways",
        purpose="True length, end cuts and drilling angle from height, rake and splay",
        formula=f"{_LEG} The two combine through their tangents: tan² of the whole is tan² rake + tan² splay.",
        cited=_cited("tan² resultant = tan² rake + tan² splay"), limits="Exact, up to 75°. Square legs.",
        fields=(
            fields.length("height_mm", "Height, floor to top", most=10_000),
            _lean("rake_deg", "Rake, seen from the side"),
            _lean("splay_deg", "Splay, seen from the front", 0),
            fields.length("width_mm", "Leg width", default=0, inch=0, most=1000, zero_ok=True,
                          hint="Width and thickness only lengthen the blank"),
            fields.length("thickness_mm", "Leg thickness", default=0, inch=0, most=1000, zero_ok=True),
        ),
        run=_leg,
    ),
    WorkingKind(
        key="leg_drilled", family=FAMILY, title="Rake and splay of a drilled leg",
        purpose="From a drilling angle and its sightline back to the two views",
        formula="The whole lean's tangent, taken apart along the two axes.",
        cited=_cited("tangents along the axes"), limits="Exact, up to 75°.",
        fields=(
            _lean("resultant_deg", "Leans in all (resultant)"),
            fields.angle("sightline_deg", "Sightline", 0, 90, None, "From front-to-back towards the side"),
        ),
        run=_drilled,
    ),
    WorkingKind(
        key="between_legs", family=FAMILY, title="Angle between two leaning legs",
        purpose="For a stretcher or jig between them",
        formula=f"{_LEG} The angle between the two legs' directions.",
        cited=_cited("angle between directions"), limits="Exact, up to 75°. Four like legs.",
        fields=(
            _lean("rake_deg", "Rake, seen from the side"),
            _lean("splay_deg", "Splay, seen from the front"),
            fields.choice(
                "which", "Legs",
                ((one, one) for one in ("left and right", "front and back", "diagonal")), "left and right",
            ),
        ),
        run=_between,
    ),
    WorkingKind(
        key="sloping_box", family=FAMILY, title="Box with sloping sides",
        purpose="Saw settings for its mitred corners",
        formula="Miter: cosine of slope × tangent of half a corner. Blade: sine of slope × sine of half a corner.",
        cited=_cited("miter = atan(cos slope tan(180/N)), bevel = asin(sin slope sin(180/N))"),
        limits="Exact. Equal sides, 3 to 24 of them.",
        fields=(
            fields.count("sides", "Sides", 24, 4, least=3),
            fields.angle("slope_deg", "Slope of the sides", 0, 90, None, "90 is upright, 0 a flat frame"),
        ),
        run=_box,
    ),
    WorkingKind(
        key="half_lap", family=FAMILY, title="Half lap at any angle",
        purpose="Where to mark the shoulders and how deep to cut",
        formula="Notch: the other part's width / sine of the angle. Shoulders shift by this part's width / tangent.",
        cited=_cited("notch = other width / sin, shift = width / tan"), limits="Exact, crossings from 10 to 170°.",
        fields=(
            fields.length("width_mm", "Width of this part"),
            fields.length("other_width_mm", "Width of the other part"),
            fields.length("thickness_mm", "Thickness of this part"),
            fields.angle("crossing_deg", "They cross at", 10, 170, 90),
            fields.length("middle_mm", "Middle of the crossing, from the end", default=0, inch=0, zero_ok=True),
            fields.percent("depth_pct", "Share of the thickness cut away", 1, 99, 50),
        ),
        run=_half_lap,
    ),
    WorkingKind(
        key="cross_in_frame", family=FAMILY, title="Cross in a frame",
        purpose="How two diagonals lie and cross",
        formula="Tangent of each one's angle: height / length.",
        cited=_cited("diagonals of a rectangle"), limits="Exact, between centre lines.",
        fields=(fields.length("length_mm", "Length of the frame"), fields.length("height_mm", "Height of the frame")),
        run=_in_frame,
    ),
    WorkingKind(
        key="taper", family=FAMILY, title="Taper of a leg",
        purpose="Its angle and the offset of the jig",
        formula="Tangent of the angle: what comes off / length of the taper.",
        cited=_cited("right triangle"), limits="Exact, for one straight face.",
        fields=(
            fields.length("length_mm", "Length of the taper", least=1.0),
            fields.length("from_mm", "Thick where it starts"),
            fields.length("to_mm", "Thick at the end"),
            fields.length("jig_mm", "Between the jig's stops", need=False, hint="Left empty: the length of the taper"),
        ),
        run=_taper,
    ),
    WorkingKind(
        key="edge_bevel", family=FAMILY, title="Bevel along an edge",
        purpose="Blade tilt for a bevel under a top",
        formula="Tangent of the angle: rise / run.",
        cited=_cited("right triangle"), limits="Exact.",
        fields=(
            fields.length("run_mm", "Across the face (run)"),
            fields.length("rise_mm", "Up the edge (rise)"),
        ),
        run=_bevel,
    ),
)  # fmt: skip
