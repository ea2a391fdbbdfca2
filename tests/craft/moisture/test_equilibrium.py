"""Equilibrium moisture against the Wood Handbook's table 4-2, its inverse, and its edges."""

import warnings

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from shopapi.craft.limits import BeyondRange, OutOfRangeError
from shopapi.craft.moisture import equilibrium_moisture, humidity_for
from tests.craft.published import published

TABLE = published("equilibrium_moisture")
# The table is the equation rounded to one decimal; its Celsius constants stay within 0.056 of it.
TOLERANCE = 0.07


@pytest.mark.parametrize("cell", TABLE["cells"], ids=lambda c: f"{c['T_F']}F-{c['RH']}RH")
def test_handbook_table_4_2(cell):
    assert equilibrium_moisture((cell["T_F"] - 32) / 1.8, cell["RH"]) == pytest.approx(cell["EMC"], abs=TOLERANCE)


def test_handbook_table_4_2_is_hit_to_the_printed_decimal_nearly_everywhere():
    """Rounded to one decimal, at least nine cells in ten are the printed figure; the rest are one in the last place."""
    misses = [
        abs(round(float(equilibrium_moisture((c["T_F"] - 32) / 1.8, c["RH"])), 1) - c["EMC"]) for c in TABLE["cells"]
    ]
    assert sum(miss > 0.01 for miss in misses) < len(misses) / 10
    assert max(misses) < 0.11


@pytest.mark.parametrize(("rh", "emc"), [(30, 6), (50, 9), (65, 12), (80, 16)])
def test_drying_column_rules_of_thumb(rh, emc):
    """Rules read in a drying column, whole points at room temperature: within half a point."""
    assert equilibrium_moisture(21, rh) == pytest.approx(emc, abs=0.5)


@pytest.mark.parametrize("rule", published("outdoor_moisture")["rh_to_emc_rule_read"], ids=str)
def test_drying_column_bands_of_humidity(rule):
    """Bands of RH read for each whole point of moisture: the middle of the band lies within half a point."""
    band, moisture = (rule["RH"], rule["EMC"]) if "RH" in rule else list(rule.values())[:2]
    low, high = (band if isinstance(band, list) else [float(edge) for edge in band.split("-")])[:2]
    assert equilibrium_moisture(21, (low + high) / 2) == pytest.approx(moisture, abs=0.5)


@given(temp=st.floats(-1, 130), low=st.floats(0, 100), high=st.floats(0, 100))
def test_damper_air_never_gives_drier_wood(temp, low, high):
    low, high = sorted((low, high))
    assert equilibrium_moisture(temp, low) <= equilibrium_moisture(temp, high) + 1e-12


@given(temp=st.floats(-1, 130), rh=st.floats(0, 100))
def test_inverse_gives_the_air_back(temp, rh):
    assert humidity_for(equilibrium_moisture(temp, rh), temp) == pytest.approx(rh, abs=1e-6)


def test_arrays_answer_as_numbers_do():
    temps, humidities = np.meshgrid([0.0, 21.0, 60.0], [5.0, 50.0, 95.0])
    together = equilibrium_moisture(temps, humidities)
    alone = [float(equilibrium_moisture(t, h)) for t, h in zip(temps.flat, humidities.flat, strict=True)]
    assert together.ravel().tolist() == alone
    assert humidity_for(together, temps) == pytest.approx(humidities, abs=1e-6)


def test_dry_air_gives_dry_wood():
    assert equilibrium_moisture(21, 0) == 0
    assert humidity_for(0, 21) == pytest.approx(0, abs=1e-9)


@pytest.mark.parametrize("rh", [-0.1, 100.1, float("nan"), float("inf")])
def test_humidity_outside_0_to_100_is_refused_by_name(rh):
    with pytest.raises(OutOfRangeError, match=r"Relative humidity .* from 0 to 100 %"):
        equilibrium_moisture(21, rh)
    with pytest.raises(OutOfRangeError, match="Relative humidity"):
        equilibrium_moisture(21, np.array([50, rh]))


@pytest.mark.parametrize("temp", [-41, 141, float("nan")])
def test_temperature_no_formula_covers(temp):
    with pytest.raises(OutOfRangeError, match="Temperature"):
        equilibrium_moisture(temp, 50)


@pytest.mark.parametrize(("temp", "rh"), [(-10, 50), (135, 50), (21, 98)])
def test_beyond_the_table_the_answer_carries_a_caution(temp, rh):
    assert len(equilibrium_moisture(temp, rh).cautions) == 2
    assert len(equilibrium_moisture(21, 50).cautions) == 1
    with pytest.warns(BeyondRange):
        equilibrium_moisture(np.array([temp, 21.0]), rh)
    with warnings.catch_warnings():
        warnings.simplefilter("error")
        equilibrium_moisture(np.array([21.0, 30.0]), 50)


def test_no_air_holds_wood_at_forty_percent():
    with pytest.raises(OutOfRangeError, match=r"Moisture 40 % is out of range: in air the wood reaches at most 2\d"):
        humidity_for(40, 21)
