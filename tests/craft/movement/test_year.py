"""A home's year and a piece's width in it."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shopapi.craft.limits import OutOfRangeError
from shopapi.craft.movement import home_year, width_through_year
from tests.craft.published import published


def test_service_climate_swing_example_moistures():
    """25 and 55 % RH at 21 C settle at 5.36 and 10.07 % (computed beside the table)."""
    swing, year = published("service_climate")["swing_example"], home_year(25, 55, 21)
    assert year[1].equilibrium_pct == pytest.approx(swing["EMC_winter"], abs=0.005)
    assert year[7].equilibrium_pct == pytest.approx(swing["EMC_summer"], abs=0.005)


@given(dry=st.floats(0, 100), damp=st.floats(0, 100), temp=st.floats(0, 40), dampest=st.integers(1, 12))
def test_a_year_touches_both_extremes_and_stays_between(dry, damp, temp, dampest):
    dry, damp = sorted((dry, damp))
    year = home_year(dry, damp, temp, dampest)
    assert [month.month for month in year] == list(range(1, 13))
    assert year[dampest - 1].rh_pct == pytest.approx(damp)
    assert year[(dampest + 5) % 12].rh_pct == pytest.approx(dry)
    assert all(dry <= month.rh_pct <= damp for month in year)


def test_a_board_is_as_wide_as_built_when_its_moisture_is_as_built():
    year = home_year(40, 40)
    months = width_through_year(500, "sugar maple", year[0].equilibrium_pct, year).months
    assert all(month.width_mm == pytest.approx(500) for month in months)


@given(width=st.floats(10, 2000), dry=st.floats(10, 40), more=st.floats(0, 40), built=st.floats(4, 14))
def test_widest_in_the_dampest_month_and_narrowest_in_the_driest(width, dry, more, built):
    year = width_through_year(width, "white oak", built, home_year(dry, dry + more))
    assert year.months[7].width_mm == pytest.approx(year.widest.width_mm)
    assert year.months[1].width_mm == pytest.approx(year.narrowest.width_mm)
    assert year.swing_mm >= 0


def test_one_method_serves_the_whole_year():
    assert "13-2" in width_through_year(500, "white oak", 8, home_year(32, 60)).method
    dry_home = width_through_year(500, "white oak", 8, home_year(15, 60))
    assert "13-3" in dry_home.method
    assert any("6 to 14" in caution for caution in dry_home.cautions)


def test_moistures_known_to_lag_are_taken_as_given():
    year = home_year(25, 55)
    months = width_through_year(500, "white oak", 8, year, monthly_mc_pct=[8.0] * 12).months
    assert {month.change_mm for month in months} == {0.0}
    with pytest.raises(OutOfRangeError, match="3 moistures for 12 months"):
        width_through_year(500, "white oak", 8, year, monthly_mc_pct=[8.0] * 3)


@pytest.mark.parametrize(
    ("dry", "damp", "temp", "says"),
    [(60, 30, 21, "Swap"), (-1, 30, 21, "-1"), (30, 101, 21, "101"), (30, 50, 90, "90")],
)
def test_homes_that_cannot_be(dry, damp, temp, says):
    with pytest.raises(OutOfRangeError, match=says):
        home_year(dry, damp, temp)
