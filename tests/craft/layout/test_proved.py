"""What proved layouts owe to one another: marks take away, boards add, and a mirror changes nothing."""

from __future__ import annotations

from dataclasses import replace

from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st

from shopapi.craft.layout import Flaw, Problem, Rules, Stock, solve
from tests.craft.layout.checker import complaints
from tests.craft.layout.problems import FACES, part, rules, stocks

WORK = 60_000
slow = settings(
    max_examples=80, deadline=None, suppress_health_check=[HealthCheck.too_slow, HealthCheck.filter_too_much]
)


@st.composite
def few_pieces(draw: st.DrawFn) -> Problem:
    """One or two boards and up to four parts: small enough to be proved best."""
    clean = st.sampled_from(("both", "one", "none"))
    wanted = tuple(
        part(
            f"P{n}", draw(st.integers(20, 150)), draw(st.integers(8, 50)), draw(st.integers(1, 3)),
            clean_faces=draw(clean),
        )
        for n in range(draw(st.integers(1, 4)))
    )  # fmt: skip
    boards = tuple(draw(stocks(f"B{n}")) for n in range(draw(st.integers(1, 2))))
    return Problem(boards, wanted, draw(rules()))


def mirrored(stock: Stock, *, along: bool) -> Stock:
    """The board turned end for end, or edge for edge, with its marks."""

    def place(flaw: Flaw) -> Flaw:
        if along:
            return replace(flaw, x=stock.length - flaw.x - flaw.length)
        return replace(flaw, y=stock.width - flaw.y - flaw.width)

    return replace(stock, flaws=tuple(place(flaw) for flaw in stock.flaws))


def mirrored_rules(told: Rules, *, along: bool) -> Rules:
    if along:
        return replace(told, trim_left=told.trim_right, trim_right=told.trim_left)
    return replace(told, trim_bottom=told.trim_top, trim_top=told.trim_bottom)


@given(few_pieces(), st.booleans())
@slow
def test_a_mirror_image_has_the_same_value(problem, along):
    other = replace(
        problem,
        stocks=tuple(mirrored(stock, along=along) for stock in problem.stocks),
        rules=mirrored_rules(problem.rules, along=along),
    )
    one, two = solve(problem, 120, work=WORK), solve(other, 120, work=WORK)
    assert complaints(other, two) == []
    assume(one.proved_best and two.proved_best)
    assert one.value == two.value


@given(few_pieces(), st.data())
@slow
def test_a_mark_more_never_raises_the_value(problem, data):
    before = solve(problem, 120, work=WORK)
    assume(before.proved_best)
    number = data.draw(st.integers(0, len(problem.stocks) - 1))
    stock = problem.stocks[number]
    mark = Flaw(
        data.draw(st.integers(0, stock.length)),
        data.draw(st.integers(0, stock.width)),
        data.draw(st.integers(1, 60)),
        data.draw(st.integers(1, 30)),
        data.draw(st.sampled_from(FACES)),
        data.draw(st.sampled_from(("all", "show"))),
    )
    boards = list(problem.stocks)
    boards[number] = replace(stock, flaws=(*stock.flaws, mark))
    after = solve(replace(problem, stocks=tuple(boards)), 120, work=WORK)
    assert after.value <= before.value


@given(few_pieces(), st.data())
@slow
def test_a_board_more_never_lowers_the_value(problem, data):
    before = solve(problem, 120, work=WORK)
    more = replace(problem, stocks=(*problem.stocks, data.draw(stocks("more"))))
    after = solve(more, 120, work=WORK)
    assume(after.proved_best)
    assert after.value >= before.value
