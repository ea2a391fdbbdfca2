"""How handsome a layout is, and small moves that make it handsomer at no part's price."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import replace
from math import dist, hypot

from shopapi.craft.layout.cut_tree import Stuck, board_tree
from shopapi.craft.layout.legality import gap_between, marks_under
from shopapi.craft.layout.model import CleanFaces, Flaw, Panel, Placement, Problem, Rules, Stock, Wanted
from shopapi.craft.layout.together import kept_together, level_of

CLEAN_MARGIN_MM = 20  # a mark farther off than this no longer troubles the eye
SEEN = {"both": 1.0, "one": 0.7, "none": 0.2}  # how much a part's looks count
NEARNESS = {"board": 1.0, "flitch": 0.8, "tone": 0.6, "apart": 0.0}
TONE_APART = 20.0  # distance of L*, a*, b* from the mean at which tones no longer go together
WEIGHTS = {"margin": 0.4, "match": 0.25, "tone": 0.15, "figure": 0.2}
MOST_MOVED = 400  # pieces of a layout whose places are bettered
STEPS_MM = (20, 10, 5)


def looks_of(problem: Problem, placements: Sequence[Placement]) -> float:
    """How handsome a layout is, from 0 to 1: 1 where nothing could be better, or nothing is placed.

    A weighted mean of what applies: clear margins to marks (parts that are seen count more), pieces of a group or of a
    part from one board or flitch, tones that go together, and figure where it is wished for.
    Source: OWN; measures and weights are our own choice, no source.
    """
    if not placements:
        return 1.0
    parts = parts_of(problem)
    stocks = {stock.id: stock for stock in problem.stocks}
    seen = [SEEN[parts[p.wanted].clean_faces] for p in placements]
    margins = [margin_of(p, stocks[p.stock], parts[p.wanted].clean_faces) / CLEAN_MARGIN_MM for p in placements]
    found = {"margin": _mean(margins, seen)}
    if levels := list(_levels(problem, placements, stocks)):
        found["match"] = _mean([worth for worth, _ in levels], [weight for _, weight in levels])
    toned = [(p, weight) for p, weight in zip(placements, seen, strict=True) if stocks[p.stock].tone is not None]
    if toned:
        found["tone"] = _tone([stocks[p.stock].tone for p, _ in toned], [weight for _, weight in toned])
    wished = [p for p in placements if parts[p.wanted].wish == "figure"]
    if wished and any(stock.figures for stock in problem.stocks):
        found["figure"] = sum(figure_share(p, stocks[p.stock]) for p in wished) / len(wished)
    return _mean(list(found.values()), [WEIGHTS[name] for name in found])


def parts_of(problem: Problem) -> dict[str, Wanted | Panel]:
    """Parts and panels by id. Source: OWN."""
    return {part.id: part for part in problem.parts}


def _mean(values: Sequence[float], weights: Sequence[float]) -> float:
    return sum(v * w for v, w in zip(values, weights, strict=True)) / sum(weights)


def _levels(
    problem: Problem, placements: Sequence[Placement], stocks: dict[str, Stock]
) -> Iterator[tuple[float, float]]:
    """How near the pieces of each group lie, and with less weight those of each part without a group."""
    for kept in kept_together(problem, placements):
        yield NEARNESS[kept.level], 1.0
    grouped = {part.id for part in problem.parts if part.together}
    used = defaultdict(list)
    for placed in placements:
        if placed.wanted not in grouped:
            used[placed.wanted].append(placed.stock)
    for names in used.values():
        if len(names) > 1:
            yield NEARNESS[level_of([stocks[name] for name in sorted(set(names))])], 0.3


def _tone(tones: Sequence[tuple[float, float, float] | None], weights: Sequence[float]) -> float:
    known = [tone for tone in tones if tone is not None]
    middle = [_mean([tone[axis] for tone in known], weights) for axis in range(3)]
    return 1 - min(1.0, _mean([dist(tone, middle) for tone in known], weights) / TONE_APART)


def figure_share(placed: Placement, stock: Stock) -> float:
    """The most of a piece that one figured place covers, on a face that the piece shows. Source: OWN."""
    return max((_overlap(placed, f) / (placed.length * placed.width) for f in stock.figures), default=0.0)


def _overlap(placed: Placement, flaw: Flaw) -> int:
    along = min(placed.x + placed.length, flaw.x + flaw.length) - max(placed.x, flaw.x)
    across = min(placed.y + placed.width, flaw.y + flaw.width) - max(placed.y, flaw.y)
    return max(0, along) * max(0, across)


def margin_of(placed: Placement, stock: Stock, clean_faces: CleanFaces) -> float:
    """How far the nearest mark that the piece minds is off, up to 20 mm. [mm] Source: OWN."""
    about = replace(
        placed,
        x=placed.x - CLEAN_MARGIN_MM,
        y=placed.y - CLEAN_MARGIN_MM,
        length=placed.length + 2 * CLEAN_MARGIN_MM,
        width=placed.width + 2 * CLEAN_MARGIN_MM,
    )
    near = marks_under(about, stock, clean_faces)
    return min([CLEAN_MARGIN_MM, *(_distance(placed, flaw) for flaw in near)])


def _distance(placed: Placement, flaw: Flaw) -> float:
    along = max(flaw.x - placed.x - placed.length, placed.x - flaw.x - flaw.length, 0)
    across = max(flaw.y - placed.y - placed.width, placed.y - flaw.y - flaw.width, 0)
    return hypot(along, across)


def bettered(problem: Problem, placements: Sequence[Placement]) -> list[Placement]:
    """The same pieces on the same boards, moved off the marks beside them where there is room; pins stay.

    Pieces move by up to 20 mm, so that offcuts stay nearly as they are. Layouts of very many pieces stay as they are.
    Source: OWN.
    """
    pieces = list(placements)
    if len(pieces) > MOST_MOVED:
        return pieces
    parts, stocks, pins = parts_of(problem), {s.id: s for s in problem.stocks}, set(problem.pins)
    for number, placed in enumerate(pieces):
        if placed in pins:
            continue
        stock, faces = stocks[placed.stock], parts[placed.wanted].clean_faces
        margin = margin_of(placed, stock, faces)
        if margin >= CLEAN_MARGIN_MM:
            continue
        others = [p for n, p in enumerate(pieces) if n != number and p.stock == placed.stock]
        moves = [
            (round(margin_of(moved, stock, faces), 3), -abs(moved.x - placed.x) - abs(moved.y - placed.y), moved)
            for moved in _moved(placed)
            if _free(moved, stock, faces, others, problem.rules)
        ]
        for better, _, moved in sorted(moves, key=lambda row: row[:2], reverse=True):
            if better <= margin:
                break
            if not isinstance(board_tree(stock, [*others, moved], problem.rules), Stuck):
                pieces[number] = moved
                break
    return pieces


def _moved(placed: Placement) -> Iterator[Placement]:
    for step in STEPS_MM:
        for dx in (-step, 0, step):
            for dy in (-step, 0, step):
                if dx or dy:
                    yield replace(placed, x=placed.x + dx, y=placed.y + dy)


def _free(placed: Placement, stock: Stock, clean_faces: CleanFaces, others: Sequence[Placement], rules: Rules) -> bool:
    """Whether a piece lies inside the trimmed board, off the marks, a kerf from all others."""
    return (
        placed.x >= rules.trim_left
        and placed.y >= rules.trim_bottom
        and placed.x + placed.length <= stock.length - rules.trim_right
        and placed.y + placed.width <= stock.width - rules.trim_top
        and not marks_under(placed, stock, clean_faces)
        and all(gap_between(placed, other) >= rules.kerf for other in others)
    )


def figured_places(problem: Problem) -> tuple[Placement, ...]:
    """Places on figured wood for the pieces that are wished there, beside the pins: the largest pieces first.

    A piece is taken where a figured place covers most of it, and at least half of it or of the figured place.
    Source: OWN.
    """
    pins = list(problem.pins)
    chosen: list[Placement] = []
    wished = [w for w in problem.wanted if w.wish == "figure"]
    for part in sorted(wished, key=lambda w: (-w.length * w.width, w.id)):
        for _ in range(part.quantity - sum(pin.wanted == part.id for pin in problem.pins)):
            best = max(_on_figure(problem, part, [*pins, *chosen]), default=None, key=lambda row: row[0])
            if best is None:
                break
            chosen.append(best[1])
    return tuple(chosen)


def _on_figure(problem: Problem, part: Wanted, taken: Sequence[Placement]) -> Iterator[tuple[float, Placement]]:
    """Free places of a part on the figured places of all boards, with the share of it that is figured."""
    for stock in problem.stocks:
        others = [p for p in taken if p.stock == stock.id]
        for figure in stock.figures:
            for face in sorted(figure.faces):
                for x in _starts(figure.x, figure.length, part.length):
                    for y in _starts(figure.y, figure.width, part.width):
                        placed = Placement(stock.id, part.id, x, y, part.length, part.width, face)
                        cover = _overlap(placed, figure)
                        share = cover / (part.length * part.width)
                        enough = share >= 0.5 or cover >= 0.5 * figure.length * figure.width
                        if (
                            enough
                            and _free(placed, stock, part.clean_faces, others, problem.rules)
                            and not isinstance(board_tree(stock, [*others, placed], problem.rules), Stuck)
                        ):
                            yield share, placed


def _starts(low: int, size: int, length: int) -> list[int]:
    """Where a piece may begin to lie on a figured place: at its ends, in its middle, in steps between."""
    first, last = sorted((low, low + size - length))
    return sorted({first, last, (first + last) // 2, *range(first, last + 1, 25)})
