"""Grades against the published rules and worked examples, and what must hold for any board."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shopapi.craft.grading import GradeMark, grade
from shopapi.craft.grading.rules import FAS, ONE_COMMON, TWO_A_COMMON
from shopapi.craft.limits import OutOfRangeError
from shopapi.craft.marks import Ellipse, Line, Outline
from shopapi.craft.measures import MM_PER_FOOT, MM_PER_INCH, board_feet, surface_measure, surfaced_thickness_mm
from tests.craft.published import published

TABLE = published("lumber_grades")
RULES = {"FAS": FAS, "1C": ONE_COMMON, "2A": TWO_A_COMMON}
ORDER = ("below 2A Common", "2A Common", "1 Common", "Selects", "F1F", "FAS")
IN, FT = MM_PER_INCH, MM_PER_FOOT


def inches(text):
    whole, _, part = text.rpartition("-")
    return float(Fraction(part) + int(whole or 0))


def spot(x_ft, y_in, length_in=1.0, width_in=1.0, kind="knot", face="A", through=False):
    shape = Ellipse(x_ft * FT, y_in * IN, length_in * IN / 2, width_in * IN / 2)
    return GradeMark(kind, face, shape, through)


def patch(x0_ft, y0_in, x1_ft, y1_in, kind="stain", face="A"):
    x0, y0, x1, y1 = x0_ft * FT, y0_in * IN, x1_ft * FT, y1_in * IN
    return GradeMark(kind, face, Outline(((x0, y0), (x1, y0), (x1, y1), (x0, y1))))


@pytest.mark.parametrize("row", TABLE["cuts_and_units_by_SM"], ids=lambda r: f"SM{r['SM']}")
@pytest.mark.parametrize("name", RULES)
def test_grade_chart_cuttings_and_units(name, row):
    expected, offers = row[name], RULES[name].offers(row["SM"])
    assert offers[0] == (expected["cuts"], expected["units"])
    assert (len(offers) == 2) == expected["extra_cut"]
    if expected["extra_cut"]:
        assert offers[1] == (expected["cuts"] + 1, expected["units_if_extra_cut_used"])


@pytest.mark.parametrize("row", TABLE["thickness_S2S_in"], ids=lambda r: r["rough"])
def test_surfaced_two_sides_table(row):
    assert surfaced_thickness_mm(4 * float(Fraction(row["rough"]))) == pytest.approx(inches(row["S2S"]) * IN, abs=1e-9)


@pytest.mark.parametrize("row", TABLE["thickness_S1S_in"], ids=lambda r: r["rough"])
def test_surfaced_one_side_table(row):
    surfaced = surfaced_thickness_mm(4 * float(Fraction(row["rough"])), sides=1)
    assert surfaced == pytest.approx(inches(row["S1S"]) * IN, abs=1e-9)


def test_export_council_guide_example_l1():
    measure = surface_measure(8 * FT, 6.25 * IN)
    assert (measure, board_feet(measure, 8)) == (4, 8)


def test_importers_example_l2():
    assert surface_measure(13 * FT, 10 * IN) == 11


def test_worked_example_l3_meets_the_fas_yield_exactly():
    """6 in x 8 ft, one clear cutting 6 in x 6 ft 8 in: 40 of 40 units in the one cutting allowed."""
    ends = [patch(80 / 12, 0, 8, 6, face=face) for face in "AB"]
    result = grade(8 * FT, 6 * IN, ends)
    assert result.grade == "FAS"
    assert (result.surface_measure_sqft, result.face_a.cuts_allowed) == (4, 1)
    assert result.face_a.units_found == pytest.approx(40, abs=1e-6)
    short = grade(8 * FT, 6 * IN, [*ends, patch(79.9 / 12, 0, 8, 6)])
    assert short.grade != "FAS"


def test_worked_example_l4_reaches_one_common_and_is_too_narrow_for_fas():
    """5 in x 10 ft, one clear cutting 5 in x 6 ft 6 in: 32.5 of 32 units."""
    result = grade(10 * FT, 5 * IN, [patch(6.5, 0, 10, 5, face=face) for face in "AB"])
    assert result.grade == "1 Common"
    assert (result.face_a.units_needed, result.face_a.cuts_allowed) == (32, 1)
    assert result.face_a.units_found == pytest.approx(32.5)
    clear = grade(10 * FT, 5 * IN)
    assert clear.grade == "Selects"
    assert any("6 in x 8 ft" in reason for reason in clear.why_not_better)


@pytest.mark.parametrize(
    ("width_in", "length_ft", "best"),
    [(6, 8, "FAS"), (5.9, 8, "Selects"), (6, 7.9, "Selects"), (4, 6, "Selects"), (3, 4, "1 Common"), (2.9, 4, None)],
)
def test_least_boards_of_the_chart_when_all_is_clear(width_in, length_ft, best):
    assert grade(length_ft * FT, width_in * IN).grade == (best or "below 2A Common")


def test_one_good_face_and_one_common_face_is_f1f_or_selects():
    """The poorer face decides, except that a FAS face over a 1 Common face has grades of its own."""
    rough_face = [spot(x, 3, 1, 6, face="B", kind="stain") for x in (3.2, 6.5, 9.8)]
    assert grade(12 * FT, 6 * IN, rough_face).grade == "F1F"
    assert grade(12 * FT, 5 * IN, rough_face).grade == "Selects"
    both = rough_face + [spot(x, 3, 1, 6, kind="stain") for x in (3.2, 6.5, 9.8)]
    assert grade(12 * FT, 6 * IN, both).grade == "1 Common"


def test_yield_enough_but_one_knot_too_large_is_no_fas():
    """A board can reach the FAS yield and not be FAS: knots over a third of the surface measure in inches."""
    board = (12 * FT, 10 * IN)
    assert grade(*board, [spot(0.2, 5, 3, 3)]).grade == "FAS"
    result = grade(*board, [spot(0.2, 5, 4, 4)])
    assert result.grade == "F1F"
    assert any("knot" in reason for reason in grade(*board, [spot(0.2, 5, 4, 4, through=True)]).why_not_better)


@pytest.mark.parametrize(
    ("mark", "says"),
    [
        (patch(0, 0, 6.5, 0.2, "wane"), "wane"),
        (GradeMark("split", "A", Line(((0, 127), (2.2 * FT, 127)), 1.0)), "splits"),
        (GradeMark("split", "A", Line(((0, 120), (100, 130)), 1.0)), "1 in 12"),
        (GradeMark("pith", "A", Line(((0, 2), (11 * IN, 2)), 1.0)), "pith"),
        (patch(0, 0, 0.9, 3, "wane"), "first foot"),
    ],
    ids=lambda value: value if isinstance(value, str) else value.kind,
)
def test_fas_limits_beside_its_yield(mark, says):
    result = grade(12 * FT, 10 * IN, [mark])
    assert result.face_a.grade != "FAS"
    assert any(says in reason for reason in result.face_a.why_not_better)


def test_two_full_width_cuttings_of_97_percent():
    """6 to 12 surface measure: a short full-width piece counts that no table cutting could be."""
    board = (12 * FT, 6 * IN)
    mark = patch(2.0, 0, 2.2, 6)  # a clear end of 2 ft is too short for a FAS cutting of the table
    result = grade(*board, [mark])
    assert result.face_a.grade == "FAS"
    assert result.face_a.units_needed == pytest.approx(11.64 * 6)


def test_the_reverse_of_a_cutting_must_be_sound():
    """A knot on the other face may be sound; wane is not."""
    board = (8 * FT, 6 * IN)
    assert grade(*board, [spot(4, 3, 2, 2, face="B")]).face_a.grade == "FAS"
    assert grade(*board, [patch(3.5, 0, 4.5, 2, "wane", face="B")]).face_a.grade != "FAS"


@pytest.mark.parametrize("kind", ["sapwood", "figure", "snipe"])
def test_what_counts_as_clear(kind):
    assert grade(8 * FT, 6 * IN, [spot(4, 3, 20, 5, kind=kind, through=True)]).grade == "FAS"


def test_the_cuttings_prove_the_grade():
    marks = [spot(x, y, 2, 2, through=True) for x, y in ((2, 2), (5, 6), (8, 3), (11, 7))]
    result = grade(12 * FT, 9 * IN, marks)
    face = result.face_a
    assert len(face.cuttings) <= face.cuts_allowed
    assert face.units_found >= face.units_needed - 1e-6
    for box in face.cuttings:
        for mark in marks:
            assert not (box[0] < mark.box[2] and box[2] > mark.box[0] and box[1] < mark.box[3] and box[3] > mark.box[1])


@st.composite
def boards(draw):
    length, width = draw(st.floats(4 * FT, 14 * FT)), draw(st.floats(3 * IN, 12 * IN))
    marks = [
        GradeMark(
            draw(st.sampled_from(("knot", "wane", "split", "stain", "worm_holes", "pith"))),
            draw(st.sampled_from("AB")),
            Ellipse(
                draw(st.floats(0, length)), draw(st.floats(0, width)), draw(st.floats(2, 150)), draw(st.floats(2, 40))
            ),
            draw(st.booleans()),
        )
        for _ in range(draw(st.integers(0, 9)))
    ]
    return length, width, marks


@given(board=boards(), which=st.integers(0, 8), growth=st.floats(1, 3))
def test_a_grade_never_improves_when_a_mark_is_added_or_grows(board, which, growth):
    length, width, marks = board
    result = grade(length, width, marks)
    if not marks:
        return
    which %= len(marks)
    without = grade(length, width, marks[:which] + marks[which + 1 :])
    one = marks[which]
    shape = Ellipse(one.shape.cx_mm, one.shape.cy_mm, one.shape.rx_mm * growth, one.shape.ry_mm * growth)
    grown = grade(
        length, width, [*marks[:which], GradeMark(one.kind, one.face, shape, one.through), *marks[which + 1 :]]
    )
    assert result.proved
    assert ORDER.index(without.grade) >= ORDER.index(result.grade) >= ORDER.index(grown.grade)


@given(board=boards())
def test_turning_the_board_over_or_round_changes_nothing(board):
    length, width, marks = board
    over = [GradeMark(m.kind, "B" if m.face == "A" else "A", m.shape, m.through) for m in marks]
    turned = [
        GradeMark(
            m.kind, m.face, Ellipse(length - m.shape.cx_mm, m.shape.cy_mm, m.shape.rx_mm, m.shape.ry_mm), m.through
        )
        for m in marks
    ]
    assert {grade(length, width, marks).grade} == {grade(length, width, over).grade, grade(length, width, turned).grade}


@pytest.mark.parametrize(
    ("call", "says"),
    [
        (lambda: grade(0, 100), "Length 0"),
        (lambda: grade(1000, -5), "Width -5"),
        (lambda: grade(float("nan"), 100), "Length nan"),
        (lambda: grade(1000, 100, [spot(1, 1, kind="burl")]), "no kind of mark"),
    ],
)
def test_bad_values_are_named(call, says):
    with pytest.raises(OutOfRangeError, match=says):
        call()
