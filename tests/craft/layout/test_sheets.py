"""Sheets cut in two stages or in as many as one likes: by the checker, every layout of tiny ones, published optima."""

from __future__ import annotations

import json
import os
from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from shopapi.craft.layout import Problem, Rules, solve
from shopapi.craft.layout.instances import read_instance
from tests.craft.layout.checker import complaints
from tests.craft.layout.problems import board, part, problems, tiny_problems
from tests.craft.layout.test_solve import best_of_all

REFERENCE = Path(os.environ.get("REFERENCE_DIR", Path(__file__).parents[4] / "shared" / "reference"))
SHEETS = sorted((REFERENCE / "cutting").glob("*.json"))
SECONDS = 120
slow = settings(max_examples=40, deadline=None, suppress_health_check=[HealthCheck.too_slow])
stages = st.sampled_from(((2, "crosscut"), (2, "rip"), (2, "any"), (3, "rip"), (3, "any"), (None, "any")))


def under(problem: Problem, rules: tuple[int | None, str]) -> Problem:
    return replace(problem, rules=replace(problem.rules, stages=rules[0], first_cut=rules[1]))


@given(problems(), stages)
@slow
def test_every_answer_can_be_cut(problem, rules):
    problem = under(problem, rules)
    assert complaints(problem, solve(problem, SECONDS, work=40_000)) == []


@given(tiny_problems(), stages)
@slow
def test_no_bound_is_below_the_best_of_every_layout(problem, rules):
    problem = under(problem, rules)
    answer = solve(problem, SECONDS, work=2_000_000)
    assert complaints(problem, answer) == []
    best = best_of_all(problem)
    assert answer.value <= best
    plain = problem.rules.kerf == 0 and all(f.blocks == "all" for f in problem.stocks[0].flaws)
    if plain and (problem.rules.cut_type == "exact" or rules[0] is None):
        assert answer.bound >= best
        if answer.proved_best:
            assert answer.value == best


def test_as_many_turns_as_one_likes_give_more_than_three():
    # these five need rip, crosscut, rip, crosscut
    wanted = (part("a", 10, 4), part("b", 4, 8), part("c", 6, 3), part("d", 3, 5), part("e", 3, 5))
    three = Problem((board("B", 10, 12),), wanted, Rules(kerf=0, cut_type="exact"))
    free = under(three, (None, "any"))
    answer = solve(free, SECONDS, work=2_000_000)
    assert complaints(free, answer) == []
    assert answer.unplaced == ()
    in_three = solve(three, SECONDS, work=200_000)
    assert complaints(three, in_three) == []
    assert in_three.value < answer.value


def test_scarce_parts_of_two_boards_are_not_cut_twice():
    problem = Problem(
        (board("B1", 40, 30), board("B2", 40, 30)), (part("a", 20, 15, 3), part("b", 19, 14, 9)), Rules(kerf=0)
    )
    for rules in ((2, "crosscut"), (None, "any")):
        answer = solve(under(problem, rules), SECONDS, work=2_000_000)
        assert complaints(under(problem, rules), answer) == []
        assert answer.value == 3 * 300 + 5 * 266


@pytest.mark.skipif(not SHEETS, reason=f"the published sheets are not at {REFERENCE} (set REFERENCE_DIR)")
@pytest.mark.parametrize("path", SHEETS, ids=lambda p: p.stem)
def test_published_optimum_is_reached_and_proved(path):
    # Source: each file names its own, ../shared/reference/cutting
    data = json.loads(path.read_text())
    problem = read_instance(data)
    answer = solve(problem, SECONDS, work=20_000_000)
    assert complaints(problem, answer) == []
    assert answer.value == data["optimal"]
    assert answer.proved_best
