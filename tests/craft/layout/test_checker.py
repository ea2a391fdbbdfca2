"""The checker must see what is wrong: sound answers, each spoilt in one way."""

from __future__ import annotations

import re
from copy import deepcopy
from dataclasses import replace

import pytest

from shopapi.craft.layout import Flaw, Problem, Rules, solve
from tests.craft.layout.checker import complaints, stages_complaints
from tests.craft.layout.problems import board, part

PROBLEM = Problem(
    (board("B1", 1000, 150, Flaw(500, 40, 60, 60)), board("B2", 700, 90)),
    (part("a", 300, 70, 4), part("b", 420, 60, 2), part("c", 900, 200)),
    Rules(kerf=3, trim_left=10),
)


@pytest.fixture(scope="module")
def sound():
    answer = solve(PROBLEM, 120, work=100_000)
    assert complaints(PROBLEM, answer) == []
    return answer


def moved(answer, **changes):
    first, *rest = answer.placements
    return replace(answer, placements=(replace(first, **changes), *rest))


def with_first_cut_moved(answer):
    cuts = deepcopy(answer.cuts)
    for tree in cuts.values():
        tree["at"][0] += 1
    return replace(answer, cuts=cuts)


@pytest.mark.parametrize(
    ("spoil", "words"),
    [
        (lambda a: moved(a, x=0), "not on clear wood inside"),
        (lambda a: moved(a, x=450, y=20), "not on clear wood inside"),
        (lambda a: moved(a, length=299), "wrong size"),
        (lambda a: replace(a, placements=(a.placements[0], *a.placements)), "no room for a saw cut"),
        (lambda a: replace(a, placements=(a.placements[0], *a.placements)), "too many|placed and"),
        (lambda a: replace(a, placements=a.placements[1:]), "placed and"),
        (lambda a: replace(a, value=a.value + 1), "the value is"),
        (lambda a: replace(a, bound=a.value - 1), "better than its bound"),
        (lambda a: replace(a, proved_best=not a.proved_best), "proved best must mean"),
        (lambda a: replace(a, unplaced=()), "unplaced of"),
        (lambda a: replace(a, cuts={**a.cuts, "B9": {}}), "cuts for boards without parts"),
        (with_first_cut_moved, "sawdust|runs through|no cut at"),
    ],
)
def test_a_spoilt_answer_is_seen(sound, spoil, words):
    assert re.search(words, "\n".join(complaints(PROBLEM, spoil(sound))))


def test_a_pinwheel_cannot_be_sawn():
    pinwheel = [(0, 0, 20, 10), (20, 0, 10, 20), (10, 20, 20, 10), (0, 10, 10, 20)]
    assert "several parts in one piece" in stages_complaints(pinwheel, Rules(kerf=0))[0]


def test_a_narrow_part_in_a_wide_strip_needs_trimming():
    strip = [(0, 0, 20, 10), (23, 0, 20, 8), (0, 13, 43, 10)]
    assert stages_complaints(strip, Rules(kerf=3, cut_type="trimmed")) == []
    assert "several sizes" in stages_complaints(strip, Rules(kerf=3, cut_type="exact"))[0]
