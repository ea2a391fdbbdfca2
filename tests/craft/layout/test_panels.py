"""Panels of free strips: the strips' widths less the joints' loss are the panel's width, and all of it can be cut."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from shopapi.craft.layout import (
    Answer,
    Flaw,
    LayoutError,
    Panel,
    Placement,
    Problem,
    Rules,
    answer_by_hand,
    check,
    solve,
)
from tests.craft.layout.checker import tree_complaints
from tests.craft.layout.problems import board, part, stocks

slow = settings(max_examples=40, deadline=None, suppress_health_check=[HealthCheck.too_slow])


def sound(problem: Problem, answer: Answer) -> None:
    """The answer can be cut, its panels come to their widths, and its value and counts are right."""
    assert check(problem, answer.placements) == []
    for stock in problem.stocks:
        placements = [p for p in answer.placements if p.stock == stock.id]
        if placements:
            assert tree_complaints(answer.cuts[stock.id], stock, placements, problem.rules) == []
    panels = {panel.id: panel for panel in problem.panels}
    whole = Counter(one.panel for one in answer.glued)
    strips = [strip for one in answer.glued for strip in one.strips]
    assert len(strips) == len(set(strips))
    for one in answer.glued:
        panel = panels[one.panel]
        loss = panel.strip_loss if len(one.strips) > 1 else 0
        assert sum(strip.width - loss for strip in one.strips) == panel.width
        assert all(panel.strip_least <= strip.width <= panel.strip_most for strip in one.strips)
        assert all(strip.length == panel.length for strip in one.strips)
    loose = [p for p in answer.placements if p.wanted in panels and p not in strips]
    assert set(loose) <= set(problem.pins)
    missing = {u.wanted: u.count for u in answer.unplaced}
    assert all(panel.count == whole[panel.id] + missing.get(panel.id, 0) for panel in problem.panels)
    worth = {w.id: w.value for w in problem.wanted}
    placed = sum(worth.get(p.wanted, 0) for p in answer.placements)
    assert answer.value == placed + sum(panel.value * whole[panel.id] for panel in problem.panels)
    assert answer.bound >= answer.value


@st.composite
def panel_problems(draw: st.DrawFn) -> Problem:
    boards = tuple(draw(stocks(f"B{n}")) for n in range(draw(st.integers(1, 3))))
    panels = []
    for n in range(draw(st.integers(1, 2))):
        least = draw(st.integers(8, 25))
        most = least + draw(st.integers(5, 30))
        strips, loss = draw(st.integers(1, 5)), draw(st.integers(0, 4))
        lost = loss if strips > 1 else 0
        width = draw(st.integers(strips * (least - lost), strips * (most - lost)))
        panels.append(
            Panel(f"T{n}", draw(st.integers(30, 150)), width, draw(st.integers(1, 2)), 900, least, most, loss)
        )
    wanted = tuple(part(f"P{n}", draw(st.integers(20, 120)), draw(st.integers(8, 40)), 2) for n in range(2))
    return Problem(boards, wanted, Rules(draw(st.integers(0, 3))), panels=tuple(panels))


@given(panel_problems())
@slow
def test_strips_add_up_to_the_panel_and_can_be_cut(problem):
    answer = solve(problem, 120, work=300_000)
    sound(problem, answer)


@given(panel_problems(), st.data())
@slow
def test_pinned_strips_stay(problem, data):
    free = solve(problem, 120, work=200_000)
    pins = tuple(p for p in free.placements if data.draw(st.booleans()))
    pinned = replace(problem, pins=pins)
    answer = solve(pinned, 120, work=200_000)
    assert set(pins) <= set(answer.placements)
    sound(pinned, answer)


TOP = Panel("top", 600, 500, 1, 500 * 600, strip_least=60, strip_most=140, strip_loss=4)


def test_strips_suit_boards_that_are_too_narrow_for_the_widest():
    answer = solve(
        Problem(tuple(board(f"B{n}", 1900, 95) for n in range(3)), (), Rules(3), panels=(TOP,)), 60, work=900_000
    )
    assert answer.unplaced == ()
    assert answer.proved_best
    assert all(strip.width <= 95 for strip in answer.glued[0].strips)


def test_strips_take_the_widths_that_two_kinds_of_boards_hold():
    # 130 + 130 from the wide board, 90 x 3 from the narrow one: equal strips fit on neither without waste
    boards = (board("wide", 1215, 130), board("narrow", 1820, 94))
    panel = replace(TOP, width=2 * 126 + 3 * 88)
    problem = Problem(boards, (), Rules(3), panels=(panel,))
    answer = solve(problem, 60, work=2_000_000)
    sound(problem, answer)
    assert answer.unplaced == ()


def test_fewest_strips_where_boards_are_wide():
    problem = Problem((board("B1", 2600, 150),), (), Rules(3), panels=(TOP,))
    answer = solve(problem, 60, work=900_000)
    sound(problem, answer)
    assert len(answer.glued[0].strips) == 4


def test_a_panel_as_narrow_as_a_board_is_one_piece():
    panel = replace(TOP, width=120)
    answer = solve(Problem((board("B1", 700, 150),), (), Rules(3), panels=(panel,)), 60, work=400_000)
    assert [strip.width for strip in answer.glued[0].strips] == [120]


def test_a_panel_without_wood_says_why_and_leaves_no_lone_strips():
    flaw = Flaw(700, 0, 100, 150)
    problem = Problem((board("B1", 1000, 150, flaw),), (part("P1", 250, 120),), Rules(3), panels=(TOP,))
    answer = solve(problem, 60, work=900_000)
    sound(problem, answer)
    assert [(u.wanted, u.count) for u in answer.unplaced] == [("top", 1)]
    assert answer.unplaced[0].reason
    assert [p.wanted for p in answer.placements] == ["P1"]


def test_a_panel_by_hand_counts_once_its_strips_cover_it():
    problem = Problem((board("B1", 2600, 150),), (), Rules(3), panels=(TOP,))
    strips = [Placement("B1", "top", 610 * n, 0, 600, 130) for n in range(4)]
    answer = answer_by_hand(problem, strips)
    assert answer.value == TOP.value
    assert len(answer.glued[0].strips) == 4
    assert answer_by_hand(problem, strips[:3]).unplaced[0].wanted == "top"


def test_a_strip_more_than_the_panel_needs_is_too_many():
    problem = Problem((board("B1", 3200, 150),), (), Rules(3), panels=(TOP,))
    strips = [Placement("B1", "top", 610 * n, 0, 600, 130) for n in range(5)]
    assert [(illegal.piece, illegal.why) for illegal in check(problem, strips)] == [(4, "too_many")]


def test_panels_need_a_last_rip():
    with pytest.raises(LayoutError, match="need a last rip to width"):
        solve(Problem((board(),), (), Rules(cut_type="exact"), panels=(TOP,)), 60, work=1000)


def test_strips_that_cannot_make_the_panel_are_refused_in_words():
    with pytest.raises(LayoutError, match="strips from 60 to 70 mm cannot make a panel 100 mm wide"):
        Panel("top", 600, 100, 1, 10, 60, 70)
