"""The clear wood of a face: which marks count."""

import pytest

from shopapi.craft.clear_area import clear_face
from shopapi.craft.grading import GradeMark
from shopapi.craft.marks import Ellipse, Outline, Rect

KNOT = Ellipse(500, 50, 20, 50)
SAP = Outline(((0, 0), (1000, 0), (1000, 30), (0, 30)))


def test_marks_count_on_their_own_face():
    marks = [GradeMark("knot", "A", KNOT)]
    assert clear_face(1000, 100, marks, "B").clear_share == 1
    assert clear_face(1000, 100, marks, "A").rectangles == (Rect(0, 0, 480, 100), Rect(520, 0, 1000, 100))


def test_marks_through_the_board_count_on_both():
    marks = [GradeMark("knot", "A", KNOT, through=True)]
    assert clear_face(1000, 100, marks, "A") == clear_face(1000, 100, marks, "B")


@pytest.mark.parametrize(("kind", "share"), [("sapwood", 1.0), ("figure", 1.0), ("snipe", 1.0), ("stain", 0.7)])
def test_what_counts_as_clear_is_what_grading_says(kind, share):
    """Source: craft.grading.rules, LUMBER-RULES."""
    assert clear_face(1000, 100, [GradeMark(kind, "A", SAP)], "A").clear_share == pytest.approx(share)
