"""The search for cuttings against brute force, and what any answer must be."""

import itertools

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from shopapi.craft.grading.clear import maximal_clear_boxes
from shopapi.craft.grading.cuttings import find_cuttings

SIZES = (((1, 1),), ((1, 2),), ((2, 2), (1, 3)), ((2, 1),))
small = st.tuples(st.integers(3, 8), st.integers(2, 5))


def apart(a, b):
    return not (a[0] < b[2] and a[2] > b[0] and a[1] < b[3] and a[3] > b[1])


def area(box):
    return (box[2] - box[0]) * (box[3] - box[1])


def large(box, sizes):
    return any(box[3] - box[1] >= width and box[2] - box[0] >= length for width, length in sizes)


def best_by_brute_force(length, width, blocked, most, sizes):
    """Marks and sizes are whole, so some best answer is whole too: every whole rectangle is tried."""
    spans = itertools.product(itertools.combinations(range(length + 1), 2), itertools.combinations(range(width + 1), 2))
    boxes = [(x0, y0, x1, y1) for (x0, x1), (y0, y1) in spans]
    boxes = [box for box in boxes if large(box, sizes) and all(apart(box, mark) for mark in blocked)]
    boxes.sort(key=area, reverse=True)

    def grow(start, chosen, total, left):
        best = total
        for index in range(start, len(boxes)) if left else ():
            if total + left * area(boxes[index]) <= best:
                break
            if all(apart(boxes[index], other) for other in chosen):
                more = grow(index + 1, [*chosen, boxes[index]], total + area(boxes[index]), left - 1)
                best = max(best, more)
        return best

    return grow(0, [], 0, most)


@st.composite
def faces(draw):
    length, width = draw(small)
    marks = draw(
        st.lists(st.tuples(st.integers(0, length - 1), st.integers(0, width - 1), st.integers(1, 2)), max_size=5)
    )
    return length, width, [(x, y, x + run, y + 1) for x, y, run in marks]


@settings(max_examples=150)
@given(face=faces(), most=st.integers(1, 4), sizes=st.sampled_from(SIZES))
def test_the_search_finds_what_brute_force_finds_and_no_more(face, most, sizes):
    length, width, blocked = face
    best = best_by_brute_force(length, width, blocked, most, sizes)
    boxes = maximal_clear_boxes(length, width, blocked, (0, 0, 1, 1))
    if best:
        found = find_cuttings(boxes, most, best, sizes, steps=10**6).boxes
        assert sum(map(area, found)) >= best - 1e-6
        assert len(found) <= most
        assert all(large(box, sizes) for box in found)
        assert all(apart(box, mark) for box in found for mark in blocked)
        assert all(apart(a, b) for a, b in itertools.combinations(found, 2))
    refused = find_cuttings(boxes, most, best + 0.5, sizes, steps=10**6)
    assert refused.boxes is None
    assert refused.proved


def test_four_cuttings_round_a_knot_like_the_vanes_of_a_windmill():
    """No straight cut parts them; all but the knot is clear."""
    boxes = maximal_clear_boxes(9, 9, [(4, 4, 5, 5)], (0, 0, 1, 1))
    assert find_cuttings(boxes, 4, 80, ((4, 4),)).boxes
    assert not find_cuttings(boxes, 3, 80, ((4, 4),)).boxes


def test_a_parting_line_may_stand_a_least_size_away_from_an_edge():
    """Two boxes overlap in the middle; the narrower keeps just its least length."""
    boxes = [(0, 0, 10, 4), (6, 0, 12, 3)]
    found = find_cuttings(boxes, 2, 9 * 4 + 3 * 3, ((1, 3),)).boxes
    assert sorted(found) == [(0, 0, 9, 4), (9, 0, 12, 3)]


def test_giving_up_is_told():
    boxes = maximal_clear_boxes(12, 8, [(x, x % 7, x + 1, x % 7 + 1) for x in range(11)], (0, 0, 1, 1))
    found = find_cuttings(boxes, 5, 60, ((1, 1),), steps=3)
    assert not found.proved
    assert found.boxes is None


@given(face=faces())
def test_every_clear_rectangle_lies_in_a_maximal_one(face):
    length, width, blocked = face
    boxes = maximal_clear_boxes(length, width, blocked, (0, 0, 1, 1))
    assert len(set(boxes)) == len(boxes)
    for x in range(length):
        for y in range(width):
            cell = (x, y, x + 1, y + 1)
            clear = all(apart(cell, mark) for mark in blocked)
            inside = any(box[0] <= x and box[1] <= y and box[2] >= x + 1 and box[3] >= y + 1 for box in boxes)
            assert clear == inside
    for a, b in itertools.permutations(boxes, 2):
        assert not (a[0] <= b[0] and a[1] <= b[1] and a[2] >= b[2] and a[3] >= b[3]), "one inside another"


def test_nothing_asked_of_nothing():
    assert find_cuttings([], 3, 10, ((1, 1),)).boxes is None
    assert find_cuttings([(0, 0, 5, 5)], 0, 10, ((1, 1),)).proved
    assert maximal_clear_boxes(10, 5, [(0, 0, 10, 5)], (0, 0, 1, 1)) == []


@pytest.mark.parametrize("reach", [0, 1, 40])
def test_marks_over_the_edge_count_as_far_as_they_lie_on_the_board(reach):
    assert maximal_clear_boxes(10, 5, [(-reach - 1, -reach, 4, 6 + reach)], (0, 0, 1, 1)) == [(4, 0.0, 10.0, 5.0)]
