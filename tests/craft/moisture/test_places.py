"""Monthly outdoor moisture of places, against the ranges read in a drying column; interior advice by region."""

import pytest

from shopapi.craft.limits import OutOfRangeError
from shopapi.craft.moisture import interior_moisture, outdoor_moisture, places
from tests.craft.published import published

TABLE = published("outdoor_moisture")


def test_drying_column_range_for_cheyenne_in_late_summer():
    """Spot check read: July to October from 9.7 to 9.9."""
    months = outdoor_moisture("Cheyenne").monthly_pct[6:10]
    assert (min(months), max(months)) == (9.7, 9.9)


def test_drying_column_range_for_cheyenne_from_november_to_june():
    """Spot check read: 10.5 to 10.8. The rows are from memory and the column is loose: within 0.3."""
    months = outdoor_moisture("Cheyenne, WY").monthly_pct
    for value in (*months[10:], *months[:6]):
        assert 10.2 <= value <= 11.1


@pytest.mark.parametrize(("region", "average"), [("most", 8), ("dry southwest", 6), ("damp coast", 11)])
def test_handbook_table_13_2_averages(region, average):
    advice = interior_moisture(region)
    assert advice.average_pct == average
    assert advice.low_pct < average < advice.high_pct


def test_every_place_has_twelve_months_of_sheltered_wood_and_says_how_it_was_got():
    assert len({(place.state, place.city) for place in places()}) == 49
    for place in places():
        assert len(place.monthly_pct) == 12
        assert all(3 < value < 20 for value in place.monthly_pct)
        assert "memory" in place.how


def test_an_unknown_place_or_region_lists_the_known():
    with pytest.raises(OutOfRangeError, match="Denver"):
        outdoor_moisture("Atlantis")
    with pytest.raises(OutOfRangeError, match="damp coast"):
        interior_moisture("north pole")
