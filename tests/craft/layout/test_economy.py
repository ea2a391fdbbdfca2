"""Where everything fits: all of it is placed, on less wood, and the rest is in fewer pieces than first-fit leaves."""

from __future__ import annotations

import pytest

from shopapi.craft.layout import Problem, Rules, leftovers_of, solve
from tests.craft.layout.checker import complaints
from tests.craft.layout.first_fit import first_fit, rest
from tests.craft.layout.made_racks import made_rack
from tests.craft.layout.problems import board, part


@pytest.mark.parametrize("seed", [1, 2])
def test_half_a_rack_of_parts_takes_less_wood_than_first_fit(seed):
    problem = made_rack(seed, 8, 15, 0.5, cut_type="trimmed")
    hurried, missing = first_fit(problem)
    answer = solve(problem, 600, work=2_000_000)
    assert complaints(problem, answer) == []
    assert missing == 0
    assert answer.unplaced == ()
    left: dict[str, list[tuple[int, int, int, int]]] = {name: [] for name in answer.cuts}
    for over in leftovers_of(problem, answer):
        left[over.stock].append((over.x, over.y, over.length, over.width))
    used, pieces = rest(problem, left)
    hurried_used, hurried_pieces = rest(problem, hurried)
    assert used < hurried_used
    assert len(pieces) <= len(hurried_pieces)
    for side in (0, 1):
        assert sum(p[side] for p in pieces) / len(pieces) > sum(p[side] for p in hurried_pieces) / len(hurried_pieces)


def test_one_board_of_two_is_left_whole():
    problem = Problem((board("B1", 2000, 150), board("B2", 1000, 150)), (part("a", 480, 70, 4),), Rules(kerf=3))
    answer = solve(problem, 600, work=2_000_000)
    assert complaints(problem, answer) == []
    assert answer.unplaced == ()
    assert set(answer.cuts) == {"B2"}


def test_the_rest_of_a_board_stays_in_one_piece():
    problem = Problem((board("B1", 2500, 150),), (part("a", 300, 140, 2), part("b", 200, 140, 2)), Rules(kerf=3))
    answer = solve(problem, 600, work=2_000_000)
    assert complaints(problem, answer) == []
    assert max(over.length for over in leftovers_of(problem, answer) if over.width == 150) == 2500 - 1000 - 4 * 3
