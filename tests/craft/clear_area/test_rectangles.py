"""Clear rectangles against brute force, and the clear share against known areas."""

import itertools
import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from shopapi.craft.clear_area import clear_rectangles, clear_share
from shopapi.craft.grading.clear import maximal_clear_boxes
from shopapi.craft.limits import OutOfRangeError
from shopapi.craft.marks import Ellipse, Line, Outline, Rect


def area(rect):
    return rect.length_mm * rect.width_mm


def apart(a, b):
    return not (a.x0_mm < b.x1_mm and a.x1_mm > b.x0_mm and a.y0_mm < b.y1_mm and a.y1_mm > b.y0_mm)


@st.composite
def faces(draw):
    """Small faces with marks on whole millimetres, some of them over the edge."""
    length, width = draw(st.integers(1, 9)), draw(st.integers(1, 6))
    marks = draw(
        st.lists(
            st.tuples(st.integers(-1, length), st.integers(-1, width), st.integers(1, 3), st.integers(1, 2)), max_size=6
        )
    )
    return length, width, [Rect(x, y, x + run, y + rise) for x, y, run, rise in marks]


def largest_by_brute_force(length, width, blocked):
    spans = itertools.product(itertools.combinations(range(length + 1), 2), itertools.combinations(range(width + 1), 2))
    boxes = [Rect(x0, y0, x1, y1) for (x0, x1), (y0, y1) in spans]
    return max((area(box) for box in boxes if all(apart(box, mark) for mark in blocked)), default=0)


@settings(max_examples=300)
@given(face=faces(), most=st.integers(0, 4))
def test_each_rectangle_is_the_largest_that_is_left(face, most):
    length, width, blocked = face
    found = clear_rectangles(length, width, blocked, most=most)
    kept = list(blocked)
    for rect in found:
        assert all(apart(rect, other) for other in kept)
        assert 0 <= rect.x0_mm < rect.x1_mm <= length
        assert 0 <= rect.y0_mm < rect.y1_mm <= width
        assert area(rect) == largest_by_brute_force(length, width, kept)
        kept.append(rect)
    assert len(found) == most or largest_by_brute_force(length, width, kept) == 0


@given(
    marks=st.lists(
        st.builds(Ellipse, st.floats(0, 2400), st.floats(0, 200), st.floats(2, 90), st.floats(2, 40)), max_size=12
    )
)
def test_the_largest_agrees_with_the_boxes_that_grading_cuts_from(marks):
    """Two independent ways to the same answer: skyline here, slab by slab there."""
    boxes = [(m.cx_mm - m.rx_mm, m.cy_mm - m.ry_mm, m.cx_mm + m.rx_mm, m.cy_mm + m.ry_mm) for m in marks]
    maximal = maximal_clear_boxes(2400, 200, boxes, (0, 0, 0, 0))
    best = max(((x1 - x0) * (y1 - y0) for x0, y0, x1, y1 in maximal), default=0.0)
    found = clear_rectangles(2400, 200, marks, most=1)
    assert (area(found[0]) if found else 0.0) == pytest.approx(best)


def test_a_clear_face_is_one_rectangle():
    assert clear_rectangles(2400, 200, []) == (Rect(0, 0, 2400, 200),)


def test_too_small_pieces_are_not_told():
    flaws = [Rect(100, 0, 900, 200)]
    assert clear_rectangles(1000, 200, flaws, least_mm=(150, 50)) == ()
    assert clear_rectangles(1000, 200, flaws, least_mm=(100, 50)) == (Rect(0, 0, 100, 200), Rect(900, 0, 1000, 200))


def test_a_face_all_covered_has_none():
    assert clear_rectangles(500, 100, [Rect(-5, -5, 505, 105)]) == ()
    assert clear_share(500, 100, [Rect(-5, -5, 505, 105)]) == 0


@pytest.mark.parametrize(("length", "width", "most"), [(0, 100, 1), (100, float("nan"), 1), (100, 100, -1)])
def test_sizes_that_cannot_be_are_refused(length, width, most):
    with pytest.raises(OutOfRangeError):
        clear_rectangles(length, width, [], most=most)


@pytest.mark.parametrize(
    ("flaw", "covered_mm2"),
    [
        (Ellipse(500, 100, 30, 20), math.pi * 600),
        (Ellipse(0, 100, 30, 20), math.pi * 300),
        (Line(((0, 100), (200, 100)), 4.0), 200 * 4 + math.pi * 2),  # rounded ends, one of them off the face
        (Outline(((0, 0), (100, 0), (0, 100))), 5000),
        (Outline(((0, 0), (100, 100), (100, 0), (0, 100))), 5000),  # crosses itself: both loops are covered
        (Rect(950, 150, 1100, 300), 50 * 50),
    ],
)
def test_the_share_is_what_geometry_says(flaw, covered_mm2):
    assert clear_share(1000, 200, [flaw, flaw]) == pytest.approx(1 - covered_mm2 / 200_000, abs=2e-5)


@given(face=faces())
def test_the_share_counts_cells(face):
    length, width, blocked = face
    cells = np.ones((width, length), bool)
    for mark in blocked:
        rows = slice(max(0, mark.y0_mm), max(0, mark.y1_mm))
        cells[rows, max(0, mark.x0_mm) : max(0, mark.x1_mm)] = False
    assert clear_share(length, width, blocked) == pytest.approx(cells.mean())
