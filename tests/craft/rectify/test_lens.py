"""The lens against its own inverse and against cameras that bend."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from shopapi.craft import rectify
from tests.craft.rectify.shots import dotted, shoot, ticks

LENGTH, WIDTH, SIZE = 1500.0, 300.0, (1600, 1200)
FACE = dotted(LENGTH, WIDTH, 1.0, np.random.default_rng(1), [(400, 60)])
bends = st.floats(-0.25, 0.3)


@given(k=bends, x=st.floats(0, 1600), y=st.floats(0, 1200))
def test_bending_and_straightening_undo_each_other(k, x, y):
    lens = rectify.Lens.of_photo(k, SIZE)
    assert np.allclose(lens.bent(lens.straightened([(x, y)])), [(x, y)], atol=1e-3)


def test_the_middle_stays_and_a_barrel_pulls_the_corner_in():
    """Source: the one-term model itself, r (1 + k r^2), by hand: r = 1 in the corner."""
    lens = rectify.Lens.of_photo(0.1, SIZE)
    assert np.allclose(lens.straightened([(800, 600), (1600, 1200)]), [(800, 600), (800 + 880, 600 + 660)])


@given(k=bends, seed=st.integers(0, 10**6))
def test_points_on_both_edges_find_the_lens(k, seed):
    rng = np.random.default_rng(seed)
    seen = shoot(FACE, LENGTH, WIDTH, 0, LENGTH, rng, k=k, draw=False)
    px, mm = ticks(seen, 0, LENGTH, WIDTH, rng, slip_px=0.3, step_mm=250)
    fitted = rectify.straighten(px, mm, SIZE, allowed_mm=1.0)
    grid = np.array([(x, y) for x in np.linspace(0, LENGTH, 16) for y in np.linspace(0, WIDTH, 4)])
    off = np.hypot(*(fitted.to_board_mm(seen.see(grid)) - grid).T)
    plain = np.hypot(*(rectify.square(px, mm).to_board_mm(seen.see(grid)) - grid).T)
    assert off.max() < 5.0
    if fitted.lens:
        assert fitted.lens.k == pytest.approx(k, abs=0.05)
        assert off.max() < plain.max()


def test_four_corners_and_the_edges_between_them_find_it_too():
    rng = np.random.default_rng(7)
    seen = shoot(FACE, LENGTH, WIDTH, 0, LENGTH, rng, k=0.15, draw=False)
    corners = rectify.corner_points_mm(LENGTH, WIDTH)
    edges = [seen.see(np.column_stack([np.linspace(0, LENGTH, 40), np.full(40, y)])) for y in (0, WIDTH)]
    fitted = rectify.straighten(seen.see(corners), corners, SIZE, edges)
    assert fitted.lens
    assert fitted.lens.k == pytest.approx(0.15, abs=0.01)
    assert np.allclose(fitted.to_board_mm(seen.see([(700, 150)])), [(700, 150)], atol=0.5)
    assert np.allclose(fitted.to_photo_px([(700, 150)]), seen.see([(700, 150)]), atol=0.5)


def test_a_lens_that_hardly_bends_is_left_alone():
    rng = np.random.default_rng(7)
    seen = shoot(FACE, LENGTH, WIDTH, 0, LENGTH, rng, k=0.002, draw=False)
    assert rectify.straighten(*ticks(seen, 0, LENGTH, WIDTH, rng, 0.3), SIZE).lens is None


def test_a_point_on_the_wrong_tick_is_no_lens():
    rng = np.random.default_rng(7)
    seen = shoot(FACE, LENGTH, WIDTH, 0, LENGTH, rng, draw=False)
    px, mm = ticks(seen, 0, LENGTH, WIDTH, rng, 0.3, step_mm=250)
    mm[3, 0] += 40
    fitted = rectify.straighten(px, mm, SIZE)
    assert fitted.lens is None
    assert int(np.argmax(fitted.squaring.residuals_mm)) == 3


def test_a_crooked_board_is_no_lens():
    """Both edges bow the same way, one above and one below the photo's middle; a lens bows them apart."""
    rng = np.random.default_rng(7)
    seen = shoot(FACE, LENGTH, WIDTH, 0, LENGTH, rng, tilt_deg=6, draw=False)
    xs = np.linspace(0, LENGTH, 40)
    crook = 12 * (1 - (2 * xs / LENGTH - 1) ** 2)
    edges = [seen.see(np.column_stack([xs, y + crook])) for y in (0, WIDTH)]
    corners = rectify.corner_points_mm(LENGTH, WIDTH)
    assert rectify.straighten(seen.see(corners), corners, SIZE, edges).lens is None


def test_warp_draws_through_a_lens():
    rng = np.random.default_rng(9)
    seen = shoot(FACE, LENGTH, WIDTH, 0, LENGTH, rng, k=0.15)
    corners = rectify.corner_points_mm(LENGTH, WIDTH)
    squaring = rectify.square(seen.lens.straightened(seen.see(corners)), corners)
    picture, mm = rectify.warp(seen.image, squaring, LENGTH, WIDTH, lens=seen.lens)
    row, column = np.unravel_index(np.argmin(picture.mean(axis=2)), picture.shape[:2])
    assert ((column + 0.5) * mm, WIDTH - (row + 0.5) * mm) == pytest.approx((400, 60), abs=2.5)


def test_refusals_are_those_of_squaring():
    with pytest.raises(rectify.CornersMissingError):
        rectify.straighten([(0, 0)], [(0, 0)], SIZE)
