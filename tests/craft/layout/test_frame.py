"""Clear stretches of strips: the short way for marks that block everything gives what the full way gives."""

from __future__ import annotations

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from shopapi.craft.layout.frame import BLOCKED, Frame, clear_stretches, gaps_between
from shopapi.craft.layout.model import Flaw, Problem, Rules
from shopapi.craft.layout.solve import solve
from tests.craft.layout.problems import board, part

FRAME = Frame(Problem((board("B", 500, 100),), (part("a", 1, 20),), Rules(kerf=0)))


@given(st.lists(st.tuples(st.integers(0, 490), st.integers(1, 60)), max_size=6))
def test_gaps_between_flaws_are_the_clear_stretches(spans):
    rows = sorted((x, min(500, x + size)) for x, size in spans)
    flaws = np.array([(x0, x1, 0, 100, BLOCKED) for x0, x1 in rows], np.int32).reshape(-1, 5)
    (full,) = clear_stretches(flaws, 500, FRAME, 0)
    assert [(a, b) for a, b, _ in full] == gaps_between([list(row) for row in rows], 500)


def test_overlapping_flaws_take_their_area_once():
    marked = board("B", 500, 100, Flaw(0, 0, 100, 50), Flaw(50, 20, 100, 50), Flaw(120, 0, 10, 10))
    (grown,) = Frame(Problem((marked,), (part("a", 1, 20),), Rules(kerf=0))).boards
    covered = {(x, y) for x in range(100) for y in range(50)} | {(x, y) for x in range(50, 150) for y in range(20, 70)}
    covered |= {(x, y) for x in range(120, 130) for y in range(10)}
    assert grown.clear_area == 500 * 100 - len(covered)


def test_no_layout_is_worth_more_than_all_clear_wood():
    # 20 pieces would need four times the wood: what they come to by area bounds the answer from the start
    problem = Problem((board("B", 500, 100),), (part("a", 100, 100, 20),), Rules(kerf=0))
    answer = solve(problem, 60, work=1)
    assert answer.bound == 5 * 100 * 100
