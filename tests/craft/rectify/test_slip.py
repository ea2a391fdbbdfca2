"""What a slip of the finger costs, against corners that really slip."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from shopapi.craft import rectify
from tests.craft.rectify.test_squaring import cameras, seen


@settings(max_examples=40, deadline=None)
@given(cameras(), st.integers(0, 2**32 - 1))
def test_no_slip_exceeds_the_bound_and_the_typical_is_typical(view, seed):
    camera, length, width = view
    corners = seen(camera, rectify.corner_points_mm(length, width))
    slip_px = 0.02  # far below any board's width in the photo, so that first order is all there is
    worst = rectify.slip_mm(corners, length, width, slip_px=slip_px)
    typical = rectify.typical_slip_mm(corners, length, width, slip_px=slip_px)
    assert typical <= worst
    rng = np.random.default_rng(seed)
    grid_mm = np.array([(x, y) for x in np.linspace(0, length, 13) for y in np.linspace(0, width, 5)])
    grid_px = seen(camera, grid_mm)
    squared_errors = []
    for _ in range(200):
        angles = rng.uniform(0, 2 * np.pi, 4)
        slipped = corners + slip_px * np.column_stack([np.cos(angles), np.sin(angles)])
        marks = rectify.square(slipped, rectify.corner_points_mm(length, width)).to_board_mm(grid_px)
        squared_errors.append(((marks - grid_mm) ** 2).sum(axis=1))
    assert np.sqrt(np.max(squared_errors)) <= worst * 1.02
    assert np.sqrt(np.mean(squared_errors, axis=0).max()) == pytest.approx(typical, rel=0.2)


def test_the_worst_case_is_reached():
    """Both ends' widths read wrong the opposite way: each end 4 px wrong of 100, which shifts the middle."""
    length, width = 2000, 200
    corners = np.array([(0, 100), (1000, 100), (1000, 0), (0, 0.0)])
    slipped = corners + np.array([(0, 2), (0, -2), (0, 2), (0, -2)])
    middle = rectify.square(slipped, rectify.corner_points_mm(length, width)).to_board_mm([(500, 50)])[0]
    off = np.hypot(middle[0] - 1000, middle[1] - 100)
    assert off == pytest.approx(40, abs=1)
    assert off <= rectify.slip_mm(corners, length, width) * 1.02


def test_twice_the_slip_costs_twice_as_much():
    corners = [(0, 400), (3000, 420), (2900, 80), (100, 100)]
    once = rectify.slip_mm(corners, 2500, 250)
    assert rectify.slip_mm(corners, 2500, 250, slip_px=4) == pytest.approx(2 * once)


@pytest.mark.parametrize("slip_px", [0, -1, float("nan")])
def test_no_slip_is_no_question(slip_px):
    with pytest.raises(ValueError, match="slip"):
        rectify.slip_mm([(0, 400), (3000, 420), (2900, 80), (100, 100)], 2500, 250, slip_px=slip_px)
