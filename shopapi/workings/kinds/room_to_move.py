"""The room moving wood needs: slots, gaps, breadboard ends."""

from shopapi.craft.movement import breadboard_room, panel_room, slot_for
from shopapi.workings import fields
from shopapi.workings.declare import Cited, Found, Line, WorkingKind
from shopapi.workings.given import Given
from shopapi.workings.kinds.movement import FAMILY, MOVES, RANGE, TURNED

_PRACTICE = Cited("COMMON-PRACTICE", "play, least gap, hold and fixing at the middle")
_CITED = (MOVES, TURNED, _PRACTICE)
_ODDLY_BUILT = "Built outside of what it will see: that day counts as one of its seasons."


def _seasons(given: Given) -> tuple[float, float, float]:
    return given.moisture("mc_built_pct"), given.moisture("mc_dry_pct"), given.moisture("mc_damp_pct")


def _said(given: Given, cautions: tuple[str, ...]) -> tuple[str, ...]:
    built, dry, damp = _seasons(given)
    return cautions if min(dry, damp) <= built <= max(dry, damp) else (*cautions, _ODDLY_BUILT)


def _slot(given: Given) -> Found:
    seasons = _seasons(given)
    with given.about("species"):
        slot = slot_for(
            given.number("distance_mm"),
            given.wood(),
            *seasons,
            given.number("shank_mm"),
            given.number("play_mm"),
            given.number("ring_angle_deg"),
        )
    return Found(
        (
            Line("Slot, across the grain", "length", slot.length_mm, fine=True, main=True),
            Line("Shank's middle may go inward by", "length", slot.inward_mm, fine=True),
            Line("and outward by", "length", slot.outward_mm, fine=True),
        ),
        _said(given, slot.cautions),
    )


def _gap(given: Given) -> Found:
    seasons = _seasons(given)
    with given.about("species"):
        room = panel_room(
            given.number("width_mm"),
            given.wood(),
            *seasons,
            int(given.word("sides")),
            given.number("least_gap_mm"),
            given.number("hold_mm"),
            given.number("ring_angle_deg"),
        )
    return Found(
        (
            Line("Gap to leave on each moving side", "length", room.gap_mm, fine=True, main=True),
            Line("Gap in the damp season", "length", room.least_mm, fine=True),
            Line("Gap in the dry season", "length", room.greatest_mm, fine=True),
            Line("Tongue that still holds when dry", "length", room.tongue_mm, fine=True),
        ),
        _said(given, room.cautions),
    )


def _breadboard(given: Given) -> Found:
    seasons = _seasons(given)
    width, pin = given.number("width_mm"), given.number("outer_pin_mm")
    if pin > width / 2:
        given.refuse(
            "outer_pin_mm",
            f"Outermost pin {given.tape.says(pin)} is out of range: from the middle it is at most half the width, "
            f"{given.tape.says(width / 2)}.",
        )
    with given.about("species"):
        room = breadboard_room(
            width, given.wood(), *seasons, pin, given.number("pin_mm"), given.number("ring_angle_deg")
        )
    return Found(
        (
            Line("Outermost slot", "length", room.slot.length_mm, fine=True, main=True),
            Line("Panel stands proud when damp, each edge", "length", room.proud_when_damp_mm, fine=True),
            Line("Panel falls short when dry, each edge", "length", room.short_when_dry_mm, fine=True),
            Line("Pin may go inward by", "length", room.slot.inward_mm, fine=True),
            Line("and outward by", "length", room.slot.outward_mm, fine=True),
        ),
        (*_said(given, room.slot.cautions), "Glue the middle only; pins further out need less than the outermost."),
    )


KINDS = (
    WorkingKind(
        key="screw_slot",
        family=FAMILY,
        title="Slot for a screw or bolt",
        purpose="How long a slot under a top must be, at a distance from where the top is fixed",
        formula="What the distance shrinks, plus what it grows, plus the shank, plus play.",
        cited=_CITED,
        limits=RANGE,
        fields=(
            fields.wood(),
            fields.length("distance_mm", "From where it is fixed", zero_ok=True, hint="Across the grain"),
            *fields.moisture_of_seasons(),
            fields.length("shank_mm", "Shank", default=5, inch=3 / 16, most=100, zero_ok=True),
            fields.length("play_mm", "Play", default=1, inch=1 / 16, most=100, zero_ok=True),
            fields.ring_angle(),
        ),
        run=_slot,
    ),
    WorkingKind(
        key="inset_gap",
        family=FAMILY,
        title="Gap round a panel, door or drawer front",
        purpose="What to leave on the day of building so that it neither binds nor drops out",
        formula="What it will grow, shared by the sides it moves to, plus the least gap. Tongue: what it will shrink, "
        "plus the hold.",
        cited=_CITED,
        limits=RANGE,
        fields=(
            fields.wood(),
            fields.length("width_mm", "Width across the grain"),
            fields.choice("sides", "It moves to", (("2", "both sides, held at the middle"), ("1", "one side")), "2"),
            *fields.moisture_of_seasons(),
            fields.length("least_gap_mm", "Least gap when damp", default=1, inch=1 / 16, most=1000, zero_ok=True),
            fields.length("hold_mm", "Tongue left in the groove when dry", default=5, inch=3 / 16, most=1000,
                          zero_ok=True),
            fields.ring_angle(),
        ),
        run=_gap,
    ),
    WorkingKind(
        key="breadboard_end",
        family=FAMILY,
        title="Breadboard end",
        purpose="How far the panel passes its ends, and how long the outer slots are",
        formula="Half the width moves away from the glued middle; the outer slot takes that at its own distance, plus "
        "pin and 1 mm (3/64 in) of play.",
        cited=_CITED,
        limits=RANGE,
        fields=(
            fields.wood(),
            fields.length("width_mm", "Width of the panel"),
            fields.length("outer_pin_mm", "Outermost pin, from the middle", zero_ok=True),
            fields.length("pin_mm", "Pin", default=8, inch=5 / 16, most=100, zero_ok=True),
            *fields.moisture_of_seasons(),
            fields.ring_angle(),
        ),
        run=_breadboard,
    ),
)  # fmt: skip
