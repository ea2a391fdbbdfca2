"""Glue, clamps and minutes against the published examples, and what must hold for any glue-up."""

import itertools
import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shopapi.craft.adhesive import (
    all_glue_classes,
    assembly_time,
    clamp_force_n,
    clamp_plan,
    clamp_pressure,
    clamp_time,
    clamps_for_spread,
    glue_class,
    glue_needed_g,
)
from shopapi.craft.adhesive.clamping import CLAMP_FORCE_LBF
from shopapi.craft.limits import OutOfRangeError
from tests.craft.published import published

TABLE = published("adhesives")
EXAMPLES = {row["id"]: row for row in TABLE["examples"]}
IN, LBF, PSI = 25.4, 4.4482216152605, 0.006894757293168361
GUIDE = {"softwood (pine, poplar)": ("eastern white pine", "yellow-poplar"),
         "medium density (cherry, soft maple)": ("black cherry", "red maple"),
         "hardwood (oak, birch)": ("white oak", "northern red oak", "yellow birch")}  # fmt: skip
names = st.sampled_from([one.name for one in all_glue_classes()])


@pytest.mark.parametrize("row", [row for row in TABLE["pressure_psi"] if row["wood"] in GUIDE], ids=lambda r: r["wood"])
def test_glue_makers_guide_pressure(row):
    for wood in GUIDE[row["wood"]]:
        pressure = clamp_pressure(wood)
        assert (pressure.low_mpa / PSI, pressure.high_mpa / PSI) == pytest.approx((row["low"], row["high"]))


@pytest.mark.parametrize("row", TABLE["clamp_force_lbf"], ids=lambda r: r["clamp"])
def test_glue_makers_guide_force_of_a_clamp(row):
    ours = {"parallel-jaw": "parallel-jaw", "3/4 in pipe": "pipe", "I-beam bar": "bar"}[row["clamp"]]
    assert CLAMP_FORCE_LBF[ours] == row["force"]


def test_glue_example_a1_six_inches_cover_twelve():
    assert clamps_for_spread(EXAMPLES["A1"]["covered_in"] * IN, 6 * IN) == 1
    assert clamps_for_spread(EXAMPLES["A1"]["covered_in"] * IN + 0.1, 6 * IN) == 2


def test_glue_example_a2_two_inch_boards_with_pads():
    """Published count 8; the strict rule gives 10, and the strict one is kept."""
    assert clamps_for_spread(48 * IN, 2 * IN, 0.5 * IN) == EXAMPLES["A2"]["rule_clamps"]


def test_glue_example_a3_the_same_with_cauls():
    assert clamps_for_spread(48 * IN, 2 * IN, 3.5 * IN) == EXAMPLES["A3"]["rule_clamps"]


def test_glue_example_a4_force():
    assert clamp_force_n(48 * IN, IN, 150 * PSI) / LBF == pytest.approx(EXAMPLES["A4"]["force_lbf"])


def test_spread_rate_conversion():
    """35 and 50 lb per 1000 sq ft are 171 and 244 g/m2 (factor 4.8824)."""
    row = TABLE["spread"][0]
    factor = TABLE["unit_conversion"]["lb_per_1000_sqft_to_g_per_m2"]
    assert [round(lb * factor) for lb in row["lb_MSGL"]] == row["g_m2"]
    assert list(glue_class("yellow").spread_g_m2) == row["g_m2"]


def test_glue_makers_guide_clamp_time_and_cold():
    row = TABLE["clamp_time_min"]
    assert glue_class("yellow").clamp_min == (row["unstressed_low"], row["unstressed_high"])
    assert glue_class("yellow").rest_h == row["do_not_stress_before_hours"]
    # Read: yellow 40 F, white 55 F; labels of yellow glue range over 45-55 F: never below what any of them allows.
    minimum = {
        one["glue"]: (one["F"] - 32) / 1.8 for one in TABLE["minimum_temperature_F"] if isinstance(one["F"], int)
    }
    assert glue_class("yellow").coldest_c >= minimum["yellow aliphatic"]
    assert glue_class("white").coldest_c >= minimum["white PVA"]


@pytest.mark.parametrize(
    ("glue", "row"), list(zip(("yellow", "white", "slow"), TABLE["open_assembly_min"], strict=True))
)
def test_open_time_rows_from_memory(glue, row):
    assert glue_class(glue).open_min == (row["low"], row["high"])


@given(length=st.floats(200, 3000), strip=st.floats(30, 300), thickness=st.floats(12, 60), caul=st.floats(0, 100))
def test_a_plan_presses_the_whole_joint_with_the_whole_force(length, strip, thickness, caul):
    plan = clamp_plan(length, thickness, strip, "white oak", caul)
    assert plan.clamps == max(plan.by_force, plan.by_spread) == len(plan.positions_mm)
    assert plan.clamps * CLAMP_FORCE_LBF["pipe"] * LBF >= plan.force_n * (1 - 1e-9)
    # The fans of neighbours meet at the joint, and the outermost reach its ends.
    reach = strip + caul + 1e-6
    assert 0 < plan.positions_mm[0] <= reach
    assert 0 < length - plan.positions_mm[-1] <= reach
    assert all(b - a <= 2 * reach for a, b in itertools.pairwise(plan.positions_mm))


@given(length=st.floats(200, 3000), strip=st.floats(30, 300), wider=st.floats(0, 200))
def test_a_wider_outer_strip_needs_no_more_clamps(length, strip, wider):
    assert clamps_for_spread(length, strip + wider) <= clamps_for_spread(length, strip)
    assert clamps_for_spread(length, strip, wider) == clamps_for_spread(length, strip + wider)


@given(glue=names, edges=st.integers(1, 20), length=st.floats(300, 2500), clamps=st.integers(2, 20))
def test_sub_panels_fit_where_the_whole_does_not(glue, edges, length, clamps):
    try:
        whole = assembly_time(glue, edges, length, clamps)
    except OutOfRangeError:
        return
    assert whole.fits == (whole.sub_panels == 1)
    part = math.ceil(edges / whole.sub_panels)
    assert assembly_time(glue, part, length, clamps).fits


def test_warm_dry_air_takes_time_away_and_damp_air_gives_none():
    usual = assembly_time("yellow", 4, 1500, 8)
    assert assembly_time("yellow", 4, 1500, 8, 30, 30).open_min < usual.open_min
    assert assembly_time("yellow", 4, 1500, 8, 12, 80).open_min == usual.open_min


def test_cold_lengthens_clamping_until_it_is_refused():
    assert clamp_time("yellow", 15).clamp_min > clamp_time("yellow", 20).clamp_min == clamp_time("yellow", 30).clamp_min
    with pytest.raises(OutOfRangeError, match=r"9 °C is out of range.*10 °C or more.*Warm"):
        clamp_time("yellow", 9)


@given(length=st.floats(100, 3000), width=st.floats(10, 100), joints=st.integers(1, 20))
def test_glue_goes_with_the_area(length, width, joints):
    one = glue_needed_g("yellow", length, width)
    assert glue_needed_g("yellow", length, width, joints) == pytest.approx(joints * one)


@pytest.mark.parametrize(
    ("call", "says"),
    [
        (lambda: glue_class("flour"), "Known: yellow"),
        (lambda: glue_needed_g("yellow", 0, 20), "Joint length 0"),
        (lambda: glue_needed_g("yellow", 100, 20, 0), "Joints 0"),
        (lambda: clamp_force_n(100, 20, 0), "Pressure 0"),
        (lambda: clamps_for_spread(1000, 0), "Outer strip 0"),
        (lambda: clamp_plan(1000, 20, 50, "white oak", one_clamp_n=0), "Force of one clamp 0"),
        (lambda: assembly_time("yellow", 0, 1000, 4), "Edges 0"),
        (lambda: assembly_time("yellow", 4, 1000, 0), "Clamps 0"),
        (lambda: assembly_time("yellow", 4, 1500, 60), "slower glue"),
    ],
)
def test_bad_values_are_named(call, says):
    with pytest.raises(OutOfRangeError, match=says):
        call()


@pytest.mark.parametrize("how", [{"outer_strip_mm": 1e-300}, {"outer_strip_mm": 100, "one_clamp_n": 1e-300}])
def test_a_plan_nobody_could_clamp_is_refused(how):
    with pytest.raises(OutOfRangeError, match="clamps is out of range: at most 500"):
        clamp_plan(1500, 22, wood="white oak", **how)
