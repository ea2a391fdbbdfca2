"""Odd racks and parts by name: a clear answer for each, and reasons in a maker's words."""

from __future__ import annotations

import pytest

from shopapi.craft.layout import Flaw, LayoutError, Placement, Problem, Rules, Stock, Unplaced, Wanted, solve
from tests.craft.layout.checker import complaints
from tests.craft.layout.problems import board, part


def answer_to(problem: Problem, work: int = 60_000):
    answer = solve(problem, 120, work=work)
    assert complaints(problem, answer) == []
    return answer


def reason(problem: Problem) -> str:
    answer = answer_to(problem)
    assert answer.placements == ()
    assert answer.value == 0
    return answer.unplaced[0].reason


def test_part_wider_than_any_board():
    problem = Problem((board(width=100), board("B2", width=120)), (part(width=160),))
    assert reason(problem) == "40 mm wider than any board"


def test_part_longer_than_any_board_after_trim():
    problem = Problem((board(length=1000),), (part(length=990),), Rules(trim_left=20, trim_right=20))
    assert reason(problem) == "30 mm longer than any board after end trim"


def test_long_board_and_wide_board_but_none_is_both():
    problem = Problem((board("B1", 1000, 80), board("B2", 300, 200)), (part(length=600, width=120),))
    assert reason(problem) == "No board is long and wide enough for 600 mm × 120 mm"


def test_flaw_over_the_whole_board():
    problem = Problem((board("B1", 1000, 150, Flaw(-5, -5, 1100, 200)),), (part(),))
    assert reason(problem) == "No board has a clear stretch of 300 mm × 70 mm"


def test_no_room_left_says_so():
    answer = answer_to(Problem((board(length=650, width=75),), (part(quantity=5),)))
    assert len(answer.placements) == 2
    assert answer.unplaced == (Unplaced("P1", 3, "No clear stretch of 300 mm × 70 mm is left on these boards"),)


def test_part_exactly_as_large_as_the_board():
    answer = answer_to(Problem((board(length=300, width=70),), (part(),)))
    assert answer.placements == (Placement("B1", "P1", 0, 0, 300, 70),)
    assert answer.proved_best


def test_part_exactly_between_the_trims():
    rules = Rules(kerf=3, trim_left=20, trim_right=10, trim_bottom=5, trim_top=2)
    answer = answer_to(Problem((board(length=330, width=77),), (part(),), rules))
    assert [(p.x, p.y) for p in answer.placements] == [(20, 5)]


def test_trims_eat_the_board():
    problem = Problem((board(length=50, width=50),), (part(length=10, width=10),), Rules(trim_left=30, trim_right=30))
    assert "longer than any board after end trim" in reason(problem)


def test_kerf_decides_whether_two_fit():
    for kerf, pieces in ((4, 2), (5, 1)):
        problem = Problem((board(length=604, width=70),), (part(quantity=2),), Rules(kerf=kerf))
        assert len(answer_to(problem).placements) == pieces


def test_flaw_narrower_than_the_kerf_keeps_parts_off():
    problem = Problem((board("B1", 620, 70, Flaw(309, 0, 1, 70)),), (part(quantity=2),), Rules(kerf=4))
    assert len(answer_to(problem).placements) == 2
    over = Problem((board("B1", 400, 70, Flaw(200, 0, 1, 70)),), (part(),), Rules(kerf=4))
    assert answer_to(over).placements == ()


def test_part_worth_nothing_is_still_cut():
    assert len(answer_to(Problem((board(),), (part(value=0),))).placements) == 1


def test_part_turned_across_the_board():
    problem = Problem((board(length=100, width=300),), (part(length=290, width=60, any_grain=True),))
    assert [(p.length, p.width) for p in answer_to(problem).placements] == [(60, 290)]
    fixed = Problem((board(length=100, width=300),), (part(length=290, width=60),))
    assert answer_to(fixed).placements == ()


def test_turned_and_straight_pieces_share_the_quantity():
    problem = Problem((board(length=900, width=400),), (part(length=290, width=60, quantity=3, any_grain=True),))
    assert len(answer_to(problem).placements) == 3


@pytest.mark.parametrize(
    ("clean_faces", "faces", "placed_face"),
    [
        ("none", "AB", "A"),
        ("one", "A", "B"),
        ("one", "B", "A"),
        ("one", "AB", None),
        ("both", "A", None),
        ("both", "B", None),
    ],
)
def test_show_flaw_keeps_off_only_parts_whose_face_it_spoils(clean_faces, faces, placed_face):
    flaw = Flaw(100, 10, 50, 40, frozenset(faces), "show")
    problem = Problem((board("B1", 320, 75, flaw),), (part(clean_faces=clean_faces),))
    assert [p.face for p in answer_to(problem).placements] == ([placed_face] if placed_face else [])


def test_parts_of_all_classes_on_a_board_with_show_flaws():
    flaws = (Flaw(300, 0, 80, 75, frozenset("A"), "show"), Flaw(700, 0, 80, 75, frozenset("B"), "show"))
    wanted = (
        part("both", 290, 70, clean_faces="both"),
        part("one", 390, 70, clean_faces="one"),
        part("none", 290, 70, clean_faces="none"),
    )
    problem = Problem((board("B1", 1000, 75, *flaws),), wanted)
    assert answer_to(problem, 300_000).unplaced == ()


def test_wane_along_an_edge_leaves_the_rest():
    flaw = Flaw(0, 0, 1000, 30)
    answer = answer_to(Problem((board("B1", 1000, 110, flaw),), (part(quantity=3),)))
    assert {p.y for p in answer.placements} == {30}


def test_many_flaws_over_one_another():
    flaws = [Flaw(400 + n, 20 + n, 50, 60) for n in range(30)] * 2
    answer = answer_to(Problem((board("B1", 1000, 150, *flaws),), (part(quantity=9),)))
    assert len(answer.placements) >= 4


def test_large_values_neither_overflow_nor_lose_a_piece():
    problem = Problem((board(),), (part("a", value=10**9, quantity=2), part("b", 300, 70, 4, value=1)))
    answer = answer_to(problem)
    assert answer.value == 2 * 10**9 + 4


def test_one_board_used_up_leaves_the_other_bare():
    problem = Problem((board("B1"), board("B2", 100, 20)), (part(quantity=1),))
    assert set(answer_to(problem).cuts) == {"B1"}


@pytest.mark.parametrize(
    ("make", "words"),
    [
        (lambda: Problem((), (part(),)), "no board"),
        (lambda: Problem((board(),), ()), "no part"),
        (lambda: Problem((board(), board()), (part(),)), "same id: B1"),
        (lambda: Problem((board(),), (part(), part())), "same id: P1"),
        (lambda: Stock("B1", 0, 100), "length must be from 1 to 20000, not 0"),
        (lambda: Stock("B1", 10_000_000, 100), "length must be from 1"),
        (lambda: Stock("B1", float("nan"), 100), "whole number, not nan"),
        (lambda: Wanted("P1", 300, -70, 1, 1), "width must be from 1 to 20000, not -70"),
        (lambda: Wanted("P1", 300, 70, 0, 1), "quantity must be from 1"),
        (lambda: Wanted("P1", 300, 70, True, 1), "whole number, not True"),
        (lambda: Wanted("P1", 300, 70, 1, -1), "value must be from 0"),
        (lambda: Wanted("P1", 300, 70, 1, 1, "front"), "clean faces must be one of both, one, none"),
        (lambda: Flaw(0, 0, 0, 5), "length must be from 1"),
        (lambda: Flaw(0, 0, 5, 5, frozenset("C")), "face A, face B or both"),
        (lambda: Flaw(0, 0, 5, 5, blocks="some"), "must be one of all, show"),
        (lambda: Rules(kerf=-1), "Kerf must be from 0"),
        (lambda: Rules(cut_type="torn"), "Cut type must be one of"),
        (lambda: Problem((board(),), (part(quantity=15_000), part("P2", quantity=15_000))), "30000 pieces"),
    ],
)
def test_what_cannot_be_laid_out_is_refused_in_words(make, words):
    with pytest.raises(LayoutError, match=words):
        make()
