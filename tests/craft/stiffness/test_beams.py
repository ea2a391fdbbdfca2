"""Sag against the beam equation solved numerically, and against the textbook coefficients."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from shopapi.craft.limits import OutOfRangeError
from shopapi.craft.species import density_kg_m3
from shopapi.craft.stiffness import sag, stiffness_at_moisture
from shopapi.craft.stiffness.beams import _point_sag, _spread_sag

G = 9.80665


def beam_sag(span, loads, ends, pieces=400):
    """Greatest sag times EI: Hermite beam elements, loads as nodal forces [N] by place."""
    size, nodes = span / pieces, pieces + 1
    six, four, two = 6 * size, 4 * size**2, 2 * size**2
    element = np.array([[12, six, -12, six], [six, four, -six, two], [-12, -six, 12, -six], [six, two, -six, four]])
    element = element / size**3
    stiffness, force = np.zeros((2 * nodes, 2 * nodes)), np.zeros(2 * nodes)
    for piece in range(pieces):
        place = slice(2 * piece, 2 * piece + 4)
        stiffness[place, place] += element
    for node, load in loads.items():
        force[2 * node] += load
    held = {0, 2 * pieces} | ({1, 2 * pieces + 1} if ends == "fixed" else set())
    free = [index for index in range(2 * nodes) if index not in held]
    moved = np.zeros(2 * nodes)
    moved[free] = np.linalg.solve(stiffness[np.ix_(free, free)], force[free])
    return moved[0::2].max()


@pytest.mark.parametrize("ends", ["resting", "fixed"])
@pytest.mark.parametrize("node", [200, 120, 60, 310])
def test_point_load_against_beam_elements(ends, node):
    span = 900.0
    assert _point_sag(100, span, span * node / 400, ends) == pytest.approx(beam_sag(span, {node: 100}, ends), rel=1e-4)


@pytest.mark.parametrize("ends", ["resting", "fixed"])
def test_even_load_against_beam_elements(ends):
    span, pieces = 900.0, 400
    loads = dict.fromkeys(range(1, pieces), 100 / pieces)
    assert _spread_sag(100, span, ends) == pytest.approx(beam_sag(span, loads, ends), rel=1e-4)


def test_textbook_coefficients():
    """Any strength-of-materials text: 5/384 and 1/384 for even loads, 1/48 and 1/192 for a load at the middle."""
    assert _spread_sag(384, 1, "resting") == 5
    assert _spread_sag(384, 1, "fixed") == 1
    assert _point_sag(48, 1, 0.5, "resting") == pytest.approx(1)
    assert _point_sag(192, 1, 0.5, "fixed") == pytest.approx(1)


def test_a_bare_shelf_sags_under_its_own_weight():
    own_n = density_kg_m3("sugar maple", 8) * 0.9 * 0.25 * 0.019 * G
    rigidity = stiffness_at_moisture("sugar maple", 8) * 1000 * 250 * 19**3 / 12
    assert sag(900, 250, 19, "sugar maple").at_once_mm == pytest.approx(5 * own_n * 900**3 / 384 / rigidity)


@given(span=st.floats(300, 2000), width=st.floats(50, 600), thickness=st.floats(10, 60), load=st.floats(1, 100))
def test_thicker_and_shorter_is_stiffer(span, width, thickness, load):
    one = sag(span, width, thickness, "white oak", load)
    assert sag(span, width, thickness * 1.1, "white oak", load).lasting_mm < one.lasting_mm
    assert sag(span * 1.1, width, thickness, "white oak", load).lasting_mm > one.lasting_mm
    assert sag(span, width, thickness, "white oak", load, ends="fixed").lasting_mm < one.lasting_mm
    assert one.lasting_mm == pytest.approx(2 * one.at_once_mm)


@given(at=st.floats(0, 900))
def test_a_load_at_the_middle_sags_most(at):
    middle = sag(900, 250, 19, "white oak", point_load_kg=20)
    assert sag(900, 250, 19, "white oak", point_load_kg=20, point_at_mm=at).at_once_mm <= middle.at_once_mm + 1e-9
    mirrored = sag(900, 250, 19, "white oak", point_load_kg=20, point_at_mm=900 - at).at_once_mm
    assert mirrored == pytest.approx(sag(900, 250, 19, "white oak", point_load_kg=20, point_at_mm=at).at_once_mm)


def test_dry_wood_is_stiffer():
    assert stiffness_at_moisture("white oak", 12) == pytest.approx(12.27)
    assert stiffness_at_moisture("white oak", 6) > stiffness_at_moisture("white oak", 12)


def test_what_the_eye_makes_of_it_and_where_the_formula_ends():
    assert sag(600, 250, 25, "white oak").verdict == "hardly seen"
    soft = sag(3000, 200, 10, "white oak", 50)
    assert soft.verdict == "too soft"
    assert any("tenth of the span" in caution for caution in soft.cautions)
    assert any("shear" in caution for caution in sag(200, 50, 50, "white oak").cautions)
    assert any("memory" in caution for caution in sag(900, 250, 19, "teak").cautions)


@pytest.mark.parametrize(
    ("call", "says"),
    [
        (lambda: sag(0, 250, 19, "white oak"), "Span 0"),
        (lambda: sag(900, 250, -19, "white oak"), "Thickness -19"),
        (lambda: sag(900, 250, 19, "white oak", -5), "Spread load -5"),
        (lambda: sag(900, 250, 19, "white oak", point_load_kg=5, point_at_mm=901), "Place of the load 901"),
        (lambda: sag(900, 250, 19, "white oak", mc_pct=25), "Moisture 25"),
        (lambda: sag(900, 250, 19, "white oak", ends="hinged"), "resting or fixed"),
        (lambda: sag(900, 250, 19, "apple"), "No stiffness"),
    ],
)
def test_bad_values_are_named(call, says):
    with pytest.raises(OutOfRangeError, match=says):
        call()
