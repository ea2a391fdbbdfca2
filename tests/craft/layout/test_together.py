"""Parts that belong together come from one board, else one flitch, else like tone, and never cost a part."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from shopapi.craft.layout import LayoutError, Placement, Problem, Rules, Stock, solve
from shopapi.craft.layout.clock import Clock
from shopapi.craft.layout.together import groups_of, level_of
from shopapi.craft.layout.wishes import without_wishes
from tests.craft.layout.checker import complaints
from tests.craft.layout.problems import part, problems, small_rack

slow = settings(max_examples=40, deadline=None, suppress_health_check=[HealthCheck.too_slow])


@given(problems(), st.data())
@slow
def test_groups_never_cost_a_part_and_the_layout_can_be_cut(problem, data):
    names = st.sampled_from(("", "front", "top"))
    wanted = tuple(replace(w, together=data.draw(names)) for w in problem.wanted)
    tones = st.one_of(st.none(), st.tuples(*[st.integers(0, 20)] * 3))
    stocks = tuple(
        replace(s, flitch=data.draw(st.sampled_from(("", "F1", "F2"))), tone=data.draw(tones)) for s in problem.stocks
    )
    grouped = replace(problem, wanted=wanted, stocks=stocks)
    answer = solve(grouped, 120, work=60_000)
    assert complaints(grouped, answer) == []
    if not groups_of(grouped):
        return
    free, _ = without_wishes(grouped, Clock(120, 60_000), 0, None)
    assert answer.value >= free.value
    assert len(answer.placements) >= len(free.placements)
    for kept in answer.together:
        ids = {w.id for w in wanted if w.together == kept.group}
        used = {p.stock for p in answer.placements if p.wanted in ids}
        assert used == set(kept.stocks)
        assert kept.level == level_of([s for s in stocks if s.id in used])


def roomy(*stocks: Stock, **more) -> Problem:
    wanted = (
        part("front", 350, 90, 4, together="fronts"),
        part("rail", 500, 60, 6),
        part("leg", 700, 60, 4),
        part("top", 1200, 100, 3),
    )
    return Problem(stocks, wanted, Rules(3, 20, 20), **more)


def boards(lengths, **more) -> list[Stock]:
    return [Stock(f"B{n}", length, 200, **more) for n, length in enumerate(lengths)]


def test_a_group_comes_from_one_board_where_one_holds_it():
    answer = solve(roomy(*boards((2400, 1900, 2000, 1500))), 60, work=400_000)
    assert answer.unplaced == ()
    (kept,) = answer.together
    assert (kept.group, kept.level, len(kept.stocks)) == ("fronts", "board", 1)


def test_else_from_boards_of_one_flitch():
    short = [
        replace(stock, width=100, flitch=flitch)
        for stock, flitch in zip(boards((800, 800, 800, 800)), ("F1", "F2", "F1", "F2"), strict=True)
    ]
    long = Stock("long", 2600, 330)
    wanted = (part("front", 350, 90, 4, together="fronts"), part("top", 2500, 320))
    answer = solve(Problem((*short, long), wanted, Rules(3, 20, 20)), 60, work=400_000)
    assert answer.unplaced == ()
    assert [kept.level for kept in answer.together] == ["flitch"]


def test_else_from_boards_of_like_tone():
    tones = ((60, 10, 20), (40, 10, 20), (61, 10, 20), (20, 10, 20))
    stocks = [replace(s, width=100, tone=tone) for s, tone in zip(boards((800,) * 4), tones, strict=True)]
    answer = solve(
        Problem(tuple(stocks), (part("front", 350, 90, 4, together="fronts"),), Rules(3, 20, 20)), 60, work=400_000
    )
    (kept,) = answer.together
    assert (kept.level, kept.stocks) == ("tone", ("B0", "B2"))


def test_a_group_that_would_push_a_part_out_is_not_kept():
    # only the long board holds the top; the fronts have to make do with the short ones
    stocks = (Stock("long", 1600, 110), Stock("B1", 500, 110), Stock("B2", 500, 110))
    wanted = (part("top", 1500, 90, value=10), part("front", 350, 90, 2, together="fronts"))
    answer = solve(Problem(stocks, wanted, Rules(3)), 60, work=200_000)
    assert answer.unplaced == ()
    assert [kept.level for kept in answer.together] == ["apart"]


def test_a_group_stays_with_its_pinned_piece():
    pin = Placement("B3", "front", 20, 0, 350, 90)
    answer = solve(roomy(*boards((2400, 1900, 2000, 1900)), pins=(pin,)), 60, work=400_000)
    assert pin in answer.placements
    assert answer.unplaced == ()
    assert answer.together[0].stocks == ("B3",)


def test_groups_on_a_tight_rack_cost_nothing():
    rack = small_rack(5)
    grouped = replace(rack, wanted=tuple(replace(w, together=f"G{n % 3}") for n, w in enumerate(rack.wanted)))
    (free, _), answer = without_wishes(grouped, Clock(120, 1_000_000), 0, None), solve(grouped, 120, work=1_000_000)
    assert complaints(grouped, answer) == []
    assert answer.value >= free.value
    assert len(answer.placements) >= len(free.placements)


def test_a_tone_is_three_numbers():
    with pytest.raises(LayoutError, match="three numbers"):
        Stock("B1", 100, 100, tone=(1.0, 2.0))
