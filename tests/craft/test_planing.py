"""Milling sessions: common practice throughout, so what is checked is their sense."""

import itertools

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shopapi.craft.limits import OutOfRangeError
from shopapi.craft.planing import after_rest, milling_plan


@given(finished=st.floats(6, 60), spare=st.floats(0.5, 20), sessions=st.integers(1, 6))
def test_sessions_go_from_rough_to_finished_evenly_from_both_faces(finished, spare, sessions):
    plan = milling_plan(finished + spare, finished, sessions)
    steps = plan.sessions
    assert steps[0].from_mm == finished + spare
    assert steps[-1].to_mm == pytest.approx(finished)
    for before, after in itertools.pairwise(steps):
        assert after.from_mm == before.to_mm
        assert after.each_face_mm < before.each_face_mm
        assert after.rest_before_h == 24
    for step in steps:
        assert step.from_mm - step.to_mm == pytest.approx(2 * step.each_face_mm)
        assert step.from_mm - step.to_mm >= 0.5 - 1e-9
    assert steps[0].rest_before_h == 0
    assert len(steps) <= sessions


def test_common_practice_three_sessions_with_a_day_between():
    plan = milling_plan(25.4, 20)
    assert len(plan.sessions) == 3
    assert any("Guards" in caution for caution in plan.cautions)


def test_little_spare_wood_allows_fewer_sessions_and_says_so():
    plan = milling_plan(22, 20, 3)
    assert len(plan.sessions) == 2
    assert any("not 3" in caution for caution in plan.cautions)
    assert any("under 12 h" in caution for caution in milling_plan(27, 20, 3, rest_h=2).cautions)


@pytest.mark.parametrize(
    ("moved", "readings", "verdict"),
    [
        (0.2, (8, 8.5), "to size"),
        (0.2, (10, 8), "wait for moisture"),
        (0.9, (8, 8), "one more session"),
        (1.4, (8, 8), "to size"),
        (2.0, (8, 8), "too thin"),
    ],
)
def test_what_a_rested_board_asks_for(moved, readings, verdict):
    assert after_rest(23, 20, moved, 1000, *readings).verdict == verdict


@given(moved=st.floats(0, 3), more=st.floats(0, 3))
def test_more_movement_never_leaves_more_wood(moved, more):
    assert after_rest(25, 20, moved + more, 1000).spare_mm <= after_rest(25, 20, moved, 1000).spare_mm


@pytest.mark.parametrize(
    ("call", "says"),
    [
        (lambda: milling_plan(20, 20), "At least 0.5 mm"),
        (lambda: milling_plan(0, 20), "Rough thickness 0"),
        (lambda: milling_plan(27, 20, 0), "Sessions 0"),
        (lambda: milling_plan(27, 20, rest_h=-1), "Rest -1"),
        (lambda: after_rest(23, 20, -1, 1000), "Movement -1"),
        (lambda: after_rest(23, 20, 1, 0), "Length 0"),
    ],
)
def test_bad_values_are_named(call, says):
    with pytest.raises(OutOfRangeError, match=says):
        call()
