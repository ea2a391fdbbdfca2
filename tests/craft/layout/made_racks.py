"""Made-up racks of sawn boards with flaws, and part lists that need a chosen share of their clear wood."""

from __future__ import annotations

import random
from dataclasses import replace

from shopapi.craft.layout import Flaw, Problem, Rules, Stock, Wanted

# name, lengths, widths [mm], most pieces of a line, worth per area where looks count
SHAPES = (
    ("top strip", (1150, 1950), (88, 165), 7, 1.6),
    ("long apron", (900, 1700), (90, 90), 2, 1.25),
    ("short apron", (430, 640), (90, 90), 2, 1.15),
    ("leg", (400, 720), (70, 76), 4, 1.25),
    ("stretcher", (850, 1650), (60, 60), 1, 1.0),
    ("batten", (530, 740), (55, 55), 2, 0.7),
    ("back leg", (800, 930), (85, 85), 8, 1.3),
    ("front leg", (415, 430), (45, 45), 8, 1.1),
    ("seat rail", (375, 390), (65, 65), 15, 1.0),
    ("side stretcher", (345, 360), (35, 35), 8, 0.8),
    ("crest rail", (405, 420), (95, 95), 4, 1.7),
    ("slat", (365, 380), (50, 50), 12, 1.4),
    ("bench board", (1000, 1450), (110, 140), 3, 1.6),
    ("door stile", (700, 1060), (60, 60), 4, 1.4),
    ("door rail", (150, 320), (60, 60), 4, 1.2),
    ("panel strip", (580, 930), (95, 125), 4, 1.8),
    ("drawer front", (360, 710), (140, 140), 2, 2.0),
    ("runner", (400, 400), (30, 30), 2, 0.5),
)


def made_board(draw: random.Random, name: str) -> Stock:
    """A board with end checks, perhaps a split, knots, wane or sapwood along an edge."""
    length, width = draw.randint(2380, 3650), draw.randint(127, 290)
    flaws = []

    def flaw(x: int, y: int, along: int, across: int) -> None:
        x, y = max(0, min(x, length - along)), max(0, min(y, width - across))
        flaws.append(Flaw(x, y, along, min(across, width)))

    for _ in range(draw.choice((2, 2, 3, 3))):
        along = draw.randint(35, 225)
        flaw(draw.choice((0, length)), draw.randint(0, width), along, draw.randint(6, 14))
    if draw.random() < 0.4:
        flaw(draw.choice((0, length)), draw.randint(0, width), draw.randint(200, 600), draw.randint(10, 22))
    for _ in range(draw.choice((0, 1, 2, 3, 4, 5))):
        size = draw.randint(15, 120)
        flaw(draw.randint(0, length), draw.randint(0, width), size, max(10, int(size * draw.uniform(0.4, 1.0))))
    if draw.random() < 0.4:
        steps, start, edge = draw.randint(2, 6), draw.randint(0, length // 2), draw.random() < 0.5
        along = draw.randint(120, 900)
        for step in range(steps):
            if start + step * along < length - along:
                depth = draw.randint(8, 40)
                flaw(start + step * along, 0 if edge else width - depth, along, depth)
    return Stock(name, length, width, tuple(flaws))


def made_rack(seed: int, boards: int, lines: int, share: float, *, looks: bool = True, cut_type="exact") -> Problem:
    """So many boards and part lines; the parts together need `share` of the clear wood."""
    draw = random.Random(seed)
    stocks = tuple(made_board(draw, f"B{n + 1:02}") for n in range(boards))
    clear = sum(s.length * s.width - sum(f.length * f.width for f in s.flaws) for s in stocks)
    wanted = []
    for n in range(lines):
        name, lengths, widths, most, worth = SHAPES[n % len(SHAPES)] if n < len(SHAPES) else draw.choice(SHAPES)
        length, width = 5 * round(draw.uniform(*lengths) / 5), draw.choice(sorted({*widths, *range(*widths, 7)}))
        value = round(length * width / 100 * (worth if looks else 1.0))
        wanted.append(Wanted(f"P{n + 1:03} {name}", length + 15, width + 5, draw.randint(1, most), value))
    wanted = scaled(wanted, share * clear)
    return Problem(stocks, tuple(wanted), Rules(draw.choice((2, 3, 4)), 20, 20, 0, 0, cut_type))


def scaled(wanted: list[Wanted], area: float) -> list[Wanted]:
    """The same lines with quantities changed so that together they come near this area."""
    now = sum(w.length * w.width * w.quantity for w in wanted)
    wanted = [replace(w, quantity=max(1, round(w.quantity * area / now))) for w in wanted]
    while sum(w.length * w.width * w.quantity for w in wanted) > area and any(w.quantity > 1 for w in wanted):
        largest = max(range(len(wanted)), key=lambda n: wanted[n].quantity)
        wanted[largest] = replace(wanted[largest], quantity=wanted[largest].quantity - 1)
    return wanted


def few_boards(seed: int, boards: int, lines: int) -> Problem:
    """One to three boards and one of each part."""
    rack = made_rack(seed, boards, lines, 1.0)
    return replace(rack, wanted=tuple(replace(w, quantity=1) for w in rack.wanted))
