"""What cannot be worked with is refused by field, value and range, in the maker's words and units."""

from collections.abc import Callable
from typing import Any

import pytest

from shopapi.workings.spoken import Tape, retold
from tests.conftest import Person
from tests.workings.conftest import Answer

WIDTH = {"species": "white oak", "width_mm": 300, "mc_from_pct": 8, "mc_to_pct": 11}
GLUE_UP = {"edges": 4, "edge_length_mm": 1500, "clamps": 8}


@pytest.mark.parametrize(
    ("key", "inputs", "field", "words"),
    [
        ("wood_in_air", {"temp_c": 20, "rh_pct": 101}, "rh_pct",
         "Humidity 101 % is out of range: it must be from 0 % to 100 %"),
        ("wood_in_air", {"temp_c": 20, "rh_pct": -1}, "rh_pct", "Humidity -1 %"),
        ("wood_in_air", {"temp_c": 500, "rh_pct": 50}, "temp_c", "Air 500 °C is out of range"),
        ("air_for_wood", {"mc_pct": 29.5}, "mc_pct", "in air the wood reaches at most"),
        ("width_change", {**WIDTH, "mc_to_pct": 35}, "mc_to_pct", "Above that (fibre saturation) wood no longer moves"),
        ("width_change", {**WIDTH, "species": "western redcedar", "mc_from_pct": 25}, "mc_from_pct", "from 0 to 22 %"),
        ("width_change", {**WIDTH, "width_mm": -300}, "width_mm", "Width across the grain -300 mm is out of range"),
        ("width_change", {**WIDTH, "width_mm": 0}, "width_mm", "it must be more than 0 and at most 20000 mm"),
        ("width_change", {**WIDTH, "width_mm": "-3"}, "width_mm", "below zero"),
        ("width_change", {**WIDTH, "width_mm": "wide"}, "width_mm", '"wide" is not a length'),
        ("width_change", {**WIDTH, "width_mm": True}, "width_mm", "must be a number"),
        ("width_change", {**WIDTH, "width_mm": [300]}, "width_mm", "must be a number"),
        ("width_change", {**WIDTH, "mc_to_pct": "damp"}, "mc_to_pct", '"damp" is not a number'),
        ("width_change", {**WIDTH, "species": "wight oak"}, "species", "Did you mean white oak"),
        ("width_change", {**WIDTH, "species": ""}, "species", "Wood is missing"),
        ("width_change", {**WIDTH, "width": 300}, "width", "Asked: species, width_mm"),
        ("width_year", {"species": "white oak", "width_mm": 900, "rh_dry_pct": 60, "rh_damp_pct": 40}, "rh_dry_pct",
         "Swap them"),
        ("width_year", {"species": "albarco", "width_mm": 900, "thickness_mm": 20}, "species", "specific gravity"),
        ("width_year", {"species": "western redcedar", "width_mm": 900, "rh_damp_pct": 99}, "rh_damp_pct",
         "western redcedar's fibre saturation"),
        ("acclimation", {"species": "white oak", "thickness_mm": 25, "rh_pct": 2}, "rh_pct", "from 2 to 28 %"),
        ("leg_splay", {"height_mm": 700, "rake_deg": 10, "splay_deg": 90}, "splay_deg",
         "Splay, seen from the front 90° is out of range: it must be from 0° to 75°"),
        ("half_lap", {"width_mm": 60, "other_width_mm": 60, "thickness_mm": 24, "crossing_deg": 5}, "crossing_deg",
         "They cross at 5°"),
        ("taper", {"length_mm": 500, "from_mm": 25, "to_mm": 45}, "to_mm", "from 25 mm to 45 mm. Swap them"),
        ("sloping_box", {"sides": 4.5, "slope_deg": 80}, "sides", "4.5 is not a whole number"),
        ("glue_time", {**GLUE_UP, "clamps": 0}, "clamps", "Clamps to set 0 is out of range: it must be from 1 to 100"),
        ("glue_time", {**GLUE_UP, "temp_c": 5}, "temp_c", "wood, glue and air need 10 °C or more"),
        ("glue_time", {**GLUE_UP, "clamps": 60}, "edge_length_mm", "One edge of 1500 mm with 60 clamps takes longer"),
        ("glue_time", {**GLUE_UP, "glue": "flour"}, "glue", "Choose from: yellow"),
        ("breadboard_end", {"species": "white oak", "width_mm": 600, "outer_pin_mm": 400}, "outer_pin_mm",
         "at most half the width, 300 mm"),
        ("shelf_sag", {"species": "apple", "span_mm": 900, "width_mm": 250, "thickness_mm": 19}, "species",
         "No stiffness is published for apple"),
        ("shelf_sag", {"species": "white oak", "span_mm": 900, "width_mm": 250, "thickness_mm": 19, "point_at_mm": 950},
         "point_at_mm", "from 0 to the span, 900 mm"),
        ("quarters", {"thickness": "7/4", "sides": "1"}, "thickness", "Listed: 2"),
        ("grits", {"start_grit": "220", "final_grit": "100"}, "final_grit", "coarser"),
        ("grit_scales", {"scale": "P", "grit": 321}, "grit", "There is no grit P 321"),
        ("milling_plan", {"rough_mm": 20, "finished_mm": 20}, "rough_mm", "too little over 20 mm"),
        ("finish_quantity", {"area_m2": 0}, "area_m2", "Surface, all faces coated 0 m²"),
        ("finish_quantity", {"area_m2": 4, "coats": 0}, "coats", "Coats 0 is out of range: it must be from 1 to 20"),
        ("mass", {}, "length_mm", "Length is missing"),
    ],
)  # fmt: skip
def test_refusal_names_field_value_and_range(
    key: str, inputs: dict[str, Any], field: str, words: str, refused: Callable[..., dict[str, str]]
) -> None:
    errors = refused(key, **inputs)
    assert words in errors[field]


def test_every_field_that_is_wrong_is_named_at_once(refused: Callable[..., dict[str, str]]) -> None:
    assert set(refused("width_change", width_mm=-1, mc_from_pct=99)) == {
        "species",
        "width_mm",
        "mc_from_pct",
        "mc_to_pct",
    }


def test_a_refusal_speaks_the_workshops_units(stranger: Person, refused: Callable[..., dict[str, str]]) -> None:
    """The stranger's shop measures in inches."""
    errors = refused("table_tip", stranger, mass_kg=9000, top_mm=99_999, feet_mm='27 1/2"')
    assert "19841.6 lb is out of range" in errors["mass_kg"]
    assert '3936 15/16" is out of range' in errors["top_mm"]
    assert "feet_mm" not in errors
    assert "°F" in refused("glue_time", stranger, edges=1, edge_length_mm=100, clamps=2, temp_c=99)["temp_c"]


def test_lengths_are_read_as_typed_in_the_workshops_units(maker: Person, stranger: Person) -> None:
    body = {**WIDTH, "width_mm": "29 3/4"}
    (width,) = [
        asked["value"]
        for asked in stranger.client.post("/api/craft/width_change/", body, format="json").json()["inputs"]
        if asked["name"] == "width_mm"
    ]
    assert width == pytest.approx(755.65)
    refusal = maker.client.post("/api/craft/width_change/", body, format="json")
    assert refusal.status_code == 400
    assert "inches" in refusal.json()["errors"]["width_mm"][0]
    assert maker.client.post(
        "/api/craft/width_change/", {**WIDTH, "width_mm": "75,5 cm"}, format="json"
    ).json()["inputs"][1]["value"] == pytest.approx(755)  # fmt: skip


def test_inputs_come_back_as_they_were_read_with_the_defaults_that_stood_in(work_out: Callable[..., Answer]) -> None:
    asked = {one["name"]: one for one in work_out("width_change", **{**WIDTH, "species": "Hard Maple"}).body["inputs"]}
    assert asked["species"]["text"] == "sugar maple"
    assert (asked["ring_angle_deg"]["value"], asked["ring_angle_deg"]["unit"]) == (0, "degrees")
    assert asked["width_mm"]["kind"] == "length"
    assert "point_at_mm" not in {one["name"] for one in _shelf(work_out).body["inputs"]}, "left empty, left out"


def _shelf(work_out: Callable[..., Answer]) -> Answer:
    return work_out("shelf_sag", species="white oak", span_mm=900, width_mm=250, thickness_mm=19)


@pytest.mark.parametrize(
    ("key", "inputs", "words"),
    [
        ("width_change", {**WIDTH, "mc_to_pct": 4}, "outside 6 to 14 %"),
        ("wood_in_air", {"temp_c": 20, "rh_pct": 97}, "Above 95 % RH"),
        ("wood_in_air", {"temp_c": -20, "rh_pct": 50}, "was not checked"),
        ("warmed_air", {"outdoor_c": -5, "outdoor_rh_pct": 80}, "over ice"),
        ("coat_times", {"finish": "oil_urethane", "temp_c": 5}, "warm the shop"),
        ("coat_times", {"finish": "drying_oil"}, "catch fire by themselves"),
        ("finish_quantity", {"finish": "oil_urethane", "area_m2": 4}, "catch fire by themselves"),
        ("shelf_sag", {"species": "white oak", "span_mm": 200, "width_mm": 50, "thickness_mm": 50}, "shear"),
        ("mass", {"species": "white oak", "length_mm": 2000, "width_mm": 1000, "thickness_mm": 40}, "two people"),
        ("chest_tip", {"mass_kg": 30, "behind_mm": 200}, "wall"),
        ("milling_plan", {"rough_mm": 27, "finished_mm": 20}, "Guards on"),
        ("grits", {"start_grit": "120", "final_grit": "220"}, "dust harms lungs"),
        ("width_year", {"species": "white oak", "width_mm": 900, "thickness_mm": 22, "finish": "hardwax_oil"},
         "taken as bare"),
        ("screw_slot", {"species": "white oak", "distance_mm": 400, "mc_built_pct": 13}, "that day counts"),
    ],
)  # fmt: skip
def test_cautions_travel_with_the_answer(
    key: str, inputs: dict[str, Any], words: str, work_out: Callable[..., Answer]
) -> None:
    assert words in " ".join(work_out(key, **inputs).body["cautions"])


def test_what_has_no_number_is_said_in_words(work_out: Callable[..., Answer]) -> None:
    """No infinite number leaves the service: JSON has none."""
    stable = work_out("table_tip", mass_kg=35, top_mm=800, feet_mm=790)
    assert "cannot tip" in stable["Pressed there it"]
    assert "Pull that tips it, at that height" not in {
        line["label"] for line in work_out("chest_tip", mass_kg=30, behind_mm=200).body["lines"]
    }
    assert work_out("wood_facts", species="albarco")["Specific gravity at 12 %"] == "not published"


def test_unknown_working_and_a_body_that_is_no_object(maker: Person) -> None:
    missing = maker.client.post("/api/craft/flying/", {}, format="json")
    assert (missing.status_code, missing["Content-Type"]) == (404, "application/problem+json")
    assert "/api/craft/" in missing.json()["detail"]
    listed = maker.client.post("/api/craft/width_change/", [1, 2], format="json")
    assert listed.status_code == 400
    assert "by name" in listed.json()["detail"]


@pytest.mark.parametrize("text", ['{"width_mm": NaN}', '{"width_mm": Infinity}', '{"width_mm": 1e999}'])
def test_numbers_that_are_none(text: str, maker: Person) -> None:
    answer = maker.client.generic("POST", "/api/craft/width_change/", text, content_type="application/json")
    assert answer.status_code == 400


@pytest.mark.parametrize(
    ("sentence", "in_inches"),
    [
        ("Guards on, pieces over 300 mm long.", 'Guards on, pieces over 11 13/16" long.'),
        ("Beyond -1 to 132 °C it was not checked.", "Beyond 30.2 °F to 269.6 °F it was not checked."),
        ("0.5 mm is enough.", '0.02" is enough.'),
        ("Times at 20 °C (68 °F).", "Times at 20 °C (68 °F)."),
        ("Force is 200 N/mm2, 5 kg each.", "Force is 200 N/mm2, 11 lb each."),
    ],
)
def test_sentences_of_craft_in_an_inch_shop(sentence: str, in_inches: str) -> None:
    assert retold(sentence, Tape("inch")) == in_inches
    assert retold(sentence, Tape("metric")) == sentence
