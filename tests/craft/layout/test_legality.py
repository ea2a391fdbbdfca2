"""Layouts made by hand: what is wrong with them, and the cuts that free them, against the independent checker."""

from __future__ import annotations

from itertools import combinations

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from shopapi.craft.layout import Flaw, LayoutError, Panel, Placement, Problem, Rules, check, cut_tree_of, solve
from tests.craft.layout.checker import apart, clear_faces, fits, stages_complaints, tree_complaints
from tests.craft.layout.problems import board, part, problems, tiny_problems

slow = settings(max_examples=150, deadline=None, suppress_health_check=[HealthCheck.too_slow])


def whys(problem: Problem, *placements: Placement) -> list[str]:
    return [illegal.why for illegal in check(problem, placements)]


@given(problems())
@settings(slow, max_examples=40)
def test_what_the_search_lays_out_is_legal_and_its_cuts_are_found_again(problem):
    answer = solve(problem, 120, work=20_000)
    assert check(problem, answer.placements) == []
    trees = cut_tree_of(problem, answer.placements)
    assert set(trees) == set(answer.cuts)
    for stock in problem.stocks:
        placements = [p for p in answer.placements if p.stock == stock.id]
        if placements:
            assert tree_complaints(trees[stock.id], stock, placements, problem.rules) == []


@given(tiny_problems(), st.data())
@slow
def test_agrees_with_the_independent_checker_on_pieces_thrown_down_at_random(problem, data):
    (stock,) = problem.stocks
    spots = st.tuples(st.integers(-1, stock.length), st.integers(-1, stock.width), st.sampled_from("AB"))
    placements = [
        Placement("B", w.id, x, y, w.length, w.width, face) for w in problem.wanted for x, y, face in [data.draw(spots)]
    ]
    rules = problem.rules
    rectangles = [(p.x, p.y, p.length, p.width) for p in placements]
    sound = all(
        fits(stock, w, rules, *r) and (w.clean_faces != "one" or p.face in (clear_faces(stock, *r) or ()))
        for w, p, r in zip(problem.wanted, placements, rectangles, strict=True)
    )
    sound &= all(apart(a, b, rules.kerf) for a, b in combinations(rectangles, 2))
    sound &= not stages_complaints(rectangles, rules)
    assert (check(problem, placements) == []) == sound
    if sound:
        assert tree_complaints(cut_tree_of(problem, placements)["B"], stock, placements, rules) == []


ROOMY = Problem(
    (board("B1", 1000, 150, Flaw(600, 0, 50, 150), Flaw(800, 0, 20, 20, frozenset("A"), "show")),),
    (part("P1", 300, 70, 2), part("P2", 100, 40, 4, clean_faces="one", any_grain=True)),
    Rules(kerf=4, trim_left=20, trim_right=10),
)


@pytest.mark.parametrize(
    ("placed", "why", "words"),
    [
        (Placement("B1", "P1", 10, 0, 300, 70), "outside", "10 mm into the 20 mm trimmed off the butt end"),
        (Placement("B1", "P1", -5, 0, 300, 70), "outside", "25 mm over the butt end"),
        (Placement("B1", "P1", 20, 90, 300, 70), "outside", "10 mm over the upper edge"),
        (Placement("B1", "P1", 320, 0, 300, 70), "on_mark", "a mark that no part may hold"),
        (Placement("B1", "P2", 780, 0, 100, 40, "A"), "on_mark", "seen face would show a mark"),
        (Placement("B1", "P1", 20, 0, 300, 71), "wrong_size", "is cut 300 mm × 70 mm"),
        (Placement("B1", "P1", 20, 0, 70, 300), "wrong_size", "must run along it"),
        (Placement("B9", "P1", 20, 0, 300, 70), "unknown_board", "not in this layout"),
        (Placement("B1", "P9", 20, 0, 300, 70), "unknown_part", "not in this layout"),
    ],
)
def test_says_what_is_wrong_with_a_piece(placed, why, words):
    illegal = check(ROOMY, [placed])[0]
    assert (illegal.why, illegal.piece, illegal.wanted) == (why, 0, placed.wanted)
    assert words in illegal.words


def test_a_piece_may_lie_across_or_show_its_other_face_where_the_part_allows_it():
    assert check(ROOMY, [Placement("B1", "P2", 30, 0, 40, 100), Placement("B1", "P2", 780, 0, 100, 40, "B")]) == []


def test_pieces_too_near_or_over_one_another_name_each_other():
    near = [Placement("B1", "P1", 20, 0, 300, 70), Placement("B1", "P1", 20, 73, 300, 70)]
    assert [(i.piece, i.why, i.others) for i in check(ROOMY, near)] == [(0, "no_kerf", (1,)), (1, "no_kerf", (0,))]
    over = [Placement("B1", "P1", 20, 0, 300, 70), Placement("B1", "P1", 100, 40, 300, 70)]
    assert whys(ROOMY, *over) == ["overlap", "overlap"]


def test_more_than_wanted_is_too_many():
    more = [Placement("B1", "P1", x, y, 300, 70) for x, y in ((20, 0), (20, 74), (660, 40))]
    assert whys(ROOMY, *more) == ["too_many"]


def test_a_windmill_cannot_be_sawn_apart():
    problem = Problem((board("B1", 410, 410),), (part("P1", 250, 150, 4, any_grain=True),), Rules(kerf=4))
    pieces = [
        Placement("B1", "P1", 0, 0, 250, 150),
        Placement("B1", "P1", 254, 0, 150, 250),
        Placement("B1", "P1", 154, 254, 250, 150),
        Placement("B1", "P1", 0, 154, 150, 250),
    ]
    found = check(problem, pieces)
    assert [i.why for i in found] == ["not_sawable"] * 4
    assert found[0].others == (1, 2, 3)
    assert "crosscut, rip, crosscut and a last rip to size" in found[0].words
    with pytest.raises(LayoutError, match="board B1 cannot be sawn apart"):
        cut_tree_of(problem, pieces)


def test_a_last_rip_brings_a_piece_to_width_but_parts_no_two():
    wanted = (part("P1", 200, 80), part("P2", 200, 35, 2), part("P3", 450, 12))
    problem = Problem((board("B1", 600, 100),), wanted, Rules(kerf=4))
    beside = [
        Placement("B1", "P1", 0, 0, 200, 80),
        Placement("B1", "P2", 210, 5, 200, 35),
        Placement("B1", "P3", 0, 84, 450, 12),
    ]
    assert check(problem, beside) == []
    exact = Problem(problem.stocks, problem.wanted, Rules(kerf=4, cut_type="exact"))
    assert [(i.why, i.piece) for i in check(exact, beside)] == [("not_sawable", 1)]
    stacked = [*beside, Placement("B1", "P2", 210, 45, 200, 35)]
    assert whys(problem, *stacked) == ["not_sawable", "not_sawable"]


def test_a_strip_of_a_panel_may_have_any_width_that_the_panel_allows():
    panel = Panel("top", 400, 300, 1, 1000, strip_least=60, strip_most=120, strip_loss=4)
    problem = Problem((board("B1", 1000, 150),), (), panels=(panel,))
    assert check(problem, [Placement("B1", "top", 0, 0, 400, 87)]) == []
    assert whys(problem, Placement("B1", "top", 0, 0, 400, 130)) == ["wrong_size"]


def test_the_maker_reads_lengths_as_the_workshop_writes_them():
    illegal = check(ROOMY, [Placement("B1", "P1", -5, 0, 300, 70)], lambda length: f"{length / 25.4:.1f} in")
    assert "1.0 in over the butt end" in illegal[0].words


def test_a_board_that_is_not_there_has_no_cuts():
    with pytest.raises(LayoutError, match="Board B9 is not in this layout"):
        cut_tree_of(ROOMY, [Placement("B9", "P1", 20, 0, 300, 70)])


def test_wood_beside_a_row_of_pieces_is_left_in_one_length():
    problem = Problem((board("B1", 2000, 150),), (part("P1", 300, 60, 5),), Rules(kerf=4))
    placements = [Placement("B1", "P1", 304 * n, 0, 300, 60) for n in range(5)]
    tree = cut_tree_of(problem, placements)["B1"]
    assert tree_complaints(tree, problem.stocks[0], placements, problem.rules) == []
    left = sorted((node["length"], node["width"]) for node in leaves(tree) if node["part"] is None)
    assert left[-1] in {(2000, 86), (1516, 86)}
    assert (2000 - 1520, 150) in left or left[-1] == (2000, 86)


def leaves(node):
    return [leaf for piece in node["pieces"] for leaf in leaves(piece)] if "cut" in node else [node]
