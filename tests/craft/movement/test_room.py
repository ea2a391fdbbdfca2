"""Slots, gaps and breadboard ends."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shopapi.craft.limits import OutOfRangeError
from shopapi.craft.movement import breadboard_room, panel_room, slot_for, width_change

mc = st.floats(2, 20)


@given(distance=st.floats(0, 1500), built=mc, dry=mc, damp=mc, angle=st.floats(0, 90))
def test_the_shank_stays_inside_its_slot_all_year(distance, built, dry, damp, angle):
    slot = slot_for(distance, "white oak", built, dry, damp, shank_mm=5, play_mm=1, ring_angle_deg=angle)
    for season in (dry, damp, built):
        moved = width_change(distance, "white oak", built, season, angle)
        assert -slot.inward_mm - 1e-9 <= moved <= slot.outward_mm + 1e-9
    assert slot.length_mm == pytest.approx(slot.inward_mm + slot.outward_mm + 6)


@given(distance=st.floats(0, 1500), built=mc, swing=st.floats(0, 4))
def test_which_season_is_named_dry_makes_no_difference(distance, built, swing):
    there = slot_for(distance, "white oak", built, built - swing / 2, built + swing)
    back = slot_for(distance, "white oak", built, built + swing, built - swing / 2)
    assert (there.inward_mm, there.outward_mm) == (back.inward_mm, back.outward_mm)


def test_a_fastener_at_the_fixed_point_needs_no_slot():
    slot = slot_for(0, "white oak", 8, 5, 12, shank_mm=4.5, play_mm=0)
    assert (slot.inward_mm, slot.outward_mm, slot.length_mm) == (0, 0, 4.5)


@given(width=st.floats(50, 1000), built=st.floats(6, 12), dry=mc, damp=mc, sides=st.sampled_from((1, 2)))
def test_an_inset_panel_never_binds_nor_drops_out(width, built, dry, damp, sides):
    room = panel_room(width, "sugar maple", built, dry, damp, sides, least_gap_mm=1, hold_mm=5)
    for season in (built, dry, damp):
        moved = width_change(width, "sugar maple", built, season) / sides
        assert room.gap_mm - moved >= 1 - 1e-9, "binds"
        assert room.gap_mm - moved <= room.greatest_mm + 1e-9
        assert room.tongue_mm + moved >= 5 - 1e-9, "drops out"


def test_breadboard_end_is_flush_only_at_the_moisture_it_was_built_at():
    still = breadboard_room(800, "white oak", 8, 8, 8, outer_pin_mm=300)
    assert (still.proud_when_damp_mm, still.short_when_dry_mm) == (0, 0)
    room = breadboard_room(800, "white oak", 8, 6, 11, outer_pin_mm=300)
    assert room.proud_when_damp_mm == pytest.approx(width_change(800, "white oak", 8, 11) / 2)
    assert room.slot.outward_mm == pytest.approx(room.proud_when_damp_mm * 300 / 400)


@pytest.mark.parametrize(
    ("call", "says"),
    [
        (lambda: slot_for(-1, "white oak", 8, 6, 11), "Distance -1"),
        (lambda: slot_for(100, "white oak", 8, 6, 11, shank_mm=-1), "Shank"),
        (lambda: panel_room(300, "white oak", 8, 6, 11, sides=3), "Sides 3"),
        (lambda: panel_room(300, "white oak", 8, 6, 11, least_gap_mm=-1), "Least gap"),
        (lambda: breadboard_room(300, "white oak", 8, 6, 11, outer_pin_mm=200), "Outermost pin 200"),
    ],
)
def test_bad_values_are_named(call, says):
    with pytest.raises(OutOfRangeError, match=says):
        call()
