"""Humid air against published examples, and what must hold for any air."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from shopapi.craft.limits import BeyondRange, OutOfRangeError
from shopapi.craft.moisture import dew_point_c, equilibrium_moisture, indoor_humidity, saturation_pressure_hpa
from tests.craft.published import published

TABLE = published("service_climate")


@pytest.mark.parametrize("row", TABLE["examples"], ids=lambda r: r["id"])
def test_published_heated_air_examples(row):
    """Engineering reference tables and a humidifier maker's examples, printed to 1 % RH (secondary copies)."""
    answer = indoor_humidity(row["outdoor_C"], row["outdoor_RH"], row["indoor_C"])
    assert answer == pytest.approx(row["published_indoor_RH"], abs=1.0)
    assert answer == pytest.approx(row["magnus_water"], abs=0.06)
    # The table's own figure was taken from the unrounded humidity.
    assert equilibrium_moisture(row["indoor_C"], answer) == pytest.approx(row["EMC_at_magnus_water"], abs=0.06)


@pytest.mark.parametrize("row", TABLE["saturation_checks"], ids=lambda r: f"{r['T_C']}C")
def test_saturation_pressure_checks(row):
    assert saturation_pressure_hpa(row["T_C"]) == pytest.approx(row["es_hPa"], rel=0.001)


@pytest.mark.parametrize(
    ("temp_c", "steam_table_hpa"), [(0.01, 6.117), (10, 12.28), (20, 23.39), (30, 42.47), (40, 73.85), (50, 123.5)]
)
def test_steam_table_saturation_pressure(temp_c, steam_table_hpa):
    """Steam tables (from memory): the Magnus form holds to 0.4 % as its source states."""
    assert saturation_pressure_hpa(temp_c) == pytest.approx(steam_table_hpa, rel=0.004)


@given(temp=st.floats(-39, 50), rh=st.floats(1, 100))
def test_air_cooled_to_its_dew_point_is_saturated(temp, rh):
    dew = dew_point_c(temp, rh)
    assert dew <= temp + 1e-9
    if dew >= -40:
        assert saturation_pressure_hpa(dew) == pytest.approx(saturation_pressure_hpa(temp) * rh / 100, rel=1e-9)


@given(outdoor=st.floats(-40, 50), rh=st.floats(0, 100))
def test_air_that_is_not_heated_keeps_its_humidity(outdoor, rh):
    assert indoor_humidity(outdoor, rh, outdoor) == pytest.approx(rh, abs=1e-9)


def test_warm_damp_air_cooled_indoors_condenses():
    answer = indoor_humidity(35, 80, 18)
    assert answer == 100
    assert any("condense" in caution for caution in answer.cautions)


def test_cold_air_says_which_saturation_it_counts_by():
    assert any("over ice" in caution for caution in indoor_humidity(-10, 70, 20).cautions)


@pytest.mark.parametrize(("outdoor", "rh", "indoor"), [(-50, 50, 20), (0, 101, 20), (0, 50, 60), (0, -1, 20)])
def test_air_no_formula_covers(outdoor, rh, indoor):
    with pytest.raises(OutOfRangeError):
        indoor_humidity(outdoor, rh, indoor)


def test_dew_point_of_absolutely_dry_air_is_refused():
    with pytest.raises(OutOfRangeError, match=r"from 0\.1 to 100 %"):
        dew_point_c(20, 0)
    with pytest.raises(OutOfRangeError, match="Relative humidity 1e-300 %"):
        dew_point_c(20, 1e-300)  # once answered NaN


def test_arrays_answer_as_numbers_do():
    outdoors, humidities = np.array([-10.0, 0.0, 10.0]), np.array([40.0, 60.0, 80.0])
    together = indoor_humidity(outdoors, humidities, 21.0)
    alone = [float(indoor_humidity(t, h, 21.0)) for t, h in zip(outdoors, humidities, strict=True)]
    assert together.tolist() == pytest.approx(alone)
    assert dew_point_c(outdoors, humidities).tolist() == pytest.approx(
        [dew_point_c(t, h) for t, h in zip(outdoors, humidities, strict=True)]
    )
    with pytest.warns(BeyondRange, match="condense"):
        indoor_humidity(np.array([30.0, 20.0]), 90.0, 15.0)
