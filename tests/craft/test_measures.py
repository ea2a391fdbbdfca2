"""Lengths and lumber tallies, against the cases shared with the phone and the published tables."""

import json
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shopapi.craft.limits import OutOfRangeError
from shopapi.craft.measures import (
    MM_PER_FOOT,
    MM_PER_INCH,
    MeasureError,
    board_feet,
    check_length,
    format_as,
    format_length,
    parse_length,
    parse_quarters,
    rough_thickness_mm,
    surface_measure,
    surfaced_thickness_mm,
    volume_board_feet,
)

CASES = json.loads((Path(__file__).parents[1] / "vectors" / "measures.json").read_text(encoding="utf-8"))


@pytest.mark.parametrize("case", CASES["parse"], ids=lambda c: f"{c['text']}-{c['unit']}")
def test_vector_parse(case):
    assert parse_length(case["text"], case["unit"]) == pytest.approx(case["mm"], abs=CASES["tolerance_mm"])


@pytest.mark.parametrize("case", CASES["refuse"], ids=lambda c: f"{c['text'][:12]}-{c['unit']}")
def test_vector_refuse(case):
    with pytest.raises(MeasureError) as refusal:
        parse_length(case["text"], case["unit"])
    assert case["says"] in str(refusal.value)


@pytest.mark.parametrize("case", CASES["print"], ids=lambda c: f"{c['mm']}-{c['unit']}-{c['denominator']}")
def test_vector_print(case):
    assert format_length(case["mm"], case["unit"], case["denominator"], decimals=case["decimals"]) == case["text"]


@given(
    sixtyfourths=st.integers(1, 64 * 12 * 400),
    denominator=st.sampled_from((16, 32, 64)),
    workshop=st.sampled_from(("inch", "metric")),
)
def test_inches_on_the_tape_survive_any_number_of_round_trips(sixtyfourths, denominator, workshop):
    length_mm = sixtyfourths // (64 // denominator) * MM_PER_INCH / denominator
    if length_mm == 0:
        return
    once = parse_length(format_length(length_mm, "inch", denominator), workshop)
    assert once == pytest.approx(length_mm, rel=1e-14)
    assert parse_length(format_length(once, "inch", denominator), workshop) == once


@given(length_mm=st.integers(1, 9_999_999), workshop=st.sampled_from(("inch", "metric")))
def test_whole_millimetres_survive_round_trips(length_mm, workshop):
    assert parse_length(format_length(length_mm, "metric"), workshop) == length_mm


@given(length_mm=st.floats(0.5, 1e6), denominator=st.sampled_from((16, 32)))
def test_printing_is_off_by_at_most_half_a_mark(length_mm, denominator):
    shown = parse_length(format_length(length_mm, "inch", denominator), "inch", zero_ok=True)
    assert abs(shown - length_mm) <= MM_PER_INCH / denominator / 2 * (1 + 1e-6)


@given(text=st.text(max_size=60), unit=st.sampled_from(("inch", "metric")))
def test_any_text_is_read_or_refused_in_words(text, unit):
    try:
        length_mm = parse_length(text, unit)
    except MeasureError:
        return
    assert 0 < length_mm < 10_000_000


@given(sixteenths=st.integers(-16 * 600, 16 * 600), size=st.sampled_from(("in", "ft", "mm", "cm", "m")))
def test_every_unit_is_read_back_to_the_mark_it_was_printed_at(sixteenths, size):
    length_mm = sixteenths * MM_PER_INCH / 16
    shown = format_as(length_mm, size)
    back = parse_length(shown.removeprefix("-"), "inch", zero_ok=True) * (-1 if shown.startswith("-") else 1)
    assert abs(back - length_mm) <= (1e-9 if size in ("in", "ft") else 0.5 + 1e-9)


@pytest.mark.parametrize(
    ("length_mm", "size", "text"),
    [
        (609.6, "ft", "2'"),
        (609.0, "ft", "2'"),
        (19.05, "ft", '3/4"'),
        (628.65, "ft", "2' 3/4\""),
        (0, "ft", '0"'),
        (-755.65, "ft", "-2' 5 3/4\""),
        (755.4, "cm", "75.5 cm"),
        (1200, "m", "1.200 m"),
        (-1, "m", "-0.001 m"),
    ],
)
def test_named_units(length_mm, size, text):
    assert format_as(length_mm, size) == text


def test_a_unit_nobody_knows_is_refused():
    with pytest.raises(MeasureError, match="in, ft, mm, cm or m"):
        format_as(100, "yd")


def test_zero_may_stand_where_an_allowance_may_be_nothing():
    assert parse_length("0", "inch", zero_ok=True) == 0
    with pytest.raises(MeasureError, match="below zero"):
        check_length(-1, zero_ok=True)


@pytest.mark.parametrize("bad", [float("nan"), float("inf"), -3.0, 0, 10_000_000, None, True, "755"])
def test_numbers_that_are_no_length(bad):
    with pytest.raises(MeasureError):
        check_length(bad)


def test_a_denominator_no_tape_has():
    with pytest.raises(MeasureError, match="1/10"):
        format_length(10, "inch", 10)


# Export council guide (read) and importer's page quoting the rules (secondary): tests/tables/lumber.json has the rest.
@pytest.mark.parametrize(
    ("width_in", "length_ft", "measure"),
    [(6.25, 8, 4), (10, 13, 11), (6.25, 8.9, 4)],
    ids=["guide L1", "rules L2", "fraction of a foot dropped"],
)
def test_lumber_rules_surface_measure(width_in, length_ft, measure):
    assert surface_measure(length_ft * MM_PER_FOOT, width_in * MM_PER_INCH) == measure


def test_lumber_rules_board_feet_of_two_inch_board():
    """Export council guide: 6 1/4 in x 8 ft x 2 in tallies 8 board feet."""
    assert board_feet(4, 8) == 8
    assert board_feet(4, 3) == 4, "under 4/4 counts as 4/4"


def test_an_exact_half_of_surface_measure_goes_to_the_even_number():
    assert surface_measure(6 * MM_PER_FOOT, 9 * MM_PER_INCH) == 4  # 4.5
    assert surface_measure(6 * MM_PER_FOOT, 11 * MM_PER_INCH) == 6  # 5.5


def test_a_board_stored_to_the_millimetre_keeps_its_foot():
    assert surface_measure(2438, 305) == 8


@given(length_mm=st.floats(1, 1e4), width_mm=st.floats(1, 1e3), more=st.floats(0, 500))
def test_a_bigger_board_never_measures_less(length_mm, width_mm, more):
    measure = surface_measure(length_mm, width_mm)
    assert surface_measure(length_mm + more, width_mm) >= measure
    assert surface_measure(length_mm, width_mm + more) >= measure


def test_a_cube_foot_holds_twelve_board_feet():
    assert volume_board_feet(MM_PER_FOOT, MM_PER_FOOT, MM_PER_FOOT) == pytest.approx(12, rel=1e-12)


def test_quarters():
    assert parse_quarters(" 8/4 ") == 8
    assert rough_thickness_mm(5) == pytest.approx(31.75)
    for text in ("4", "4/5", "0/4", "40/4", "-4/4"):
        with pytest.raises(MeasureError, match="quarters"):
            parse_quarters(text)
    with pytest.raises(MeasureError, match="No standard"):
        surfaced_thickness_mm(9)
    with pytest.raises(OutOfRangeError, match="more than 0"):
        rough_thickness_mm(0)
