"""The order of a surface plan and when each step may start."""

import itertools
from datetime import UTC, datetime, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shopapi.craft.finish import all_finish_classes, finish_class
from shopapi.craft.limits import OutOfRangeError
from shopapi.craft.surface_plan import PlannedStep, plan_steps, ready_at

DONE = datetime(2026, 3, 2, 9, tzinfo=UTC)
names = st.sampled_from([one.name for one in all_finish_classes()])


def kinds(steps):
    return [step.kind for step in steps]


@given(name=names, coats=st.integers(1, 3), wet=st.booleans(), start=st.sampled_from((80, 100, 120)))
def test_every_plan_sands_cleans_coats_and_cures_in_that_order(name, coats, wet, start):
    steps = plan_steps(name, coats, start, 220, wet)
    assert kinds(steps).count("coat") == coats
    first_coat = kinds(steps).index("coat")
    assert "sand" not in kinds(steps)[first_coat:]
    assert kinds(steps)[first_coat - 1] == "dust"
    assert kinds(steps)[-2:] == ["cure", "cure"]
    assert ("raise_grain" in kinds(steps)) == wet
    for before, after in itertools.pairwise(steps):
        if before.kind == "coat":
            assert after.wait_hours > 0, "nothing touches a wet coat"
        if before.kind in ("abrade", "sand") and after.kind == "coat":
            pytest.fail("a coat over dust")


def test_three_coats_of_a_wiping_finish_over_raised_grain():
    steps = plan_steps("oil_urethane", 3, 120, 220, True)
    assert kinds(steps) == [
        "sand", "sand", "sand", "raise_grain", "sand", "dust", "coat", "abrade", "dust", "coat", "abrade", "dust",
        "coat", "cure", "cure",
    ]  # fmt: skip
    assert [step.title for step in steps[:3]] == ["Sand with 120", "Sand with 150", "Sand with 220"]
    assert sum(step.wait_hours for step in steps[-2:]) == finish_class("oil_urethane").full_use_h


def test_cautions_stand_where_the_work_can_hurt():
    for one in all_finish_classes():
        for step in plan_steps(one):
            if step.kind in ("sand", "abrade", "dust"):
                assert any("dust" in caution.lower() for caution in step.cautions)
            if step.kind == "coat":
                assert set(one.cautions) <= set(step.cautions)


def test_the_class_decides_what_is_left_open():
    water = plan_steps("waterborne_polyurethane")
    assert kinds(water).count("coat") == 3
    assert "raise_grain" in kinds(water)
    assert "raise_grain" not in kinds(plan_steps("shellac"))
    assert plan_steps("hardwax_oil")[1].title == "Sand with 180"


def test_a_coat_without_abrading_waits_for_the_coat_before():
    steps = plan_steps("shellac", 2)
    second = [step for step in steps if step.kind == "coat"][1]
    assert second.wait_hours == finish_class("shellac").recoat_h


@pytest.mark.parametrize(("temp", "rh", "hours"), [(20, 50, 12), (10, 50, 24), (30, 50, 6), (20, 80, 15.6)])
def test_oil_waits_by_the_stated_model(temp, rh, hours):
    abrade = PlannedStep("abrade", "", "", wait_hours=12)
    assert ready_at(abrade, DONE, temp, rh, "oil_urethane").earliest == DONE + timedelta(hours=hours)


def test_water_in_raised_grain_dries_as_water_does_whatever_the_finish():
    knock_back = PlannedStep("sand", "", "", wait_hours=2)
    assert ready_at(knock_back, DONE, 20, 75, "oil_urethane").earliest == DONE + timedelta(hours=4)


def test_a_cure_is_stretched_by_cold_and_never_shortened():
    cure = PlannedStep("cure", "", "", wait_hours=100)
    assert ready_at(cure, DONE, 10, 50, "oil_urethane").earliest == DONE + timedelta(hours=200)
    assert ready_at(cure, DONE, 30, 40, "oil_urethane").earliest == DONE + timedelta(hours=100)


def test_a_step_of_the_makers_own_waits_as_written():
    own = PlannedStep("other", "Rest", "", wait_hours=5, window_hours=9)
    ready = ready_at(own, DONE, 5, 90, "oil_urethane")
    assert (ready.earliest, ready.latest) == (DONE + timedelta(hours=5), DONE + timedelta(hours=9))


@given(
    name=names, temp=st.floats(0, 45), rh=st.floats(0, 100), wait=st.floats(0, 500), window=st.floats(0, 500),
    kind=st.sampled_from(("sand", "raise_grain", "dust", "coat", "abrade", "cure", "other")),
)  # fmt: skip
def test_a_window_never_closes_before_it_opens(name, temp, rh, wait, window, kind):
    ready = ready_at(PlannedStep(kind, "", "", wait, window), DONE, temp, rh, name)
    assert ready.earliest >= DONE
    assert ready.latest >= ready.earliest
    assert ready_at(PlannedStep(kind, "", "", wait), DONE, temp, rh, name).latest is None


def test_the_note_names_air_the_finish_does_not_stand():
    assert "70 %" in ready_at(PlannedStep("coat", "", "", 1), DONE, 20, 85, "shellac").note
    assert "16 to 30" in ready_at(PlannedStep("coat", "", "", 1), DONE, 8, 50, "hardwax_oil").note


@pytest.mark.parametrize(
    ("call", "says"),
    [
        (lambda: plan_steps("oil_urethane", 0), "0 coats of Wiping oil-and-urethane is out of range: .* from 1 to 6"),
        (lambda: plan_steps("oil_urethane", 2.5), "2.5 coats"),
        (lambda: plan_steps("oil_urethane", 3, 220, 120), "coarser"),
        (lambda: plan_steps("oil_urethane", 3, 125), "no grit"),
        (lambda: plan_steps("paint"), "not a class"),
        (lambda: ready_at(PlannedStep("coat", "", "", 1), DONE, 60, 50, "shellac"), "temperature 60"),
    ],
)
def test_bad_values_are_named(call, says):
    with pytest.raises(OutOfRangeError, match=says):
        call()
