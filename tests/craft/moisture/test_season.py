"""A board's year against the same board stepped through the days until it repeats itself."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from shopapi.craft.limits import OutOfRangeError
from shopapi.craft.moisture import diffusivity_mm2_day, seasonal_moisture
from shopapi.craft.moisture.diffusion import BARE_SURFACE_MM_DAY, _modes
from shopapi.craft.movement import home_year, width_through_year

COSINE = [8 + 2 * math.cos(2 * math.pi * (month - 7) / 12) for month in range(12)]


def stepped_year(thickness, wood, steps_a_day=2, years=4):
    """Layers driven by a cosine of the air, day by day, until the year repeats: monthly means of the board."""
    diffusivity = float(diffusivity_mm2_day(wood, 8))
    rates, modes = _modes(thickness / 2, diffusivity, BARE_SURFACE_MM_DAY)
    decay = np.exp(-rates / steps_a_day)
    ones = modes.T @ np.ones(len(rates))
    state, means = np.zeros(len(rates)), {}
    total = round(365.25 * steps_a_day)
    for step in range(years * total):
        air = 2 * math.cos(2 * math.pi * ((step + 0.5) / total - 7 / 12))
        state = air * ones + (state - air * ones) * decay
        if step >= (years - 1) * total:
            means[(step + 1) % total] = 8 + float(ones @ state) / len(rates)
    return [means[round(month / 12 * total) % total] for month in range(12)]


@pytest.mark.parametrize(("thickness", "wood"), [(12, "eastern white pine"), (22, "white oak"), (50, "white oak")])
def test_the_year_against_a_board_stepped_through_its_days(thickness, wood):
    season = seasonal_moisture(COSINE, thickness, wood)
    assert season.monthly_pct == pytest.approx(stepped_year(thickness, wood), abs=0.03)


def test_lag_and_swing_are_those_of_the_curve():
    season = seasonal_moisture(COSINE, 22, "white oak")
    swing = season.swing_share * 2
    shifted = [8 + swing * math.cos(2 * math.pi * ((month - 7) / 12 - season.lag_days / 365.25)) for month in range(12)]
    assert season.monthly_pct == pytest.approx(shifted, abs=1e-9)


@given(
    dry=st.floats(10, 40), more=st.floats(0, 40), thickness=st.floats(5, 80),
    finish=st.sampled_from((None, "shellac", "oil_polyurethane", "hardwax_oil")),
)  # fmt: skip
def test_damped_late_and_about_the_same_mean(dry, more, thickness, finish):
    air = [month.equilibrium_pct for month in home_year(dry, dry + more)]
    season = seasonal_moisture(air, thickness, "sugar maple", finish, 3)
    assert 0 < season.swing_share <= 1
    assert 0 <= season.lag_days <= 365.25 / 4  # a half thickness that is never deep holds the mean to a quarter year
    assert sum(season.monthly_pct) == pytest.approx(sum(air))
    assert max(season.monthly_pct) - min(season.monthly_pct) <= max(air) - min(air) + 1e-9


def test_thicker_boards_and_better_finishes_move_less_and_later():
    thin, thick = seasonal_moisture(COSINE, 15, "white oak"), seasonal_moisture(COSINE, 45, "white oak")
    assert thick.swing_share < thin.swing_share
    assert thick.lag_days > thin.lag_days
    coated = seasonal_moisture(COSINE, 15, "white oak", "oil_polyurethane", 3)
    assert coated.swing_share < thin.swing_share
    assert coated.lag_days > thin.lag_days


def test_a_steady_home_keeps_its_wood_steady():
    assert seasonal_moisture([8.0] * 12, 25, "white oak").monthly_pct == pytest.approx([8.0] * 12)


def test_the_lagging_year_feeds_the_width_of_a_top():
    year = home_year(25, 55)
    season = seasonal_moisture([month.equilibrium_pct for month in year], 22, "white oak", "shellac", 3)
    following = width_through_year(800, "white oak", 8, year)
    lagging = width_through_year(800, "white oak", 8, year, monthly_mc_pct=season.monthly_pct)
    assert lagging.swing_mm < following.swing_mm
    assert lagging.widest.month >= following.widest.month


@pytest.mark.parametrize(
    ("call", "says"),
    [
        (lambda: seasonal_moisture([8.0] * 11, 25, "white oak"), "11 months"),
        (lambda: seasonal_moisture([8.0] * 11 + [35.0], 25, "white oak"), "holds 35"),
        (lambda: seasonal_moisture([8.0] * 12, 0.5, "white oak"), "Thickness 0.5"),
    ],
)
def test_bad_values_are_named(call, says):
    with pytest.raises(OutOfRangeError, match=says):
        call()
