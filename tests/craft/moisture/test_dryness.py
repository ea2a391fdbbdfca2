"""Dry enough for a home or not: against the published table of moisture in air, and what must hold for any board."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shopapi.craft.limits import OutOfRangeError
from shopapi.craft.moisture import Air, HomeAir, MeterReading, acclimation, dryness
from tests.craft.published import published

TABLE = published("equilibrium_moisture")
HOME, SHOP = HomeAir(30, 55, 21), Air(20, 40)


def oak(shown, *, days_ago=0.0, home=HOME, shop=SHOP, thickness=27, **reading):
    return dryness(thickness, "white oak", MeterReading(shown, days_ago, **reading), home, shop)


def test_target_is_what_the_home_holds_wood_at_by_the_published_table():
    """70 °F at 30 and at 55 % RH: 6.2 and 10.1 % (WOOD-HANDBOOK, table 4-2)."""
    answer = oak(8)
    assert (answer.target_low_pct, answer.target_high_pct) == pytest.approx((6.2, 10.1), abs=0.1)
    assert answer.ready
    assert answer.days == 0


def test_time_is_that_of_acclimation_to_the_edge_of_the_target():
    answer = oak(12)
    assert not answer.ready
    there = acclimation(27, "white oak", 12, answer.shop_pct, [answer.days - 1, answer.days]).mean_mc_pct
    assert there[0] > answer.target_high_pct >= there[1]
    assert f"about {answer.days:.0f} days" in answer.words


def test_wood_too_dry_waits_for_damper_air():
    answer = oak(4)
    assert not answer.ready
    assert answer.days > 0


def test_days_count_from_the_reading():
    fresh = oak(12).days
    assert oak(12, days_ago=5).days == fresh - 5
    late = oak(12, days_ago=fresh + 1)
    assert (late.ready, late.days) == (False, 0)
    assert "measure it again" in late.words


@pytest.mark.parametrize(
    ("shown", "shop", "says"),
    [(14, Air(18, 75), "damper than the home"), (4, Air(22, 15), "drier than the home")],
)
def test_a_shop_in_which_it_will_never_get_there(shown, shop, says):
    answer = oak(shown, shop=shop)
    assert (answer.ready, answer.days) == (False, None)
    assert says in answer.words


def test_ready_wood_in_a_damp_shop_carries_a_caution():
    assert any("keep it wrapped" in caution for caution in oak(8, shop=Air(18, 75)).cautions)
    assert not any("keep it wrapped" in caution for caution in oak(8).cautions)


def test_what_is_not_known_is_said():
    unmeasured = dryness(27, "white oak", None, HOME, SHOP)
    assert (unmeasured.mc_pct, unmeasured.ready, unmeasured.days) == (None, False, None)
    assert "Not measured" in unmeasured.words
    no_air = oak(12, shop=None)
    assert no_air.shop_pct is None
    assert any("No air is noted" in caution for caution in no_air.cautions)
    assert any("40 days old" in caution for caution in oak(8, days_ago=40).cautions)
    green = oak(45)
    assert (green.ready, green.days) == (False, None)
    assert "green" in green.words
    too_thick = oak(12, thickness=300)
    assert too_thick.days is None
    assert "cannot be reckoned: Thickness 300" in too_thick.words


def test_pin_meters_only_are_corrected_for_temperature():
    """Cold wood reads low, so a reading that seems ready may not be."""
    cold = oak(10, temp_c=0, by_pins=True)
    assert cold.mc_pct > 10.1
    assert not cold.ready
    assert any("The meter showed 10 %" in caution for caution in cold.cautions)
    other = oak(10, temp_c=0)
    assert (other.mc_pct, other.ready) == (10, True)
    assert any("pin meters only" in caution for caution in other.cautions)
    beyond = oak(4, temp_c=0, by_pins=True)
    assert beyond.mc_pct == 4
    assert any("Reading 4 %" in caution for caution in beyond.cautions)


def test_a_home_of_even_air_still_leaves_a_point_either_way():
    answer = oak(8, home=HomeAir(45, 45, 21))
    assert answer.target_high_pct - answer.target_low_pct == pytest.approx(2)


def test_air_out_of_range_is_refused():
    with pytest.raises(OutOfRangeError, match="humidity"):
        oak(8, home=HomeAir(30, 155, 21))


@given(
    shown=st.floats(0, 60),
    thickness=st.floats(5, 100),
    rh=st.floats(5, 95),
    temp=st.floats(0, 40),
    home_rh=st.tuples(st.floats(5, 95), st.floats(5, 95)).map(sorted),
)
def test_ready_wood_lies_in_the_target_and_other_wood_waits_or_is_explained(shown, thickness, rh, temp, home_rh):
    answer = oak(shown, thickness=thickness, home=HomeAir(*home_rh, 21), shop=Air(temp, rh))
    inside = answer.target_low_pct <= shown <= answer.target_high_pct
    assert answer.ready >= inside
    assert answer.words
    if answer.days is not None and not answer.ready:
        assert 0 < answer.days <= 3 * 365
        thicker = oak(shown, thickness=thickness * 1.5, home=HomeAir(*home_rh, 21), shop=Air(temp, rh))
        assert thicker.days is None or thicker.days >= answer.days
