"""Looks never cost a part: margins, figure, tone, and boards where a part is worth more."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from shopapi.craft.layout import Flaw, LayoutError, Placement, Problem, Rules, Stock, looks_of, solve
from shopapi.craft.layout.clock import Clock
from shopapi.craft.layout.looks import bettered
from shopapi.craft.layout.wishes import without_wishes
from tests.craft.layout.checker import complaints
from tests.craft.layout.problems import board, part, problems, small_rack

slow = settings(max_examples=40, deadline=None, suppress_health_check=[HealthCheck.too_slow])


@given(problems(), st.data())
@slow
def test_looks_never_cost_a_part_and_the_layout_can_be_cut(problem, data):
    wishes = st.sampled_from(("", "figure"))
    wanted = tuple(replace(w, wish=data.draw(wishes)) for w in problem.wanted)
    stocks = tuple(
        replace(
            s,
            tone=data.draw(st.one_of(st.none(), st.tuples(*[st.integers(0, 60)] * 3))),
            figures=tuple(data.draw(st.lists(st.builds(Flaw, *[st.integers(1, 60)] * 4), max_size=2))),
        )
        for s in problem.stocks
    )
    handsome = replace(problem, wanted=wanted, stocks=stocks, aim="looks")
    answer = solve(handsome, 120, work=60_000)
    assert complaints(handsome, answer) == []
    assert 0 <= answer.looks <= 1
    free, _ = without_wishes(handsome, Clock(120, 60_000), 0, None)
    assert answer.value >= free.value
    assert len(answer.placements) >= len(free.placements)


@given(problems())
@slow
def test_small_moves_keep_a_layout_sound_and_make_it_no_uglier(problem):
    answer = solve(problem, 120, work=20_000)
    moved = bettered(problem, answer.placements)
    assert [(p.stock, p.wanted, p.length, p.width) for p in moved] == [
        (p.stock, p.wanted, p.length, p.width) for p in answer.placements
    ]
    assert looks_of(problem, moved) >= looks_of(problem, answer.placements) - 1e-9


def test_a_piece_keeps_its_distance_from_a_mark():
    problem = Problem((board("B1", 1000, 100, Flaw(480, 0, 40, 100)),), (part("P1", 400, 90, 2),), aim="looks")
    plain = solve(replace(problem, aim=""), 60, work=60_000)
    answer = solve(problem, 60, work=60_000)
    assert complaints(problem, answer) == []
    left, right = sorted(answer.placements, key=lambda p: p.x)
    assert left.x + left.length <= 460
    assert right.x >= 540
    assert answer.looks > looks_of(problem, plain.placements) or plain.looks == 1


def test_pins_are_not_moved_for_looks():
    pin = Placement("B1", "P1", 520, 0, 400, 90)
    problem = Problem(
        (board("B1", 1000, 100, Flaw(480, 0, 40, 100)),), (part("P1", 400, 90, 2),), pins=(pin,), aim="looks"
    )
    assert pin in solve(problem, 60, work=60_000).placements


def test_a_figured_front_is_taken_where_the_figure_is():
    figured = Stock("B2", 2000, 150, figures=(Flaw(1200, 20, 420, 110, frozenset("A")),))
    wanted = (part("front", 400, 100, 1, wish="figure", clean_faces="one"), part("rail", 600, 60, 4))
    answer = solve(Problem((board("B1", 2500, 150), figured), wanted, Rules(3)), 60, work=300_000)
    assert answer.unplaced == ()
    (front,) = [p for p in answer.placements if p.wanted == "front"]
    assert (front.stock, front.face) == ("B2", "A")
    assert front.x >= 1200
    assert front.x + front.length <= 1620


def test_figure_is_given_up_where_it_would_cost_a_part():
    figured = Stock("B1", 1000, 100, figures=(Flaw(350, 0, 300, 100),))
    wanted = (part("long", 980, 90, value=10), part("front", 300, 90, wish="figure", value=9))
    answer = solve(Problem((figured, board("B2", 310, 100)), wanted, Rules(3)), 60, work=200_000)
    assert answer.unplaced == ()


def test_a_part_goes_to_the_board_where_it_is_worth_more():
    fronts = part("front", 400, 90, 2, value=100, value_on={"B2": 150})
    problem = Problem((board("B1", 1000, 100), board("B2", 1000, 100)), (fronts, part("rail", 450, 90, 2)), Rules(3))
    answer = solve(problem, 60, work=300_000)
    assert answer.unplaced == ()
    assert {p.stock for p in answer.placements if p.wanted == "front"} == {"B2"}
    assert answer.value == 2 * 150 + 2 * 450 * 90
    assert answer.bound >= answer.value


def test_boards_that_match_look_better_than_boards_that_do_not():
    placements = [Placement("B1", "P1", 0, 0, 300, 70), Placement("B2", "P1", 0, 0, 300, 70)]
    alike, apart_ = (
        Problem((replace(board("B1"), tone=(50, 8, 20)), replace(board("B2"), tone=tone)), (part(quantity=2),))
        for tone in ((51, 8, 20), (30, 2, 5))
    )
    assert looks_of(alike, placements) > looks_of(apart_, placements)


def test_looks_on_a_tight_rack_place_as_much():
    rack = small_rack(7)
    free, _ = without_wishes(rack, Clock(120, 1_000_000), 0, None)
    answer = solve(replace(rack, aim="looks"), 120, work=1_000_000)
    assert complaints(rack, answer) == []
    assert answer.value >= free.value
    assert answer.looks >= looks_of(rack, free.placements)


def test_an_aim_that_is_none_is_refused():
    with pytest.raises(LayoutError, match="aim of a layout must be looks or yield"):
        Problem((board(),), (part(),), aim="speed")
