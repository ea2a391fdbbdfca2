"""Splayed legs and hoppers against the worked values and against vectors built here on their own."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from shopapi.craft.limits import OutOfRangeError
from shopapi.craft.splay import angle_between_legs, hopper, leans_from_resultant, splayed_leg
from tests.craft.published import published

TABLE = published("geometry")
leans = st.floats(0, 60)
SIDE, FRONT, UP = np.eye(3)


def unit(vector):
    return vector / np.linalg.norm(vector)


def between(a, b):
    """Angle between two lines [degrees], whichever way they point."""
    cross = np.linalg.norm(np.cross(unit(a), unit(b)))
    return math.degrees(math.atan2(cross, abs(unit(a) @ unit(b))))


def direction(rake, splay):
    return np.array([math.tan(math.radians(splay)), math.tan(math.radians(rake)), 1.0])


@pytest.mark.parametrize("row", TABLE["legs"], ids=lambda r: r["id"])
def test_worked_legs(row):
    leg = splayed_leg(row["height_mm"], row["rake_deg"], row["splay_deg"])
    assert leg.resultant_deg == pytest.approx(row["resultant_deg"], abs=1e-4)
    assert leg.sightline_deg == pytest.approx(row["sightline_deg_from_front_back"], abs=1e-4)
    assert leg.true_length_mm == pytest.approx(row["true_length_mm"], abs=0.005)
    assert leg.foot_offset_side_mm == pytest.approx(row["foot_offset_side_mm"], abs=0.005)
    assert leg.foot_offset_front_mm == pytest.approx(row["foot_offset_front_mm"], abs=0.005)
    assert leg.end_miter_deg == pytest.approx(row["end_cut_miter_deg"], abs=1e-4)
    assert leg.end_bevel_deg == row["end_cut_bevel_deg"]


def test_worked_neighbour_mark():
    """The mark on the neighbouring face is slightly more than the rake: 10.147 for 10 and 10."""
    assert splayed_leg(720, 10, 10).neighbour_mark_deg == pytest.approx(10.147, abs=5e-4)


@pytest.mark.parametrize("row", TABLE["leg_pairs"], ids=lambda r: r["id"])
def test_worked_leg_pairs(row):
    which = "diagonal" if "diagonal" in row["legs"] else "left and right"
    assert angle_between_legs(row["rake_deg"], row["splay_deg"], which) == pytest.approx(
        row["angle_between_deg"], abs=1e-4
    )


@pytest.mark.parametrize("row", TABLE["hoppers"], ids=lambda r: r["id"])
def test_worked_hoppers(row):
    settings = hopper(row["sides"], row["side_slope_from_horizontal_deg"])
    assert settings.miter_deg == pytest.approx(row["miter_deg"], abs=1e-4)
    assert settings.bevel_deg == pytest.approx(row["bevel_deg"], abs=1e-4)


def test_hopper_identities():
    assert (hopper(4, 90).miter_deg, hopper(4, 90).bevel_deg) == (0, 45)
    assert (hopper(4, 0).miter_deg, hopper(4, 0).bevel_deg) == (45, 0)


def test_splays_combine_through_tangents():
    """15 and 15 give 20.75, not 21.21."""
    assert splayed_leg(700, 15, 15).resultant_deg == pytest.approx(20.75, abs=0.01)


@given(rake=leans, splay=leans, height=st.floats(100, 1000))
def test_leg_against_vectors(rake, splay, height):
    leg, way = splayed_leg(height, rake, splay), direction(rake, splay)
    assert leg.resultant_deg == pytest.approx(between(way, UP), abs=1e-6)
    foot = way * height
    assert leg.true_length_mm == pytest.approx(np.linalg.norm(foot))
    assert (leg.foot_offset_side_mm, leg.foot_offset_front_mm) == pytest.approx((foot[0], foot[1]), abs=1e-6)


@given(rake=st.floats(1, 60), splay=st.floats(1, 60))
def test_end_cuts_against_a_cut_square_prism(rake, splay):
    """The floor plane cut through a square leg: the lines it leaves on two faces, and its slope to the first face."""
    leg, way = splayed_leg(700, rake, splay), unit(direction(rake, splay))
    first_normal = unit(np.cross(way, SIDE))  # a face whose level lines run from side to side
    second_normal = unit(np.cross(way, first_normal))
    across_first, across_second = np.cross(way, first_normal), np.cross(way, second_normal)
    line_first, line_second = np.cross(first_normal, UP), np.cross(second_normal, UP)
    assert between(line_first, SIDE) == pytest.approx(0, abs=1e-6)
    assert leg.end_miter_deg == pytest.approx(between(line_first, across_first), abs=1e-6)
    assert leg.neighbour_mark_deg == pytest.approx(between(line_second, across_second), abs=1e-6)
    assert leg.end_bevel_deg == pytest.approx(90 - between(UP, first_normal), abs=1e-6)


@given(rake=st.floats(0, 60), splay=st.floats(0, 60), width=st.floats(10, 80), thickness=st.floats(10, 80))
def test_blank_holds_the_whole_leg(rake, splay, width, thickness):
    """The leg's eight corners, cut level at floor and top, projected on its own axis."""
    leg, way = splayed_leg(700, rake, splay, width, thickness), unit(direction(rake, splay))
    first_normal = unit(np.cross(way, SIDE))
    across = np.cross(way, first_normal)
    along = []
    for level in (0.0, 700.0):
        for a in (-0.5, 0.5):
            for b in (-0.5, 0.5):
                start = a * width * across + b * thickness * first_normal
                along.append((level - start[2]) / way[2])  # up the arris until it meets the level
    assert leg.blank_length_mm == pytest.approx(max(along) - min(along), abs=1e-6)


@given(rake=leans, splay=leans)
def test_resultant_and_sightline_give_the_leans_back(rake, splay):
    leg = splayed_leg(700, rake, splay)
    assert leans_from_resultant(leg.resultant_deg, leg.sightline_deg) == pytest.approx((rake, splay), abs=1e-6)


@given(rake=leans, splay=leans)
def test_pairs_against_vectors(rake, splay):
    one = direction(rake, splay)
    for which, mirror in (("left and right", (-1, 1, 1)), ("front and back", (1, -1, 1)), ("diagonal", (-1, -1, 1))):
        other = one * mirror
        angle = math.degrees(math.acos(np.clip(unit(one) @ unit(other), -1, 1)))
        assert angle_between_legs(rake, splay, which) == pytest.approx(angle, abs=1e-5)


@given(sides=st.integers(3, 12), slope=st.floats(5, 85))
def test_hopper_against_vectors(sides, slope):
    """Two neighbouring sides as planes, mitred by the plane that halves them."""
    lean, turn = math.radians(slope), 2 * math.pi / sides

    def side(angle):
        out = np.array([math.cos(angle), math.sin(angle), 0])
        along = np.array([-math.sin(angle), math.cos(angle), 0])
        up_slope = math.cos(lean) * out + math.sin(lean) * UP
        return along, up_slope, np.cross(along, up_slope)

    _, up_slope, normal = side(0.0)
    _, _, next_normal = side(turn)
    corner = np.cross(normal, next_normal)  # the edge both sides share
    miter_plane = np.cross(corner, normal + next_normal)
    settings = hopper(sides, slope)
    assert settings.miter_deg == pytest.approx(between(corner, up_slope), abs=1e-6)
    assert settings.bevel_deg == pytest.approx(90 - between(miter_plane, normal), abs=1e-6)


@pytest.mark.parametrize(
    ("call", "says"),
    [
        (lambda: splayed_leg(700, 90, 0), "Rake 90 degrees is out of range: it must be from 0 to 75"),
        (lambda: splayed_leg(700, 10, -1), "Splay -1"),
        (lambda: splayed_leg(0, 10, 10), "Height 0"),
        (lambda: splayed_leg(700, 10, 10, -1), "Leg width"),
        (lambda: leans_from_resultant(80, 10), "Resultant 80"),
        (lambda: angle_between_legs(10, 10, "crosswise"), "Known: left and right"),
        (lambda: hopper(2, 80), "Sides 2"),
        (lambda: hopper(4.5, 80), "whole number"),
        (lambda: hopper(4, 91), "Slope 91"),
    ],
)
def test_bad_values_are_named(call, says):
    with pytest.raises(OutOfRangeError, match=says):
        call()
