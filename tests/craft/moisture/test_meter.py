"""Pin meter correction: its sense and its limits (no published table was at hand)."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shopapi.craft.limits import OutOfRangeError
from shopapi.craft.moisture import meter_reading_corrected


@given(reading=st.floats(6, 25))
def test_nothing_changes_at_the_temperature_the_scale_holds_at(reading):
    assert meter_reading_corrected(reading, 21) == pytest.approx(reading)


@given(reading=st.floats(6, 25), cold=st.floats(-10, 60), warm=st.floats(-10, 60))
def test_the_warmer_the_wood_the_lower_the_truth(reading, cold, warm):
    cold, warm = sorted((cold, warm))
    assert meter_reading_corrected(reading, warm) <= meter_reading_corrected(reading, cold) + 1e-9


def test_a_tenth_of_a_point_for_each_degree_or_so():
    """Common practice, no source: near 12 % about 1 point for 10 degrees."""
    assert meter_reading_corrected(12, 11) - 12 == pytest.approx(1, abs=0.3)
    assert 12 - meter_reading_corrected(12, 31) == pytest.approx(1, abs=0.3)


@pytest.mark.parametrize(("reading", "temp", "corrected"), [(15, 10, 17), (15, 50, 11)])
def test_a_meter_makers_chart_rounded_to_whole_points(reading, temp, corrected):
    """Read in one maker's user guide (calibrated at 20 °C, whole numbers); meters differ: within 1.25."""
    assert meter_reading_corrected(reading, temp) == pytest.approx(corrected, abs=1.25)


@pytest.mark.parametrize(("reading", "temp"), [(5, 21), (26, 21), (12, -11), (12, 61), (float("nan"), 21)])
def test_outside_the_meters_range_is_refused(reading, temp):
    with pytest.raises(OutOfRangeError):
        meter_reading_corrected(reading, temp)
