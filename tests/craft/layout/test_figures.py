"""Layouts in figures: leftovers that make up the boards with pieces and kerfs, and purchases that place what lacks."""

from __future__ import annotations

from dataclasses import replace
from itertools import combinations

import pytest
from hypothesis import HealthCheck, given, settings

from shopapi.craft.layout import (
    LayoutError,
    Panel,
    Placement,
    Problem,
    Rules,
    Stock,
    answer_by_hand,
    figures_of,
    leftovers_of,
    purchase_for,
    solve,
)
from tests.craft.layout.checker import complaints, overlap
from tests.craft.layout.problems import board, part, problems

slow = settings(max_examples=40, deadline=None, suppress_health_check=[HealthCheck.too_slow])


@given(problems())
@slow
def test_pieces_and_leftovers_lie_apart_and_make_up_the_boards_but_for_sawdust(problem):
    answer = solve(problem, 120, work=20_000)
    leftovers = leftovers_of(problem, answer)
    assert [left.area for left in leftovers] == sorted((left.area for left in leftovers), reverse=True)
    for stock in problem.stocks:
        rectangles = [(r.x, r.y, r.length, r.width) for r in (*answer.placements, *leftovers) if r.stock == stock.id]
        for a, b in combinations(rectangles, 2):
            assert not (overlap(a[0], a[0] + a[2], b[0], b[0] + b[2]) and overlap(a[1], a[1] + a[3], b[1], b[1] + b[3]))
        if rectangles and problem.rules.kerf == 0:
            assert sum(r[2] * r[3] for r in rectangles) == stock.length * stock.width


def test_figures_count_pieces_boards_and_areas():
    problem = Problem((board("B1", 650, 75), board("B2", 100, 20)), (part(quantity=5),))
    figures = figures_of(problem, solve(problem, 60, work=40_000))
    assert (figures.pieces, figures.unplaced, figures.boards_used) == (2, 3, 1)
    assert (figures.wood_used_mm2, figures.board_mm2) == (2 * 300 * 70, 650 * 75)
    assert max(left.length for left in figures.leftovers if left.width == 75) == 650 - 2 * 303


@given(problems())
@slow
def test_what_is_bought_places_what_found_no_place(problem):
    answer = solve(problem, 120, work=20_000)
    rules = problem.rules
    for unplaced in answer.unplaced:
        bought = purchase_for(problem, unplaced.wanted, unplaced.count)
        part_ = next(w for w in problem.wanted if w.id == unplaced.wanted)
        across = bought.least_clear_width + rules.kerf + rules.trim_bottom + rules.trim_top
        stocks, left = [], unplaced.count
        longest = max(stock.length for stock in problem.stocks) - rules.trim_left - rules.trim_right + rules.kerf
        while left:
            row = min(left, max(1, longest // (bought.least_clear_length + rules.kerf)))
            length = rules.trim_left + rules.trim_right + row * (bought.least_clear_length + rules.kerf) - rules.kerf
            stocks.append(Stock(f"new {left}", length, across))
            left -= row
        assert sum(s.length * s.width for s in stocks) == bought.area_mm2
        fresh = Problem(tuple(stocks), (replace(part_, quantity=unplaced.count),), rules)
        assert solve(fresh, 120, work=20_000).unplaced == ()


def test_a_share_of_waste_makes_a_purchase_larger():
    problem = Problem((board(),), (part(quantity=5),), Rules(kerf=4, trim_left=20, trim_right=20))
    plain, wasteful = (purchase_for(problem, "P1", 3, waste_share=share) for share in (0, 0.25))
    assert plain.area_mm2 == (40 + 3 * 304 - 4) * 74
    assert wasteful.area_mm2 == pytest.approx(plain.area_mm2 / 0.75, abs=1)
    assert (wasteful.least_clear_length, wasteful.least_clear_width) == (300, 70)


def test_a_purchase_for_a_panel_is_for_the_strips_of_one():
    panel = Panel("top", 400, 300, 2, 1000, strip_least=60, strip_most=110, strip_loss=4)
    bought = purchase_for(Problem((board(),), (), panels=(panel,)), "top", 1)
    assert (bought.least_clear_length, bought.least_clear_width) == (400, 104)


@pytest.mark.parametrize(
    ("wanted", "count", "share", "words"),
    [("P9", 1, 0, "P9 is not in this layout"), ("P1", 0, 0, "at least 1 piece"), ("P1", 1, 1.0, "below 1")],
)
def test_a_purchase_of_nothing_sensible_is_refused(wanted, count, share, words):
    with pytest.raises(LayoutError, match=words):
        purchase_for(Problem((board(),), (part(),)), wanted, count, waste_share=share)


def test_a_layout_by_hand_is_an_answer_without_a_bound():
    problem = Problem((board("B1", 1000, 150), board("B2")), (part(quantity=3),))
    pieces = (Placement("B1", "P1", 10, 5, 300, 70), Placement("B2", "P1", 400, 60, 300, 70))
    answer = answer_by_hand(problem, pieces)
    assert complaints(problem, answer) == []
    assert (answer.value, answer.bound, answer.proved_best) == (2 * 300 * 70, None, False)
    assert [(u.wanted, u.count) for u in answer.unplaced] == [("P1", 1)]


def test_a_layout_by_hand_that_cannot_be_cut_is_refused_in_words():
    problem = Problem((board("B1", 1000, 150),), (part(quantity=3),))
    with pytest.raises(LayoutError, match="Board B1, the piece of P1: It reaches 10 mm over the upper edge"):
        answer_by_hand(problem, [Placement("B1", "P1", 0, 90, 300, 70)])
