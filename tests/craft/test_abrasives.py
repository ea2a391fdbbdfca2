"""Grit numbers against the published charts, and the judgement of sequences."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shopapi.craft.abrasives import (
    converted_grit,
    discs_needed,
    grain_size_um,
    grit_sequence,
    judge_sequence,
    nearest_grit,
    raise_grain_after,
)
from shopapi.craft.limits import OutOfRangeError
from tests.craft.published import published

TABLE = published("abrasives")
P_GRITS = [int(row["grade"][1:]) for row in TABLE["P_grades"]]


@pytest.mark.parametrize("row", TABLE["P_grades"], ids=lambda r: r["grade"])
def test_grit_charts_p_grades(row):
    """Three charts agree: within 1 %, and back again."""
    grit = int(row["grade"][1:])
    assert grain_size_um(grit) == pytest.approx(row["um"], rel=0.01)
    assert nearest_grit(row["um"]) == grit


@pytest.mark.parametrize("row", TABLE["CAMI_grades"], ids=lambda r: r["grade"])
def test_grit_charts_cami_grades(row):
    """Charts differ: the first chart within 1 %, the other within 10 %."""
    grit = int(row["grade"])
    assert grain_size_um(grit, "CAMI") == pytest.approx(row["um"], rel=0.01)
    if row["other_chart_um"]:
        assert grain_size_um(grit, "CAMI") == pytest.approx(row["other_chart_um"], rel=0.12)
    assert nearest_grit(row["um"], "CAMI") == grit


@pytest.mark.parametrize(("grit", "row"), TABLE["nearest_P_for_CAMI"].items(), ids=lambda value: str(value)[:12])
def test_grit_charts_cami_to_p(grit, row):
    assert converted_grit(int(grit), "CAMI", "P") == int(row["nearest_P"][1:])


@pytest.mark.parametrize("row", TABLE["step_ratios"], ids=lambda r: r["step"])
def test_step_ratios_computed_beside_the_charts(row):
    grits = [int(grade.strip(" P")) for grade in row["step"].split("to")]
    assert judge_sequence(grits)[0].ratio == pytest.approx(row["ratio"], abs=0.0015)


def test_common_practice_sequence_under_a_wiping_finish():
    """Common practice, no source: 120, 150, 220."""
    assert grit_sequence(120, 220) == (120, 150, 220)
    assert {step.verdict for step in judge_sequence((120, 150, 220))} == {"good"}


@given(start=st.sampled_from(P_GRITS), final=st.sampled_from(P_GRITS))
def test_a_sequence_goes_from_first_to_last_without_a_large_jump(start, final):
    start, final = sorted((start, final))
    grits = grit_sequence(start, final)
    assert (grits[0], grits[-1]) == (start, final)
    assert list(grits) == sorted(set(grits))
    if start >= 36 and final <= 1200:
        assert all(step.ratio <= 1.65 for step in judge_sequence(grits))


@pytest.mark.parametrize(
    ("grits", "verdict"),
    [((80, 220), "too large"), ((220, 180), "coarser"), ((1000, 1200), "good"), ((280, 320), "too small")],
)
def test_verdicts(grits, verdict):
    assert judge_sequence(grits)[0].verdict == verdict


def test_discs_and_water():
    assert discs_needed(0.01, [120, 220]) == 2
    assert discs_needed(1.6, [120]) == 2
    assert discs_needed(1.6, [120], 125) > 2
    assert raise_grain_after([120, 180], waterborne=False) is None
    assert raise_grain_after([120, 180], waterborne=False, smooth=True) == 180


@pytest.mark.parametrize(
    ("call", "says"),
    [
        (lambda: grain_size_um(125), "no grit P 125. Grades: 12, 16"),
        (lambda: grain_size_um(12, "CAMI"), "CAMI 12"),
        (lambda: grain_size_um(80, "F"), "Use P or CAMI"),
        (lambda: grit_sequence(220, 120), "Start with the coarser"),
        (lambda: judge_sequence([]), "at least one"),
        (lambda: nearest_grit(0), "Grain size 0"),
        (lambda: discs_needed(0, [120]), "more than 0"),
        (lambda: raise_grain_after([], waterborne=True), "at least one"),
    ],
)
def test_bad_values_are_named(call, says):
    with pytest.raises(OutOfRangeError, match=says):
        call()
