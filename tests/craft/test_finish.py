"""Finish classes against published times, and the drying model's sense."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shopapi.craft.finish import (
    all_finish_classes,
    cure_times,
    drying_factor,
    finish_class,
    quantity_litres,
    recoat_window,
)
from shopapi.craft.limits import OutOfRangeError
from tests.craft.published import published

SHEETS = {row["cls"]: row for row in published("finishing")["classes"]}
# Ours -> the sheets' classes it draws on (times, then coverage where that is another row).
ROWS = {
    "oil_urethane": ("oil-and-urethane wiping finish",) * 2,
    "oil_polyurethane": ("oil-modified polyurethane",) * 2,
    "waterborne_polyurethane": ("waterborne polyurethane",) * 2,
    "shellac": ("shellac (1-2 lb cut)", "shellac coverage"),
    "hardwax_oil": ("hardwax oil", "hardwax oil, coverage"),
    "lacquer": ("nitrocellulose lacquer",) * 2,
    "drying_oil": ("boiled linseed oil", None),
}
M2_PER_L_FOR_SQFT_PER_GAL = 0.09290304 / 3.785411784
temps, humidities = st.floats(0, 45), st.floats(0, 100)
names = st.sampled_from([one.name for one in all_finish_classes()])


@pytest.mark.parametrize("name", ROWS)
def test_data_sheets_recoat_time(name):
    low, high = SHEETS[ROWS[name][0]]["recoat_h"]
    assert low <= recoat_window(name, 20, 50).earliest_hours <= high


@pytest.mark.parametrize("name", ROWS)
def test_data_sheets_full_cure(name):
    days = SHEETS[ROWS[name][0]]["full_cure_days"]
    low, high = days if isinstance(days, list) else (days, days)
    assert low <= cure_times(name, 20, 50).full_use_hours / 24 <= high


@pytest.mark.parametrize("name", [name for name, rows in ROWS.items() if rows[1]])
def test_data_sheets_coverage(name):
    row = SHEETS[ROWS[name][1]]
    ours = finish_class(name).coverage_m2_per_l
    if "coverage_m2_per_litre" in row:
        assert list(ours) == row["coverage_m2_per_litre"]
    else:
        assert ours == pytest.approx([sqft * M2_PER_L_FOR_SQFT_PER_GAL for sqft in row["coverage_sqft_gal"]], abs=0.06)


def test_data_sheets_light_use():
    assert (
        cure_times("waterborne_polyurethane", 20, 50).light_use_hours
        == SHEETS["waterborne polyurethane"]["light_use_h"]
    )
    low, high = SHEETS["hardwax oil"]["light_use_days"]
    assert low <= cure_times("hardwax_oil", 20, 50).light_use_hours / 24 <= high


def test_drying_oils_heat_by_themselves_and_say_so():
    """Fire rules: drying oils oxidise in wadded cloth; evaporative finishes do not, but burn."""
    for one in all_finish_classes():
        hot = one.drying == "reaction"
        assert (one.rag_hazard == "self-heating") == hot
        assert any("by themselves" in caution for caution in one.cautions) == hot


@given(name=names, temp=temps, warmer=temps, rh=humidities, damper=humidities)
def test_warm_and_dry_air_dries_sooner(name, temp, warmer, rh, damper):
    temp, warmer = sorted((temp, warmer))
    rh, damper = sorted((rh, damper))
    drying = finish_class(name).drying
    assert drying_factor(drying, warmer, rh) <= drying_factor(drying, temp, rh) + 1e-12
    assert drying_factor(drying, temp, rh) <= drying_factor(drying, temp, damper) + 1e-12


@given(name=names, temp=temps, rh=humidities)
def test_windows_are_in_order_and_cure_is_never_promised_early(name, temp, rh):
    one, window, cure = finish_class(name), recoat_window(name, temp, rh), cure_times(name, temp, rh)
    assert window.earliest_hours > 0
    assert window.latest_hours is None or window.latest_hours > window.earliest_hours
    assert one.light_use_h <= cure.light_use_hours < cure.full_use_hours
    assert "label" in window.note


def test_at_the_reference_nothing_is_stretched():
    for drying in ("reaction", "water", "solvent"):
        assert drying_factor(drying, 20, 50) == pytest.approx(1)


def test_air_outside_the_class_is_said():
    assert "warm the shop" in recoat_window("hardwax_oil", 8, 50).note
    assert "drier air" in recoat_window("shellac", 20, 80).note
    assert "levels" in recoat_window("lacquer", 35, 50).note
    assert drying_factor("water", 20, 95).cautions
    assert drying_factor("water", 20, 100) == drying_factor("water", 20, 90)


@given(name=names, area=st.floats(0.1, 50), coats=st.integers(1, 10))
def test_twice_the_surface_takes_twice_the_finish(name, area, coats):
    assert quantity_litres(name, 2 * area, coats) == pytest.approx(2 * quantity_litres(name, area, coats))
    assert quantity_litres(name, area, 2 * coats) == pytest.approx(2 * quantity_litres(name, area, coats))


@pytest.mark.parametrize(
    ("call", "says"),
    [
        (lambda: finish_class("nail varnish"), "Known: oil_urethane"),
        (lambda: recoat_window("shellac", -5, 50), "Shop temperature -5"),
        (lambda: recoat_window("shellac", 20, 101), "Shop humidity 101"),
        (lambda: drying_factor("magic", 20, 50), "Known: reaction"),
        (lambda: quantity_litres("shellac", 0, 3), "Area 0"),
        (lambda: quantity_litres("shellac", 1, 0), "Coats 0"),
    ],
)
def test_bad_values_are_named(call, says):
    with pytest.raises(OutOfRangeError, match=says):
        call()
