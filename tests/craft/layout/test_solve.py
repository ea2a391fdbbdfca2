"""Properties of every answer, by the independent checker; small cases against every possible layout."""

from __future__ import annotations

from itertools import combinations, pairwise

import pytest
from hypothesis import HealthCheck, given, settings

from shopapi.craft.layout import Flaw, LayoutError, Problem, Rules, Stock, Wanted, solve
from tests.craft.layout.checker import apart, complaints, fits, stages_complaints
from tests.craft.layout.problems import board, part, problems, tiny_problems

WORK = 40_000
ENOUGH_SECONDS = 120
slow = settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.too_slow])


def best_of_all(problem: Problem) -> int:
    """The value of the best layout of one board, by trying every place of every piece."""
    (stock,) = problem.stocks
    rules = problem.rules
    best = 0
    for many in range(len(problem.wanted), 0, -1):
        for chosen in combinations(problem.wanted, many):
            value = sum(w.value for w in chosen)
            if value > best and any(True for _ in layouts(stock, list(chosen), rules, [])):
                best = value
    return best


def layouts(stock: Stock, wanted: list[Wanted], rules: Rules, placed: list[tuple[int, int, int, int]]):
    if not wanted:
        if not stages_complaints(placed, rules):
            yield placed
        return
    first, rest = wanted[0], wanted[1:]
    for x in range(stock.length - first.length + 1):
        for y in range(stock.width - first.width + 1):
            here = (x, y, first.length, first.width)
            if fits(stock, first, rules, *here) and all(apart(here, other, rules.kerf) for other in placed):
                yield from layouts(stock, rest, rules, [*placed, here])


@given(problems())
@slow
def test_every_answer_can_be_cut(problem):
    answer = solve(problem, ENOUGH_SECONDS, work=WORK)
    assert complaints(problem, answer) == []


@given(tiny_problems())
@slow
def test_never_better_than_every_layout_tried_and_never_wrongly_proved(problem):
    answer = solve(problem, ENOUGH_SECONDS, work=WORK)
    assert complaints(problem, answer) == []
    best = best_of_all(problem)
    assert answer.value <= best
    # a flaw no wider than the kerf and flaws of single faces are searched a little too strictly
    plain = problem.rules.kerf == 0 and all(f.blocks == "all" for f in problem.stocks[0].flaws)
    if plain and problem.rules.cut_type == "exact":
        assert answer.bound >= best
        if answer.proved_best:
            assert answer.value == best


@pytest.mark.parametrize("cut_type", ["exact", "trimmed"])
def test_finds_the_best_of_a_small_board(cut_type):
    problem = Problem(
        (board("B", 14, 8, Flaw(6, 3, 1, 2)),),
        (part("long", 9, 3), part("square", 4, 4), part("small", 3, 2)),
        Rules(kerf=1, cut_type=cut_type),
    )
    answer = solve(problem, ENOUGH_SECONDS, work=200_000)
    assert complaints(problem, answer) == []
    assert answer.value == best_of_all(problem)


def test_same_seed_and_work_give_the_same_answer():
    flaw = Flaw(200, 20, 60, 50)
    problem = Problem(
        (board("B1", 1500, 160, flaw), board("B2", 1200, 140)),
        (part("a", 420, 70, 3), part("b", 610, 50, 3), part("c", 250, 65, 5)),
    )
    first, second = (solve(problem, ENOUGH_SECONDS, seed=4, work=300_000) for _ in range(2))
    assert first.placements == second.placements
    assert first.bound == second.bound


def test_progress_only_gets_better_and_ends_with_the_answer():
    seen = []
    problem = Problem((board("B1", 2400, 180), board("B2", 2000, 150)), (part("a", 430, 70, 9), part("b", 610, 50, 9)))
    answer = solve(problem, ENOUGH_SECONDS, told=seen.append, work=300_000)
    assert seen
    assert [a.value for a in seen] == sorted(a.value for a in seen)
    assert [a.bound for a in seen] == sorted((a.bound for a in seen), reverse=True)
    assert all(complaints(problem, a) == [] for a in seen)
    assert seen[-1].value <= answer.value
    assert all(b.seconds - a.seconds > 0.2 for a, b in pairwise(seen))


def test_stopped_at_once_it_still_answers():
    problem = Problem((board(),), (part(quantity=4),))
    answer = solve(problem, ENOUGH_SECONDS, stopped=lambda: True)
    assert complaints(problem, answer) == []


def test_everything_fits_is_proved_best():
    problem = Problem((board(length=1000, width=150),), (part("a", 300, 70, 4),), Rules(kerf=3))
    answer = solve(problem, ENOUGH_SECONDS, work=WORK)
    assert answer.proved_best
    assert answer.unplaced == ()
    assert complaints(problem, answer) == []


@pytest.mark.parametrize("seconds", [0, -1, float("nan"), float("inf"), "soon"])
def test_a_time_that_is_none_is_refused(seconds):
    with pytest.raises(LayoutError, match="number of seconds above 0"):
        solve(Problem((board(),), (part(),)), seconds)
