"""Reference points put right, refused, and what a slip of them costs."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from shopapi.craft import rectify
from tests.craft.rectify.shots import shoot, ticks

LENGTH, WIDTH = 3000.0, 200.0


def seen_points(seed, *, x0=500.0, x1=2000.0, slip_px=0.5):
    rng = np.random.default_rng(seed)
    return ticks(shoot(None, LENGTH, WIDTH, x0, x1, rng, draw=False), x0, x1, WIDTH, rng, slip_px)


seeds = st.integers(0, 10**6)


@given(seed=seeds)
def test_points_as_they_are_stay(seed):
    px, mm = seen_points(seed)
    kept_px, kept_mm = rectify.reference_points(px, mm, LENGTH, WIDTH)
    assert (kept_px == px).all()
    assert (kept_mm == mm).all()


@given(seed=seeds)
def test_edges_taken_for_each_other_are_put_right(seed):
    px, mm = seen_points(seed)
    swapped = np.column_stack([mm[:, 0], WIDTH - mm[:, 1]])
    assert np.allclose(rectify.reference_points(px, swapped, LENGTH, WIDTH)[1], mm)


@given(seed=seeds, pair=st.integers(0, 3))
def test_one_pair_of_ticks_taken_for_each_other_is_put_right(seed, pair):
    px, mm = seen_points(seed)
    half = len(mm) // 2
    wrong = mm.copy()
    wrong[[pair, pair + half]] = mm[[pair + half, pair]]
    assert np.allclose(rectify.reference_points(px, wrong, LENGTH, WIDTH)[1], mm)


FOUR = [(100, 500), (900, 500), (880, 300), (120, 300)]
PLACES = [(0, 0), (1000, 0), (1000, 200), (0, 200)]


@pytest.mark.parametrize(
    ("px", "mm", "says"),
    [
        (FOUR[:3], PLACES[:3], "4 points"),
        ([*FOUR, FOUR[0]], [*PLACES, (500, 0)], "Points 1 and 5 lie on the same spot"),
        ([*FOUR, (500, 500)], [*PLACES, PLACES[1]], "Points 2 and 5 are said to be the same place"),
        (FOUR, [*PLACES[:2], (4000, 200), PLACES[3]], "Point 3 lies 4000 mm from the butt end"),
        (FOUR, [*PLACES[:2], (1000, 260), PLACES[3]], "260 mm from the lower edge"),
        (FOUR, [(0, 0), (500, 0), (900, 0), (1000, 0)], "one edge"),
        ([(100, 500), (900, 500), (120, 300), (880, 300)], PLACES, "No camera sees"),
        ([(100, 500), (400, 500), (900, 500), (600, 500)], PLACES, "line|camera"),
        ([*FOUR[:3], (float("nan"), 1)], PLACES, "not a number"),
        (FOUR * 20, PLACES * 20, "60 at most"),
    ],
)
def test_points_that_cannot_be_are_refused(px, mm, says):
    with pytest.raises(rectify.RectifyError, match=says):
        rectify.reference_points(px, mm, LENGTH, WIDTH)


@given(seed=seeds)
def test_a_slip_costs_no_more_than_is_said(seed):
    """Points moved by two pixels, against the bound; first order, so with a tenth of slack."""
    rng = np.random.default_rng(seed)
    px, mm = seen_points(seed, slip_px=0.0)
    bound = rectify.points_slip_mm(px, mm)
    turns = rng.uniform(0, 2 * np.pi, len(px))
    moved = rectify.square(px + 2 * np.column_stack([np.cos(turns), np.sin(turns)]), mm)
    grid = np.array([(x, y) for x in np.linspace(500, 2000, 9) for y in (0, 100, 200)])
    places = rectify.square(px, mm).to_photo_px(grid)
    assert np.hypot(*(moved.to_board_mm(places) - grid).T).max() <= 1.1 * bound


def test_four_corners_slip_as_before():
    corners = [(0, 100), (1000, 100), (1000, 0), (0, 0)]
    assert rectify.points_slip_mm(corners, rectify.corner_points_mm(2000, 200)) == pytest.approx(
        rectify.slip_mm(corners, 2000, 200)
    )
