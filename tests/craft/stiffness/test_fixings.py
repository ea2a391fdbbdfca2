"""Screws, tipping and mass against published examples and plain mechanics."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shopapi.craft.limits import OutOfRangeError
from shopapi.craft.species import UnknownSpeciesError, density_kg_m3
from shopapi.craft.stiffness import (
    Drawer,
    MassPart,
    lead_hole_mm,
    piece_mass,
    screw_withdrawal,
    storage_balance,
    table_tip_force,
)
from tests.craft.published import published

TABLE = published("table_standards")
LBF = 4.4482216152605
EXAMPLES = {row["id"]: row for row in TABLE["screw_withdrawal"]["examples"]}


def test_design_commentary_number_ten_screw():
    """Printed 109 lbf per inch (cut off, not rounded) for a No. 10 screw in wood of G 0.45."""
    row = EXAMPLES["W1"]
    per_inch = screw_withdrawal(row["G"], 0.190 * 25.4, 25.4).design_n / LBF
    assert int(per_inch) == row["printed"]
    assert per_inch == pytest.approx(row["W_lbf_per_in"], abs=0.01)


def test_handbook_ultimate_number_ten_screw():
    row = EXAMPLES["W2"]
    ultimate = screw_withdrawal(row["G"], 0.190 * 25.4, 25.4).ultimate_n / LBF
    assert ultimate == pytest.approx(row["ultimate_lbf"], rel=1e-4)


@given(gravity=st.floats(0.2, 1.1), diameter=st.floats(2, 10), thread=st.floats(1, 75))
def test_the_two_equations_differ_five_and_a_half_fold(gravity, diameter, thread):
    holds = screw_withdrawal(gravity, diameter, thread)
    assert holds.ultimate_n / holds.design_n == pytest.approx(5.51, abs=0.01)
    assert screw_withdrawal(gravity, diameter, 2 * thread).design_n == pytest.approx(2 * holds.design_n)


def test_a_species_holds_by_its_gravity():
    oak, pine = screw_withdrawal("white oak", 4.8, 25), screw_withdrawal("eastern white pine", 4.8, 25)
    assert oak.ultimate_n > 3 * pine.ultimate_n
    assert any("end grain" in caution for caution in oak.cautions)


@pytest.mark.parametrize(
    ("wood", "share"), [("white oak", 0.9), ("eastern white pine", 0.7), ("teak", 0.9), ("obeche", 0.7)]
)
def test_lead_holes_of_the_design_commentary(wood, share):
    assert lead_hole_mm(4.0, wood) == pytest.approx(4.0 * share)


@pytest.mark.parametrize("row", TABLE["tipping_examples"], ids=lambda r: r["id"])
def test_worked_tipping_examples(row):
    """Table of 35 kg with a 900 mm top: feet 700 and 600 mm apart."""
    feet = 2 * row["lever_back_mm"]
    assert table_tip_force(35, 900, feet) == pytest.approx(row["tip_force_N"], abs=0.7)


def test_a_table_whose_feet_reach_the_force_cannot_tip():
    assert table_tip_force(35, 800, 700) == float("inf")


def test_an_empty_chest_stands_and_open_drawers_tip_it():
    stands = storage_balance(30, 200)
    assert stands.stands
    tips = storage_balance(30, 200, [Drawer(12, 300), Drawer(12, 300)])
    assert not tips.stands
    assert tips.pull_to_tip_n == 0
    assert any("wall" in caution for caution in stands.cautions)


@given(mass=st.floats(5, 200), back=st.floats(50, 400), height=st.floats(300, 2000))
def test_the_pull_that_tips_is_just_the_pull_that_tips(mass, back, height):
    pull = storage_balance(mass, back, pull_height_mm=height).pull_to_tip_n
    assert storage_balance(mass, back, pull_n=pull * 0.999, pull_height_mm=height).stands
    assert not storage_balance(mass, back, pull_n=pull * 1.001, pull_height_mm=height).stands


def test_drawers_still_behind_the_feet_hold():
    assert storage_balance(30, 200, [Drawer(10, -100)]).holding_nm > storage_balance(30, 200).holding_nm


def test_mass_is_volume_times_density():
    parts = [MassPart("white oak", 1000, 100, 20, 4), MassPart("sugar maple", 500, 200, 19, 2, share=0.5)]
    by_hand = 0.008 * density_kg_m3("white oak", 8) + 0.0019 * density_kg_m3("sugar maple", 8)
    assert piece_mass(parts, 8, hardware_kg=1.5) == pytest.approx(by_hand + 1.5)
    assert any("two people" in caution for caution in piece_mass([MassPart("white oak", 2000, 1000, 40)], 8).cautions)


@pytest.mark.parametrize(
    ("call", "says"),
    [
        (lambda: screw_withdrawal(0.1, 5, 20), "Specific gravity 0.1"),
        (lambda: screw_withdrawal("white oak", 1, 20), "Screw diameter 1"),
        (lambda: screw_withdrawal("white oak", 5, 0), "Thread"),
        (lambda: lead_hole_mm(0, "white oak"), "Root diameter 0"),
        (lambda: lead_hole_mm(3, "albarco"), "offcut"),
        (lambda: table_tip_force(0, 900, 700), "Mass 0"),
        (lambda: table_tip_force(30, 900, 700, 500), "Inset 500"),
        (lambda: storage_balance(30, -1), "Centre of mass"),
        (lambda: storage_balance(30, 100, [Drawer(-1, 100)]), "out of range"),
        (lambda: piece_mass([], 8), "at least one part"),
        (lambda: piece_mass([MassPart("white oak", 0, 1, 1)], 8), "Length 0"),
        (lambda: piece_mass([MassPart("white oak", 1, 1, 1, share=2)], 8), "Share"),
    ],
)
def test_bad_values_are_named(call, says):
    with pytest.raises(OutOfRangeError, match=says):
        call()


def test_an_unknown_wood_is_refused_by_name():
    with pytest.raises(UnknownSpeciesError):
        piece_mass([MassPart("oak", 1, 1, 1)], 8)


def test_a_pull_at_next_to_no_height_tips_nothing():
    assert storage_balance(1, 10, pull_n=5, pull_height_mm=5e-324).pull_to_tip_n == float("inf")
