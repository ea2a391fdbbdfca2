"""Why a part found no place, in a maker's words."""

from __future__ import annotations

from collections.abc import Callable

from shopapi.craft.layout.model import Flaw, Panel, Problem, Stock, Wanted


def _keeps_off(flaw: Flaw, wanted: Wanted, face: str | None) -> bool:
    """Whether a flaw keeps the part off; face: the one that must be clean where only one must."""
    if flaw.blocks == "all" or wanted.clean_faces == "both":
        return True
    return wanted.clean_faces == "one" and face in flaw.faces


def has_room(stock: Stock, problem: Problem, wanted: Wanted, length: int, width: int) -> bool:
    """Whether the bare board has a clear rectangle of that size [mm] for the part. Source: OWN."""
    rules = problem.rules
    left, right = rules.trim_left, stock.length - rules.trim_right
    bottom, top = rules.trim_bottom, stock.width - rules.trim_top
    for face in ("A", "B") if wanted.clean_faces == "one" else (None,):
        flaws = [f for f in stock.flaws if _keeps_off(f, wanted, face)]
        for x in {left} | {f.x + f.length for f in flaws}:
            if x < left or x + length > right:
                continue
            across = [f for f in flaws if f.x < x + length and f.x + f.length > x]
            for y in {bottom} | {f.y + f.width for f in across}:
                if y < bottom or y + width > top:
                    continue
                if not any(f.y < y + width and f.y + f.width > y for f in across):
                    return True
    return False


def millimetres(length: int) -> str:
    """A length as whole millimetres. [mm] Source: OWN."""
    return f"{length} mm"


def reason_for(problem: Problem, wanted: Wanted | Panel, say: Callable[[int], str] = millimetres) -> str:
    """What keeps a part from a place: too long, too wide, no clear wood of its size, or none left.

    A panel of free strips is judged by its narrowest strips. say: prints a length [mm] for the reader.
    Source: OWN, comparison of sizes and clear rectangles.
    """
    if isinstance(wanted, Panel):
        wanted = wanted.strip(wanted.strip_counts[-1])
    rules = problem.rules
    lengths = [s.length - rules.trim_left - rules.trim_right for s in problem.stocks]
    widths = [s.width - rules.trim_bottom - rules.trim_top for s in problem.stocks]
    size = f"{say(wanted.length)} × {say(wanted.width)}"
    ways = [(wanted.length, wanted.width)] + ([(wanted.width, wanted.length)] if wanted.any_grain else [])
    if not any(a <= le and b <= wi for a, b in ways for le, wi in zip(lengths, widths, strict=True)):
        trimmed = " after end trim" if rules.trim_left + rules.trim_right else ""
        over_length = min(a for a, _ in ways) - max(lengths)
        over_width = min(b for _, b in ways) - max(widths)
        if over_width > 0 and over_width >= over_length:
            return f"{say(over_width)} wider than any board"
        if over_length > 0:
            return f"{say(over_length)} longer than any board{trimmed}"
        return f"No board is long and wide enough for {size}{trimmed}"
    if not any(has_room(s, problem, wanted, a, b) for a, b in ways for s in problem.stocks):
        clean = {"both": "", "one": " on one face", "none": ""}[wanted.clean_faces]
        return f"No board has a clear stretch of {size}{clean}"
    return f"No clear stretch of {size} is left on these boards"
