"""Half laps, tapers and bevels against the worked values and against shapes built here on their own."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import Polygon, affinity, box

from shopapi.craft.limits import OutOfRangeError
from shopapi.craft.splay import crossing_in_frame, edge_bevel, half_lap, taper
from tests.craft.published import published

TABLE = published("geometry")


@pytest.mark.parametrize("row", TABLE["half_laps"], ids=lambda r: r["id"])
def test_worked_half_laps(row):
    crossing = crossing_in_frame(*row["rect_mm"])
    assert crossing.member_angle_deg == pytest.approx(row["member_angle_deg"], abs=1e-4)
    assert crossing.crossing_angle_deg == pytest.approx(row["crossing_angle_deg"], abs=1e-3)
    lap = half_lap(row["part_width_mm"], row["part_width_mm"], row["thickness_mm"], crossing.crossing_angle_deg)
    assert lap.notch_length_mm == pytest.approx(row["notch_length_along_part_mm"], abs=1e-3)
    assert lap.notch_depth_mm == row["notch_depth_mm"]
    assert lap.shoulder_offset_mm == pytest.approx(row["shoulder_offset_mm"], abs=1e-3)


@given(
    width=st.floats(20, 120), other=st.floats(20, 120), angle=st.floats(15, 165), middle=st.floats(500, 1500)
)  # fmt: skip
def test_the_notch_is_where_the_other_part_lies(width, other, angle, middle):
    """The other part as a long rectangle turned about the crossing, cut by this part's edges."""
    lap = half_lap(width, other, 24, angle, middle)
    this = box(0, -width / 2, 3000, width / 2)
    crossing = affinity.rotate(box(middle - 5000, -other / 2, middle + 5000, other / 2), angle, origin=(middle, 0))
    notch = Polygon([
        (lap.lower_edge_mm[0], -width / 2), (lap.lower_edge_mm[1], -width / 2),
        (lap.upper_edge_mm[1], width / 2), (lap.upper_edge_mm[0], width / 2),
    ])  # fmt: skip
    assert notch.symmetric_difference(this.intersection(crossing)).area == pytest.approx(0, abs=1e-5 * notch.area)


def test_square_crossing_is_as_long_as_the_other_part_is_wide():
    lap = half_lap(40, 30, 20, 90, 100)
    assert lap.notch_length_mm == pytest.approx(30)
    assert lap.lower_edge_mm == pytest.approx((85, 115))
    assert lap.upper_edge_mm == pytest.approx((85, 115))


@given(share=st.floats(0.05, 0.95))
def test_both_halves_fill_the_thickness(share):
    ours, theirs = (half_lap(40, 40, 20, 60, depth_share=part).notch_depth_mm for part in (share, 1 - share))
    assert ours + theirs == pytest.approx(20)


@given(length=st.floats(100, 3000), height=st.floats(100, 3000))
def test_a_crossing_is_the_same_from_either_side(length, height):
    one, other = crossing_in_frame(length, height), crossing_in_frame(height, length)
    assert one.crossing_angle_deg == pytest.approx(other.crossing_angle_deg)
    assert one.member_angle_deg + other.member_angle_deg == pytest.approx(90)


@given(length=st.floats(50, 900), start=st.floats(20, 80), left=st.floats(0.1, 1), jig=st.floats(100, 1500))
def test_a_taper_jig_swings_the_leg_by_the_tapers_angle(length, start, left, jig):
    found = taper(length, start, start * left, jig)
    assert math.degrees(math.atan(found.jig_offset_mm / jig)) == pytest.approx(found.angle_deg)
    assert start - length * math.tan(math.radians(found.angle_deg)) == pytest.approx(start * left)


def test_bevel_of_equal_run_and_rise_is_45_degrees():
    bevel = edge_bevel(10, 10)
    assert (bevel.angle_deg, bevel.blade_tilt_deg) == (45, 45)
    assert bevel.face_mm == pytest.approx(math.sqrt(200))


@pytest.mark.parametrize(
    ("call", "says"),
    [
        (lambda: half_lap(40, 40, 20, 5), "Crossing angle 5 degrees is out of range: it must be from 10 to 170"),
        (lambda: half_lap(0, 40, 20, 60), "Width 0"),
        (lambda: half_lap(40, 40, 20, 60, depth_share=1), "Depth share 1"),
        (lambda: crossing_in_frame(100, 0), "Height 0"),
        (lambda: taper(500, 25, 45), "Swap"),
        (lambda: taper(0, 45, 25), "Length of the taper 0"),
        (lambda: edge_bevel(0, 5), "Run 0"),
    ],
)
def test_bad_values_are_named(call, says):
    with pytest.raises(OutOfRangeError, match=says):
        call()


def test_a_taper_over_no_length_is_refused():
    with pytest.raises(OutOfRangeError, match="Length of the taper 1e-307 mm is out of range: it must be from 1"):
        taper(1e-307, 45, 25)
