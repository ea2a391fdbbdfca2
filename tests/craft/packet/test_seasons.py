"""The sentences about a panel's year say the numbers of the year."""

from dataclasses import replace

import pytest

from shopapi.craft.moisture import seasonal_moisture
from shopapi.craft.movement import home_year, width_through_year
from shopapi.craft.packet import Measures, MovementYear, PanelMonth, describe_year, movement_year
from tests.craft.packet.scenario import written_year

INCH, METRIC = Measures("inch", 16), Measures("metric")


def test_least_and_greatest_are_found():
    year = written_year()
    assert (year.narrowest.name, year.widest.name) == ("March", "September")
    assert year.swing_mm == pytest.approx(762.4 - 754.9)
    assert (year.driest.name, year.dampest.name) == ("January", "July")


@pytest.mark.parametrize(
    ("measures", "words"),
    [
        (METRIC, ("762 mm", "754.9 mm", "762.4 mm", "7.5 mm", '9/32"', "March", "September", "30 %", "55 %", "8.5 %")),
        (INCH, ('30"', '29 23/32"', '30 1/32"', '9/32"', "7.5 mm", "Northwick", "ring angle 0°")),
    ],
)
def test_every_number_is_in_the_sentences(measures, words):
    text = " ".join(describe_year(written_year(), measures))
    assert [word for word in words if word not in text] == []


def test_even_air_promises_no_movement():
    year = written_year()
    still = replace(year, months=tuple(replace(month, width_mm=760.0, rh_pct=45.0) for month in year.months))
    assert "keeps its width all year" in " ".join(describe_year(still, METRIC))


def test_the_ring_angle_is_said_in_words():
    assert "quartersawn" in " ".join(describe_year(replace(written_year(), ring_angle_deg=80.0), METRIC))
    assert "slant" in " ".join(describe_year(replace(written_year(), ring_angle_deg=45.0), METRIC))


def test_names_that_are_signs_keep_their_capitals():
    assert "is the TV shelf:" in describe_year(replace(written_year(), panel="TV shelf"), METRIC)[0]


def test_a_year_has_twelve_months_in_order():
    months = tuple(PanelMonth(n, 40, 8, 700) for n in (1, 2, 3))
    with pytest.raises(ValueError, match="twelve months"):
        MovementYear("Top", "oak", 700, 8, 0, months)


def test_the_printed_year_is_the_year_that_craft_reckons():
    home = home_year(30, 55)
    printed = movement_year("Desk top", "white oak", 762.0, 8.0, home, "Northwick")
    reckoned = width_through_year(762.0, "white oak", 8.0, home)
    assert [month.width_mm for month in printed.months] == [month.width_mm for month in reckoned.months]
    assert printed.swing_mm == pytest.approx(reckoned.swing_mm)
    assert printed.warnings == reckoned.cautions
    assert "Wood handbook" in printed.sources[0]


def test_only_a_curve_that_lags_is_said_to_lag():
    followed = movement_year("Desk top", "white oak", 762.0, 8.0, home_year(30, 55))
    assert "some weeks behind" not in " ".join(describe_year(followed, METRIC))
    assert "some weeks behind" in " ".join(describe_year(written_year(), METRIC))


def test_a_panel_that_lags_says_how_far_it_would_swing_without():
    home = home_year(30, 55)
    season = seasonal_moisture([month.equilibrium_pct for month in home], 22, "white oak", "oil_polyurethane", 3)
    lagging = movement_year("Desk top", "white oak", 762.0, 8.0, home, season=season)
    followed = movement_year("Desk top", "white oak", 762.0, 8.0, home)
    assert lagging.followed_swing_mm == pytest.approx(followed.swing_mm)
    assert lagging.swing_mm < followed.swing_mm
    assert METRIC.change(followed.swing_mm) in " ".join(describe_year(lagging, METRIC))
    assert set(season.cautions) <= set(lagging.warnings)
