"""Pinned pieces: they stay, what is laid out around them can be cut, and contradictions are refused in words."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from shopapi.craft.layout import Flaw, LayoutError, Placement, Problem, Rules, check, solve
from tests.craft.layout.checker import complaints
from tests.craft.layout.problems import board, part, problems, small_rack
from tests.craft.layout.test_solve import layouts

slow = settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.too_slow])


@given(problems(), st.data())
@slow
def test_pieces_pinned_from_an_answer_stay_and_the_rest_can_be_cut(problem, data):
    free = solve(problem, 120, work=20_000)
    pins = tuple(p for p in free.placements if data.draw(st.booleans()))
    pinned = replace(problem, pins=pins)
    answer = solve(pinned, 120, work=20_000)
    assert set(pins) <= set(answer.placements)
    assert complaints(pinned, answer) == []
    assert check(pinned, answer.placements) == []
    if pins:
        assert "pinned pieces where they are" in answer.bound_covers


@given(st.data())
@slow
def test_no_layout_that_keeps_the_pin_is_better_than_the_bound(data):
    stock = board("B", data.draw(st.integers(8, 14)), data.draw(st.integers(4, 7)))
    sizes = st.tuples(st.integers(2, 6), st.integers(2, 4), st.integers(1, 30))
    wanted = [
        part(f"P{n}", *size[:2], value=size[2])
        for n, size in enumerate(data.draw(st.lists(sizes, min_size=2, max_size=3)))
    ]
    pin = Placement(
        "B",
        "P0",
        data.draw(st.integers(0, stock.length)),
        data.draw(st.integers(0, stock.width)),
        wanted[0].length,
        wanted[0].width,
    )
    problem = Problem(
        (stock,), tuple(wanted), Rules(0, cut_type=data.draw(st.sampled_from(("exact", "trimmed")))), (pin,)
    )
    if check(problem, [pin]):
        with pytest.raises(LayoutError):
            solve(problem, 120, work=20_000)
        return
    answer = solve(problem, 120, work=60_000)
    assert complaints(problem, answer) == []
    laid = [(pin.x, pin.y, pin.length, pin.width)]
    best = wanted[0].value
    for many in range(1, 2 ** (len(wanted) - 1)):
        chosen = [w for n, w in enumerate(wanted[1:]) if many >> n & 1]
        if any(True for _ in layouts(stock, chosen, problem.rules, laid)):
            best = max(best, wanted[0].value + sum(w.value for w in chosen))
    assert answer.value <= best
    if problem.rules.cut_type == "exact":
        assert answer.bound >= best
        if answer.proved_best:
            assert answer.value == best


def test_most_of_a_good_layout_is_found_again_around_one_of_its_pieces():
    rack = small_rack(3)
    free = solve(rack, 120, work=1_500_000)
    for pin in free.placements[:: len(free.placements) // 4]:
        answer = solve(replace(rack, pins=(pin,)), 120, work=1_500_000)
        assert complaints(replace(rack, pins=(pin,)), answer) == []
        assert answer.value >= 0.95 * free.value


def test_the_rest_around_a_pin_is_no_worse_than_the_layout_known_before():
    rack = small_rack(4)
    before = solve(rack, 120, work=400_000)
    pinned = replace(rack, pins=before.placements[3:4])
    answer = solve(pinned, 120, work=1000, known=before.placements)
    assert complaints(pinned, answer) == []
    assert answer.value >= before.value
    # one that breaks a pin by now, or lies on a new mark, is no help
    moved = replace(rack, pins=(replace(before.placements[3], face="B"),))
    assert solve(moved, 120, work=1000, known=before.placements).placements != before.placements


def test_everything_pinned_is_an_answer_with_its_cuts():
    problem = Problem((board("B1", 700, 150), board("B2")), (part(quantity=2),))
    pins = (Placement("B1", "P1", 0, 0, 300, 70), Placement("B1", "P1", 320, 40, 300, 70))
    answer = solve(replace(problem, pins=pins), 60, work=20_000)
    assert answer.placements == pins
    assert answer.proved_best
    assert answer.unplaced == ()
    assert set(answer.cuts) == {"B1"}


def test_a_pin_counts_among_the_pieces_wanted():
    pin = Placement("B1", "P1", 500, 30, 300, 70)
    problem = Problem((board("B1", 1000, 150),), (part(quantity=3),), pins=(pin,))
    answer = solve(problem, 60, work=40_000)
    assert len(answer.placements) == 3
    assert complaints(problem, answer) == []


def test_strips_above_and_below_and_beside_a_pin_are_used():
    pin = Placement("B1", "P1", 400, 40, 200, 70)
    wanted = (part("P1", 200, 70), part("long", 980, 35, 2), part("beside", 190, 70, 3))
    problem = Problem((board("B1", 1000, 150),), wanted, Rules(kerf=3), (pin,))
    answer = solve(problem, 60, work=200_000)
    assert complaints(problem, answer) == []
    assert answer.unplaced == ()


STOCK = board("B1", 1000, 150, Flaw(600, 0, 60, 60))


@pytest.mark.parametrize(
    ("pins", "words"),
    [
        ([Placement("B1", "P1", 0, 0, 300, 70), Placement("B1", "P1", 200, 20, 300, 70)], "lies over another piece"),
        ([Placement("B1", "P1", 550, 0, 300, 70)], "lies on a mark"),
        ([Placement("B1", "P1", 800, 0, 300, 70)], "100 mm over the far end"),
        ([Placement("B1", "P1", 0, 0, 300, 70), Placement("B1", "P1", 0, 72, 300, 70)], "a cut takes 3 mm"),
        ([Placement("B1", "P1", 310 * n, 75, 300, 70) for n in range(3)], "2 are wanted"),
    ],
)
def test_pins_that_contradict_are_refused_in_words(pins, words):
    with pytest.raises(LayoutError, match=words) as refused:
        solve(Problem((STOCK,), (part(quantity=2),), pins=tuple(pins)), 60, work=1000)
    assert "Board B1, the pinned piece of P1" in str(refused.value)
    assert "Move or release them" in str(refused.value)


@pytest.mark.parametrize(("stock", "name", "words"), [("B9", "P1", "a board .* B9"), ("B1", "P9", "a part .* P9")])
def test_a_pin_of_something_that_is_not_there_is_refused(stock, name, words):
    with pytest.raises(LayoutError, match=words):
        Problem((STOCK,), (part(),), pins=(Placement(stock, name, 0, 0, 300, 70),))
