"""The layout that a hurried maker would cut: longest parts first, each on the first board with room for it."""

from __future__ import annotations

from shopapi.craft.layout import Problem, Stock

LEAST_MM = 400, 60  # what a workshop would keep
Rectangle = tuple[int, int, int, int]  # x, y, length, width


def first_fit(problem: Problem) -> tuple[dict[str, list[Rectangle]], int]:
    """By board cut, the rectangles left of it; and how many pieces found no place."""
    rules = problem.rules
    left: dict[str, list[Rectangle]] = {}
    missing = 0
    pieces = [(w.length, w.width) for w in problem.wanted for _ in range(w.quantity)]
    for length, width in sorted(pieces, reverse=True):
        for stock in problem.stocks:
            free = left.get(stock.id) or [
                (rules.trim_left, rules.trim_bottom, stock.length - rules.trim_left - rules.trim_right,
                 stock.width - rules.trim_bottom - rules.trim_top)
            ]  # fmt: skip
            found = next(((r, at) for r in free if (at := place(stock, r, length, width))), None)
            if found:
                free = [r for r in free if r != found[0]] + split(found[0], (*found[1], length, width), rules.kerf)
                left[stock.id] = free
                break
        else:
            missing += 1
    return left, missing


def place(stock: Stock, room: Rectangle, length: int, width: int) -> tuple[int, int] | None:
    x0, y0, long, wide = room
    for y in sorted({y0} | {f.y + f.width for f in stock.flaws if f.y + f.width > y0}):
        for x in sorted({x0} | {f.x + f.length for f in stock.flaws if f.x + f.length > x0}):
            if (
                x + length <= x0 + long
                and y + width <= y0 + wide
                and not any(
                    f.x < x + length and f.x + f.length > x and f.y < y + width and f.y + f.width > y
                    for f in stock.flaws
                )
            ):
                return x, y
    return None


def split(room: Rectangle, piece: Rectangle, kerf: int) -> list[Rectangle]:
    """Crosscut beside the piece, then rip: what is left before, behind, below and above it."""
    x0, y0, long, wide = room
    x, y, length, width = piece
    rest = [
        (x0, y0, x - kerf - x0, wide),
        (x + length + kerf, y0, x0 + long - x - length - kerf, wide),
        (x, y0, length, y - kerf - y0),
        (x, y + width + kerf, length, y0 + wide - y - width - kerf),
    ]
    return [r for r in rest if r[2] > 0 and r[3] > 0]


def rest(problem: Problem, left: dict[str, list[tuple[int, int, int, int]]]) -> tuple[int, list[tuple[int, int]]]:
    """Wood used of the boards cut [mm2], and all that is left to keep: leftovers and boards that were not cut."""
    kept = [r[2:] for rectangles in left.values() for r in rectangles if r[2] >= LEAST_MM[0] and r[3] >= LEAST_MM[1]]
    cut = sum(s.length * s.width for s in problem.stocks if s.id in left)
    whole = [(s.length, s.width) for s in problem.stocks if s.id not in left]
    return cut - sum(length * width for length, width in kept), kept + whole
