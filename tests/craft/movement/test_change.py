"""Width change against the Wood Handbook's coefficients and examples, and what must hold for any board."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from shopapi.craft.limits import BeyondRange, OutOfRangeError
from shopapi.craft.movement import Strip, cup_depth, panel_change, width_change
from shopapi.craft.species import UnknownSpeciesError, all_species, species
from tests.craft.published import published

COEFFICIENTS = published("dimensional_change")
SHRINKAGE = published("shrinkage")
WOODS = [one.name for one in all_species() if one.tangential_pct]
# Table 13-5 prints a neighbour's or a group's value under these names; the notes of the table tell why.
GROUP_ROWS = {
    "Red oak, commercial": "red oak",
    "White oak, commercial": "white oak",
    "Red oak: water, laurel, willow": "water oak",
    "Red oak, California": "California black oak",
    "Oak, black (as printed; see notes)": "California black oak",
    "White oak, live": "live oak",
    "White oak, Oregon white": "Oregon white oak",
    "White oak, overcup": "overcup oak",
    "Hickory, true": "hickory",
}
moistures = st.floats(0, 22)


@pytest.mark.parametrize("row", COEFFICIENTS["coefficients"], ids=lambda r: r["species"])
def test_handbook_table_13_5(row):
    """One millimetre in a metre per point: a board of 1 m from 8 to 9 % moves by the printed coefficient."""
    wood = GROUP_ROWS.get(row["species"], row["species"])
    assert width_change(1.0, wood, 8, 9) == pytest.approx(row["CT"], abs=5e-6)
    assert width_change(1.0, wood, 8, 9, 90) == pytest.approx(row["CR"], abs=5e-6)


@pytest.mark.parametrize("row", SHRINKAGE["domestic"], ids=lambda r: r["species"])
def test_handbook_table_4_3(row):
    """From fibre saturation to ovendry a board loses the printed percentage of its green width."""
    check_shrinkage(row["species"].replace(" (white group)", "").replace(" (red group)", ""), row)


@pytest.mark.parametrize("row", SHRINKAGE["imported"], ids=lambda r: r["species"])
def test_handbook_table_4_4(row):
    check_shrinkage(row["species"], row)


def check_shrinkage(name, row):
    one = species(name)
    green = one.fibre_saturation_pct
    assert width_change(1000, one, green, 0, 90) == pytest.approx(-10 * row["radial"], abs=1e-9)
    if row["tangential"] is not None:
        assert width_change(1000, one, green, 0) == pytest.approx(-10 * row["tangential"], abs=1e-9)
    assert one.volumetric_pct == row["volumetric"]


def test_handbook_white_fir_example():
    """WOOD-HANDBOOK p. 13-18: a flat-grain board 232 mm wide from 8 to 11 % gains 1.7 mm (printed to 0.1)."""
    example = COEFFICIENTS["handbook_example"]
    change = width_change(example["DI_mm"], "white fir", example["MI"], example["MF"])
    assert change == pytest.approx(example["dD_mm"], abs=0.05)
    assert "13-2" in change.method


def test_shrinkage_table_black_walnut_example():
    """Green 250 mm walnut dried to 8 %: 235.7 mm (computed beside the table)."""
    assert 250 + width_change(250, "black walnut", 30, 8) == pytest.approx(235.7, abs=0.05)


def test_service_climate_swing_example():
    """White oak top 1000 mm between 25 and 55 % RH at 21 C: 17.2 mm by coefficient, a little more by shrinkage."""
    swing = published("service_climate")["swing_example"]
    dry, damp = swing["EMC_winter"], swing["EMC_summer"]
    assert 1000 * species("white oak").ct * (damp - dry) == pytest.approx(swing["movement_mm"], abs=0.05)
    change = width_change(1000, "white oak", dry, damp)
    assert "13-3" in change.method
    assert change == pytest.approx(swing["movement_mm"], rel=0.06)


@pytest.mark.parametrize(
    ("trade_name", "sixtyfourths"), COEFFICIENTS["trade_table_64ths_in_for_12in_10_to_5_pct"].items(), ids=str
)
def test_flooring_trade_table_is_of_the_same_size(trade_name, sixtyfourths):
    """A looser trade table, generally lower (its notes say so): a sanity range of a factor, never a match."""
    woods = {
        "Ash": "white ash",
        "Oak, red and white, plain-sawn": "white oak",
        "Oak, quarter- or rift-sawn": "white oak",
    }
    woods |= {"Yellow-poplar": "yellow-poplar", "Hickory": "hickory"}
    angle = 65 if "quarter" in trade_name else 0
    change = width_change(12 * 64, woods.get(trade_name, trade_name), 10, 5, angle)
    assert 0.6 < sixtyfourths / -change < 1.25


@pytest.mark.parametrize("row", COEFFICIENTS["coefficients"], ids=lambda r: r["species"])
def test_coefficient_identity_where_the_table_follows_its_shrinkage(row):
    """C = (S/F)/(100 - S (F-10)/F) on the size at 10 % MC: both methods agree there for a small change."""
    one = species(GROUP_ROWS.get(row["species"], row["species"]))
    follows = abs(one.ct - identity(one.tangential_pct, one.fibre_saturation_pct)) < 1.1e-5
    if follows:
        small = width_change(1.0, one, 10, 10.001) / 0.001
        assert small == pytest.approx(one.ct, abs=1e-9)
        wide = width_change(1.0, one, 10, 14.0001)  # just outside: the shrinkage method
        assert wide == pytest.approx(one.ct * 4.0001, rel=0.01)


def identity(S, F):
    return (S / F) / (100 - S * (F - 10) / F)


@given(wood=st.sampled_from(WOODS), width=st.floats(0, 5000), mc=moistures, angle=st.floats(0, 90))
def test_no_change_of_moisture_no_change_of_width(wood, width, mc, angle):
    assert width_change(width, wood, mc, mc, angle) == 0


@given(wood=st.sampled_from(WOODS), low=moistures, high=moistures, angle=st.floats(0, 90))
def test_wetter_is_wider(wood, low, high, angle):
    low, high = sorted((low, high))
    assert width_change(100, wood, low, high, angle) >= 0
    assert width_change(100, wood, high, low, angle) <= 0


@given(wood=st.sampled_from(WOODS), start=moistures, end=moistures, flat=st.floats(0, 90), steep=st.floats(0, 90))
def test_quartersawn_moves_least_and_the_angle_goes_between(wood, start, end, flat, steep):
    flat, steep = sorted((flat, steep))
    assert abs(width_change(100, wood, start, end, steep)) <= abs(width_change(100, wood, start, end, flat)) + 1e-12


@given(wood=st.sampled_from(WOODS), start=moistures, end=moistures, angle=st.floats(0, 90))
def test_a_strain_turned_as_a_tensor(wood, start, end, angle):
    """Independent: the diagonal strain tensor is turned by a rotation matrix and its first entry read."""
    one = species(wood)
    if min(start, end) < 6 or max(start, end) > 14:
        return
    turn = np.array([[math.cos(math.radians(angle)), -math.sin(math.radians(angle))],
                     [math.sin(math.radians(angle)), math.cos(math.radians(angle))]])  # fmt: skip
    strain = turn @ np.diag([one.ct, one.cr]) @ turn.T * (end - start)
    assert width_change(1, wood, start, end, angle) == pytest.approx(strain[0, 0], abs=1e-12)


@given(wood=st.sampled_from(WOODS), start=moistures, middle=moistures, end=moistures)
def test_shrinkage_method_is_path_independent(wood, start, middle, end):
    """Outside 6 to 14 % two steps end where one step does."""
    start, middle, end = (15 + mc / 22 * 7 for mc in (start, middle, end))
    there = 1000 + width_change(1000, wood, start, middle)
    assert there + width_change(there, wood, middle, end) == pytest.approx(1000 + width_change(1000, wood, start, end))


@given(
    wood=st.sampled_from(WOODS),
    strips=st.lists(st.tuples(st.floats(10, 300), st.floats(0, 90)), min_size=1, max_size=8),
    start=moistures,
    end=moistures,
)
def test_a_panel_moves_as_much_as_its_strips_together(wood, strips, start, end):
    whole = panel_change([Strip(width, angle) for width, angle in strips], wood, start, end)
    apart = [width_change(width, wood, start, end, angle) for width, angle in strips]
    assert whole == pytest.approx(math.fsum(apart))
    split = [Strip(width / 2, angle) for width, angle in strips for _ in range(2)]
    assert panel_change(split, wood, start, end) == pytest.approx(whole)


def test_arrays_mix_the_methods_and_warn():
    with pytest.warns(BeyondRange):
        changes = width_change(np.array([100.0, 200.0]), "white oak", 8, np.array([10.0, 16.0]))
    assert changes.tolist() == [
        float(width_change(100, "white oak", 8, 10)),
        float(width_change(200, "white oak", 8, 16)),
    ]


def test_the_method_is_said_and_so_is_the_caution():
    assert "13-2" in width_change(100, "white oak", 6, 14).method
    outside = width_change(100, "white oak", 5.99, 14)
    assert "13-3" in outside.method
    assert any("6 to 14" in caution for caution in outside.cautions)
    assert any("memory" in caution for caution in width_change(100, "teak", 8, 9).cautions)
    assert any("computed" in caution for caution in width_change(100, "sapele", 8, 9).cautions)


@pytest.mark.parametrize(
    ("width", "start", "end", "angle", "says"),
    [
        (-1, 8, 9, 0, "Width -1 mm"),
        (float("nan"), 8, 9, 0, "Width nan"),
        (100, 31, 9, 0, r"Moisture 31 % is out of range: it must be from 0 to 30 %.*fibre saturation"),
        (100, 8, -1, 0, "Moisture -1 %"),
        (100, 8, 9, 91, "Ring angle 91 degrees"),
    ],
)
def test_bad_values_are_named_with_their_range(width, start, end, angle, says):
    with pytest.raises(OutOfRangeError, match=says):
        width_change(width, "white oak", start, end, angle)


def test_a_wood_with_lower_fibre_saturation_refuses_earlier():
    with pytest.raises(OutOfRangeError, match="0 to 22 %"):
        width_change(100, "western redcedar", 25, 9)


def test_unknown_wood_and_missing_value():
    with pytest.raises(UnknownSpeciesError, match="white oak"):
        width_change(100, "oak", 8, 9)
    with pytest.raises(OutOfRangeError, match="gray birch"):
        width_change(100, "gray birch", 8, 9)
    assert width_change(100, "gray birch", 8, 9, 90) > 0
    with pytest.raises(OutOfRangeError, match="at least one strip"):
        panel_change([], "white oak", 8, 9)


def test_a_drying_flatsawn_board_goes_hollow_on_the_bark_side():
    assert cup_depth(200, "white oak", 12, 6, 150) > 0
    assert cup_depth(200, "white oak", 6, 12, 150) < 0
    assert cup_depth(200, "white oak", 8, 8, 150) == pytest.approx(0, abs=1e-12)


@given(width=st.floats(50, 300), pith=st.floats(40, 400))
def test_cup_grows_with_width_and_fades_away_from_the_pith(width, pith):
    cup = cup_depth(width, "white oak", 12, 7, pith)
    assert cup_depth(width * 1.1, "white oak", 12, 7, pith) > cup
    assert cup_depth(width, "white oak", 12, 7, pith * 1.1) < cup


def test_cup_of_a_narrow_board_is_the_parabola_of_its_ring_curvature():
    """Independent: for small angles the sagitta is width squared / 8 x (difference of strains) / pith distance x 2."""
    width, pith = 20.0, 400.0
    difference = (12 - 7) * (species("white oak").ct - species("white oak").cr)
    assert cup_depth(width, "white oak", 12, 7, pith) == pytest.approx(width**2 / 4 / pith * difference, rel=0.01)
