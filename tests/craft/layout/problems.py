"""Small made-up layout problems, drawn at random for properties and built by name for the rest."""

from __future__ import annotations

import random

from hypothesis import strategies as st

from shopapi.craft.layout import Flaw, Problem, Rules, Stock, Wanted

FACES = (frozenset("A"), frozenset("B"), frozenset("AB"))


def board(name: str = "B1", length: int = 1000, width: int = 150, *flaws: Flaw) -> Stock:
    return Stock(name, length, width, flaws)


def part(name: str = "P1", length: int = 300, width: int = 70, quantity: int = 1, value: int | None = None, **more):
    return Wanted(name, length, width, quantity, length * width if value is None else value, **more)


def small_rack(seed: int, boards: int = 5, lines: int = 12, **more) -> Problem:
    """Boards with a few knots, and parts that need most of their wood."""
    draw = random.Random(seed)
    stocks = []
    for n in range(boards):
        length, width = draw.randint(1800, 2600), draw.randint(120, 210)
        knots = [
            Flaw(draw.randint(0, length - 60), draw.randint(0, width - 40), draw.randint(15, 60), draw.randint(10, 40))
            for _ in range(3)
        ]
        stocks.append(board(f"B{n}", length, width, *knots))
    wanted = [part(f"P{n}", draw.randint(250, 900), draw.randint(40, 110), draw.randint(1, 4)) for n in range(lines)]
    return Problem(tuple(stocks), tuple(wanted), Rules(3, 20, 20), **more)


@st.composite
def flaws(draw: st.DrawFn, length: int, width: int) -> Flaw:
    return Flaw(
        draw(st.integers(-20, length + 10)),
        draw(st.integers(-10, width + 5)),
        draw(st.integers(1, max(2, length // 3))),
        draw(st.integers(1, max(2, width // 2))),
        draw(st.sampled_from(FACES)),
        draw(st.sampled_from(("all", "show"))),
    )


@st.composite
def stocks(draw: st.DrawFn, name: str) -> Stock:
    length, width = draw(st.integers(40, 400)), draw(st.integers(20, 80))
    return Stock(name, length, width, tuple(draw(st.lists(flaws(length, width), max_size=4))))


@st.composite
def rules(draw: st.DrawFn) -> Rules:
    trims = [draw(st.sampled_from((0, 0, 2, 7))) for _ in range(4)]
    return Rules(draw(st.integers(0, 5)), *trims, draw(st.sampled_from(("exact", "trimmed"))))


@st.composite
def problems(draw: st.DrawFn) -> Problem:
    """Up to three boards and five parts; some parts fit nowhere, some may lie across the grain."""
    wanted = [
        Wanted(
            f"P{n}",
            draw(st.integers(5, 150)),
            draw(st.integers(5, 60)),
            draw(st.integers(1, 4)),
            draw(st.integers(0, 500)),
            draw(st.sampled_from(("both", "one", "none"))),
            draw(st.booleans()),
        )
        for n in range(draw(st.integers(1, 5)))
    ]
    boards = [draw(stocks(f"B{n}")) for n in range(draw(st.integers(1, 3)))]
    return Problem(tuple(boards), tuple(wanted), draw(rules()))


@st.composite
def tiny_problems(draw: st.DrawFn) -> Problem:
    """One board of a few millimetres and up to three pieces: small enough to try every layout."""
    length, width = draw(st.integers(6, 12)), draw(st.integers(3, 7))
    wanted = [
        Wanted(f"P{n}", draw(st.integers(2, 6)), draw(st.integers(2, 4)), 1, draw(st.integers(1, 30)), clean)
        for n, clean in enumerate(draw(st.lists(st.sampled_from(("both", "one", "none")), min_size=1, max_size=3)))
    ]
    stock = Stock("B", length, width, tuple(draw(st.lists(flaws(length, width), max_size=2))))
    return Problem(
        (stock,), tuple(wanted), Rules(draw(st.integers(0, 1)), cut_type=draw(st.sampled_from(("exact", "trimmed"))))
    )
