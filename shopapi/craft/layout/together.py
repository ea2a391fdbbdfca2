"""Parts that belong together: from one board, else boards of one flitch, else boards of like tone."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import combinations
from math import dist

from shopapi.craft.layout.clock import Clock
from shopapi.craft.layout.model import (
    GREATEST_VALUE,
    Answer,
    KeptLevel,
    KeptTogether,
    Placement,
    Problem,
    Stock,
    Wanted,
)

LIKE_TONE = 5.0  # most distance of two boards' L*, a*, b* to count as alike; our own choice
MOST_SETS = 8  # sets of boards that are tried at each level
ENOUGH_SETS = 3  # that hold the group, to take the best of
MOST_IN_A_SET = 4
TRY_WORK, TRY_SECONDS = 40_000.0, 0.2  # spent on one set of boards
WEIGHT = 30  # how much more a group's pieces are worth while a home is looked for


def ids_of_groups(problem: Problem) -> dict[str, set[str]]:
    """The parts and panels of every group. Source: OWN."""
    groups: dict[str, set[str]] = {}
    for part in problem.parts:
        if part.together:
            groups.setdefault(part.together, set()).add(part.id)
    return groups


def groups_of(problem: Problem) -> dict[str, list[Wanted]]:
    """The parts of every group of more than one piece, the group with most wood first. Source: OWN."""
    parts_of = {name: [w for w in problem.wanted if w.id in ids] for name, ids in ids_of_groups(problem).items()}
    real = {name: parts for name, parts in parts_of.items() if sum(w.quantity for w in parts) > 1}
    area = {name: sum(w.length * w.width * w.quantity for w in parts) for name, parts in real.items()}
    return {name: real[name] for name in sorted(real, key=lambda name: (-area[name], name))}


def kept_together(problem: Problem, placements: Sequence[Placement]) -> tuple[KeptTogether, ...]:
    """How near to one another the placed pieces of every group lie. Source: OWN."""
    stocks = {stock.id: stock for stock in problem.stocks}
    found = []
    for name, ids in sorted(ids_of_groups(problem).items()):
        used = sorted({p.stock for p in placements if p.wanted in ids})
        if used:
            found.append(KeptTogether(name, level_of([stocks[stock] for stock in used]), tuple(used)))
    return tuple(found)


def level_of(stocks: Sequence[Stock]) -> KeptLevel:
    """How near these boards are to one another.

    Source: OWN; boards count as alike within 5 of L*, a*, b* distance (CIE76), which is our own choice.
    """
    if len(stocks) < 2:
        return "board"
    if stocks[0].flitch and all(stock.flitch == stocks[0].flitch for stock in stocks):
        return "flitch"
    return "tone" if _spread(stocks) <= LIKE_TONE else "apart"


def _spread(stocks: Sequence[Stock]) -> float:
    """The greatest distance in tone between two of the boards; endless if a tone is not known."""
    tones = [stock.tone for stock in stocks]
    if any(tone is None for tone in tones):
        return float("inf")
    return max((dist(a, b) for a, b in combinations(tones, 2) if a and b), default=0.0)


def homes(problem: Problem, like: Sequence[Placement], ids: set[str]) -> Iterator[list[tuple[Stock, ...]]]:
    """Sets of boards that a group may come from, level by level: single boards, flitches, boards of like tone.

    like: a layout without wishes; boards on which it has most of the group come first.
    """
    held = Counter(p.stock for p in like if p.wanted in ids)
    order = sorted(problem.stocks, key=lambda s: (-held[s.id], -s.length * s.width, s.id))
    yield [(stock,) for stock in order[:MOST_SETS]]
    flitches: dict[str, list[Stock]] = {}
    for stock in order:
        if stock.flitch:
            flitches.setdefault(stock.flitch, []).append(stock)
    yield [tuple(stocks) for stocks in flitches.values() if len(stocks) > 1][:MOST_SETS]
    known = [stock for stock in order if stock.tone is not None]
    sets = {}
    for stock in known:
        near = sorted(known, key=lambda other: (dist(stock.tone or (), other.tone or ()), other.id))
        for many in range(2, min(MOST_IN_A_SET, len(near)) + 1):
            chosen = tuple(sorted(near[:many], key=lambda s: s.id))
            sets[chosen] = (many, _spread(chosen))
    alike = [chosen for chosen, (_, spread) in sets.items() if spread <= LIKE_TONE]
    yield sorted(alike, key=lambda chosen: sets[chosen])[:MOST_SETS]


def gathered(
    problem: Problem, group: Sequence[Wanted], like: Sequence[Placement], clock: Clock, seed: int
) -> Iterator[tuple[Placement, ...]]:
    """Places for all pieces of a group beside the pins: on one board, then on one flitch, then on boards of like tone.

    A level at which the group does not fit is left out. Each set of boards is laid out with the group's pieces worth
    much more than others, so that they lie where the others still find room; the set that holds most for its wood is
    taken.
    """
    ids = {wanted.id for wanted in group}
    needed = sum(wanted.quantity for wanted in group)
    worth = {wanted.id: wanted.value for wanted in problem.wanted}
    for sets in homes(problem, like, ids):
        best: tuple[float, tuple[Placement, ...]] | None = None
        fitting = 0
        for stocks in sets:
            if clock.over:
                return
            if fitting == ENOUGH_SETS:
                break
            if not ids_fit(problem, ids, stocks):
                continue
            answer = laid_out_on(problem, stocks, ids, clock, seed)
            ours = tuple(p for p in answer.placements if p.wanted in ids)
            density = sum(worth[p.wanted] for p in answer.placements) / sum(s.length * s.width for s in stocks)
            if len(ours) == needed:
                fitting += 1
                if best is None or density > best[0]:
                    best = density, ours
        if best is not None:
            yield best[1]


def ids_fit(problem: Problem, ids: set[str], stocks: Sequence[Stock]) -> bool:
    """Whether the group has no pin elsewhere and no more wood than these boards."""
    names = {stock.id for stock in stocks}
    if any(pin.wanted in ids and pin.stock not in names for pin in problem.pins):
        return False
    area = sum(w.length * w.width * w.quantity for w in problem.wanted if w.id in ids)
    return area <= sum(stock.length * stock.width for stock in stocks)


def laid_out_on(problem: Problem, stocks: Sequence[Stock], ids: set[str], clock: Clock, seed: int) -> Answer:
    """A quick layout on these boards alone, the parts named worth more than the others."""
    from shopapi.craft.layout.rack_search import lay_out_rack

    names = {stock.id for stock in stocks}
    elsewhere = Counter(pin.wanted for pin in problem.pins if pin.stock not in names)
    wanted = tuple(
        replace(
            part,
            quantity=part.quantity - elsewhere[part.id],
            value=min(GREATEST_VALUE, WEIGHT * max(part.value, 1)) if part.id in ids else part.value,
        )
        for part in problem.wanted
        if part.quantity > elsewhere[part.id]
    )
    pins = tuple(pin for pin in problem.pins if pin.stock in names)
    spent = clock.part(1.0)
    work = TRY_WORK if spent.work is None else min(TRY_WORK, spent.work)
    quick = Clock(min(TRY_SECONDS, spent.seconds), work, lambda: clock.over)
    answer = lay_out_rack(Problem(tuple(stocks), wanted, problem.rules, pins), quick, seed, None)
    clock.count(quick.done)
    return answer
