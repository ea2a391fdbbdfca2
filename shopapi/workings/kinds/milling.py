"""Bringing rough boards to thickness over several sessions."""

from shopapi.craft.planing import after_rest, milling_plan
from shopapi.workings import fields
from shopapi.workings.declare import Cited, Column, Found, Line, Table, WorkingKind, words
from shopapi.workings.given import Given

FAMILY = "Milling"
_PRACTICE = (Cited("COMMON-PRACTICE", "three sessions, a day's rest, both faces alike"),)
# What craft asks for at least, to clean both faces [mm].
_LEAST_SPARE_MM = 0.5


def _plan(given: Given) -> Found:
    rough, finished = given.number("rough_mm"), given.number("finished_mm")
    if rough - finished < _LEAST_SPARE_MM:
        says = given.tape.says
        given.refuse("rough_mm", f"Rough {says(rough)} leaves too little over {says(finished)} to clean both faces.")
    plan = milling_plan(rough, finished, given.count("sessions"), given.number("rest_h"))
    first = plan.sessions[0]
    return Found(
        (
            Line("First session, down to", "length", first.to_mm, fine=True, main=True),
            Line("Sessions", "number", float(len(plan.sessions))),
            Line("Rests, together", "hours", sum(one.rest_before_h for one in plan.sessions)),
        ),
        plan.cautions,
        table=Table(
            (
                Column("Session"),
                Column("Rest before", "hours"),
                Column("Down to", "length", fine=True),
                Column("Off each face", "length", fine=True),
            ),
            tuple((str(one.number), one.rest_before_h, one.to_mm, one.each_face_mm) for one in plan.sessions),
        ),
    )


def _after_rest(given: Given) -> Found:
    found = after_rest(
        given.number("thickness_mm"),
        given.number("finished_mm"),
        given.number("moved_mm"),
        given.number("length_mm"),
        given.maybe("mc_pct"),
        given.maybe("shop_mc_pct"),
    )
    return Found(
        (
            words("Do this", found.advice, main=True),
            words("In short", found.verdict),
            Line("Wood to spare after flattening", "length", found.spare_mm, fine=True),
        )
    )


KINDS = (
    WorkingKind(
        key="milling_plan",
        family=FAMILY,
        title="Milling in several sessions",
        purpose="From rough to finished thickness, with rests, so that it stays flat",
        formula="Each session takes about half of what is left, evenly from both faces; the last one is light.",
        cited=_PRACTICE,
        limits="The trade's own figures, all of them for the maker to change.",
        fields=(
            fields.length("rough_mm", "Rough thickness", most=500),
            fields.length("finished_mm", "Finished thickness", most=500),
            fields.count("sessions", "Sessions", 6, 3),
            fields.number("rest_h", "Rest between", "h", 0, 1000, 24),
        ),
        run=_plan,
    ),
    WorkingKind(
        key="after_rest",
        family=FAMILY,
        title="After a rest: one more session?",
        purpose="From how far a board moved while it rested",
        formula="A gap over 0.5 mm a metre (1/64 in. on 30 in.) is planed out and rested again; more than a point of "
        "moisture from the shop waits.",
        cited=(Cited("COMMON-PRACTICE", "thresholds are this project's reading of careful practice"),),
        limits="The eye and a straightedge outrank it.",
        fields=(
            fields.length("thickness_mm", "Thickness now", most=500),
            fields.length("finished_mm", "Finished thickness", most=500),
            fields.length("moved_mm", "Greatest gap under a straightedge", most=500, zero_ok=True),
            fields.length("length_mm", "Measured over"),
            fields.percent("mc_pct", "Moisture reading", 0, 100, None, need=False),
            fields.percent("shop_mc_pct", "Moisture the shop holds", 0, 30, None, need=False),
        ),
        run=_after_rest,
    ),
)
