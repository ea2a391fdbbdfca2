"""Panels whose strips are free in number and width: strips to suit the boards, then trimmed so that their sum fits."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

from shopapi.craft.layout.clock import Clock
from shopapi.craft.layout.cut_tree import Stuck, board_tree
from shopapi.craft.layout.glue import glued_from, panel_answer
from shopapi.craft.layout.legality import gap_between, marks_under
from shopapi.craft.layout.model import (
    GREATEST_VALUE,
    Answer,
    GluedPanel,
    LayoutError,
    Panel,
    Placement,
    Problem,
    Progress,
    Wanted,
)
from shopapi.craft.layout.reasons import has_room
from shopapi.craft.layout.sheets.lay_out import lay_out

LayOut = Callable[[Problem, Clock, int, Progress | None], Answer]

STEP_MM = 5  # between the widths that are tried, at least
MOST_COUNTS = 4  # numbers of strips that are tried for a panel
FAVOUR = 2  # times the worth
FIRST_SHARE = 0.4  # of the time, for the most likely plan
PLANS_SHARE, TRY_SHARE = 0.7, 0.25  # of what is then left, for all other plans and for one of them
MOST_WIDTHS = 6  # of strips of one panel that are tried at once
MOST_OF = 0.6  # of the boards that have room for some strip


@dataclass(frozen=True)
class Plan:
    """How wide the strips of each panel are to be, (panel id, width [mm]), and how many of them.

    Strips of `favoured` panels are worth more in the search: all but one strip of a panel are worth nothing.
    """

    strips: tuple[tuple[str, int, int], ...]
    favoured: frozenset[str] = frozenset()

    def without(self, panel: str) -> tuple[tuple[str, int, int], ...]:
        """The strips of the other panels."""
        return tuple(row for row in self.strips if row[0] != panel)


def lay_out_panels(problem: Problem, clock: Clock, seed: int, told: Progress | None, as_wished: LayOut) -> Answer:
    """The best layout found of parts and panels, every panel's strips trimmed so that they make up its width.

    as_wished: lays out parts alone, wishes heeded. Raises LayoutError where the rules allow no rip to width.
    Source: OWN; equal strips are laid out first, then, where something lacks, strips of other numbers and of the widths
    that the boards hold; strips are widened where there is room, so that fewer are needed.
    """
    if problem.rules.cut_type == "exact":
        raise LayoutError("Panels of free strips need a last rip to width: allow it, or say how many strips they have.")
    plan = likely_plan(problem)
    tell = None
    if told:

        def tell(found: Answer) -> None:
            told(finished(problem, clock, found.placements))

    best, plain = _laid_out(problem, plan, clock, FIRST_SHARE, seed, tell, as_wished)
    if best.unplaced:
        lacking = frozenset(unplaced.wanted for unplaced in best.unplaced)
        for other in other_plans(problem, plan, lacking, clock.part(PLANS_SHARE), seed):
            found, other_plain = _laid_out(problem, other, clock, TRY_SHARE, seed, None, lay_out)
            if _key(found) > _key(best):
                best, plain = found, other_plain
                if told:
                    told(best)
    if best.unplaced:
        best = max(best, filled_up(problem, best, plain, clock, seed), key=_key)
        # strips of panels that did not come about have left wood for other parts
        best = max(best, _laid_around(problem, best, best.placements, (), clock, seed), key=_key)
    return best


def _laid_out(
    problem: Problem, plan: Plan, clock: Clock, share: float, seed: int, told: Progress | None, layer: LayOut
) -> tuple[Answer, Answer]:
    """The answer to a plan, and that of its plain problem."""
    part = clock.part(share)
    plain = layer(plain_problem(problem, plan), part, seed, told)
    clock.count(part.done)
    return finished(problem, clock, plain.placements), plain


def _nearly_over(clock: Clock) -> bool:
    """Whether to begin nothing new: a search needs some time before it can be ended."""
    return clock.over or clock.elapsed > 0.9 * clock.seconds


def _key(answer: Answer) -> tuple[int, int]:
    return answer.value, -len(answer.placements)


def equal_strips(panel: Panel, count: int) -> tuple[str, int, int]:
    """So many strips of one width for each panel, wide enough that their sum covers it. Source: OWN."""
    strip = panel.strip(count)
    return panel.id, strip.width, strip.quantity


def likely_plan(problem: Problem) -> Plan:
    """Equal strips, the fewest that find room on most of the boards which have room for any. Source: OWN."""
    rows = []
    for panel in problem.panels:
        on = {}
        for count in panel.strip_counts[:MOST_COUNTS]:
            strip = panel.strip(count)
            room = sum(has_room(stock, problem, strip, strip.length, strip.width) for stock in problem.stocks)
            on[equal_strips(panel, count)] = room
        rows.append(next(row for row in on if on[row] >= MOST_OF * max(on.values())))
    return Plan(tuple(rows))


def other_plans(problem: Problem, plan: Plan, lacking: frozenset[str], clock: Clock, seed: int) -> Iterator[Plan]:
    """Plans that favour the panels that lack, as they are and with one panel's strips changed, until time is over.

    They are changed to what the boards hold, or to another number.
    """
    panels = sorted(problem.panels, key=lambda panel: panel.id not in lacking)
    lacking &= {panel.id for panel in panels}
    if lacking:
        yield Plan(plan.strips, lacking)
    for panel in panels:
        rows: list[tuple[tuple[str, int, int], ...]]
        rows = [(equal_strips(panel, count),) for count in panel.strip_counts[:MOST_COUNTS]]
        if _nearly_over(clock):
            return
        if mixed := strips_that_boards_hold(problem, panel, plan, clock, seed):
            rows.insert(0, mixed)
        for row in rows:
            if _nearly_over(clock):
                return
            if not set(row) <= set(plan.strips):
                yield Plan((*plan.without(panel.id), *row), lacking)


def strips_that_boards_hold(
    problem: Problem, panel: Panel, plan: Plan, clock: Clock, seed: int
) -> tuple[tuple[str, int, int], ...]:
    """Strips of the widths that the boards hold best beside the other parts; enough for the panel.

    Every width that is tried may be taken as often as it alone would cover the panels; what a quick layout takes
    is widened where there is room, and the widest strips are kept. Empty if they do not cover the panels. Source: OWN.
    """
    tried = Plan((*plan.without(panel.id), *strips_of_every_width(panel)))
    part = clock.part(TRY_SHARE)
    found = lay_out(plain_problem(problem, tried), part, seed, None)
    clock.count(part.done)
    pieces = with_panel_names(problem, found.placements)
    for number, piece in enumerate(pieces):
        if piece.wanted == panel.id and piece not in problem.pins:
            pieces[number] = widened(problem, pieces, number, panel.strip_most)
    held = sorted(p.width for p in pieces if p.wanted == panel.id)
    missing = panel.width * panel.count
    kept: Counter[int] = Counter()
    for width in reversed(held):
        if missing > 0:
            kept[width] += 1
            missing -= width - panel.strip_loss
    return tuple((panel.id, width, many) for width, many in kept.items()) if missing <= 0 else ()


def strips_of_every_width(panel: Panel) -> list[tuple[str, int, int]]:
    """Strips of up to six widths, each as often as it alone would cover the panels. Source: OWN."""
    loss = panel.strip_loss
    step = max(STEP_MM, -(-(panel.strip_most - panel.strip_least) // (MOST_WIDTHS - 1)))
    widths = [w for w in range(panel.strip_least, panel.strip_most + 1, step) if w > loss]
    return [(panel.id, w, -(-panel.width // (w - loss)) * panel.count) for w in widths]


def strip_id(panel: str, width: int) -> str:
    """The name of a panel's strip of that width among plain parts."""
    return f"{panel} / {width}"


def plain_problem(problem: Problem, plan: Plan, pins: Iterable[Placement] | None = None) -> Problem:
    """The problem with strips of the plan's widths in place of panels; pinned strips are parts of their own.

    pins: in place of the problem's. Strips are worth their share of the panel.
    """
    pins = problem.pins if pins is None else tuple(pins)
    panels = {panel.id: panel for panel in problem.panels}
    pinned = Counter((pin.wanted, pin.width) for pin in pins if pin.wanted in panels)
    strips = {(panel, width): many for panel, width, many in plan.strips}
    held: Counter[str] = Counter()
    for (panel, width), many in pinned.items():
        held[panel] += many * (width - panels[panel].strip_loss)
    # what pinned strips cover already need not be cut again
    for panel, width in strips:
        cover = width - panels[panel].strip_loss
        spared = min(strips[panel, width], held[panel] // cover) if cover > 0 else 0
        strips[panel, width] -= spared
        held[panel] -= spared * cover
    wanted = list(problem.wanted)
    for panel, width in sorted(strips.keys() | pinned.keys()):
        many = strips.get((panel, width), 0) + pinned[panel, width]
        whole = panels[panel]
        share = min(1.0, max(1, width - whole.strip_loss) / whole.width) * (FAVOUR if panel in plan.favoured else 1)
        if many > 0:
            wanted.append(
                Wanted(
                    strip_id(panel, width), whole.length, width, many, min(GREATEST_VALUE, round(whole.value * share)),
                    whole.clean_faces, together=whole.together, wish=whole.wish,
                )
            )  # fmt: skip
    named = tuple(replace(p, wanted=strip_id(p.wanted, p.width)) if p.wanted in panels else p for p in pins)
    return Problem(problem.stocks, tuple(wanted), problem.rules, named, aim=problem.aim)


def with_panel_names(problem: Problem, placements: Iterable[Placement]) -> list[Placement]:
    """The placements of a plain problem, strips named after their panels again."""
    panels = [panel.id for panel in problem.panels]
    names = {strip_id(panel, p.width): panel for p in placements for panel in panels}
    return [replace(p, wanted=names[p.wanted]) if p.wanted in names else p for p in placements]


def finished(problem: Problem, clock: Clock, placements: Sequence[Placement]) -> Answer:
    """The answer of a plain problem's placements: strips widened where there is room, glued and trimmed.

    Strips that no panel needs, or that make no whole panel, are left uncut. Source: OWN.
    """
    pinned = set(problem.pins)
    pieces = with_panel_names(problem, placements)
    glued: list[GluedPanel] = []
    kept = [p for p in pieces if all(p.wanted != panel.id for panel in problem.panels)]
    for panel in problem.panels:
        ours = [n for n, p in enumerate(pieces) if p.wanted == panel.id]
        narrow = glued_from(panel, [pieces[n] for n in ours], pinned)
        for n in ours:
            if pieces[n] not in pinned:
                pieces[n] = widened(problem, pieces, n, panel.strip_most)
        wide = glued_from(panel, [pieces[n] for n in ours], pinned)
        best = max((narrow, wide), key=lambda sets: (len(sets), -sum(len(g.strips) for g in sets)))
        glued += best
        strips = [strip for one in best for strip in one.strips]
        loose = [pieces[n] for n in ours if pieces[n] in pinned and pieces[n] not in strips]
        kept += strips + loose
        # what is left uncut, or trimmed, makes room for the strips of the next panel
        pieces = [p for n, p in enumerate(pieces) if n not in set(ours)] + strips + loose
    return panel_answer(problem, clock.elapsed, kept, glued)


def widened(problem: Problem, pieces: Sequence[Placement], number: int, most: int) -> Placement:
    """A strip as wide as its place allows, up to `most` [mm], upwards and downwards. Source: OWN."""
    strip = pieces[number]
    stock = next(s for s in problem.stocks if s.id == strip.stock)
    others = [p for n, p in enumerate(pieces) if n != number and p.stock == strip.stock]
    panel = next(p for p in problem.panels if p.id == strip.wanted)
    rules, top = problem.rules, strip.y + strip.width
    column = replace(strip, y=0, width=stock.width)
    walls = [(flaw.y, flaw.y + flaw.width) for flaw in marks_under(column, stock, panel.clean_faces)]
    walls += [
        (p.y - rules.kerf, p.y + p.width + rules.kerf)
        for p in others
        if p.x < strip.x + strip.length + rules.kerf and strip.x < p.x + p.length + rules.kerf
    ]
    highest = min([low for low, _ in walls if low >= top], default=stock.width - rules.trim_top)
    lowest = max([high for _, high in walls if high <= strip.y], default=rules.trim_bottom)
    highest, lowest = min(highest, stock.width - rules.trim_top), max(lowest, rules.trim_bottom)
    for low, high in ((lowest, highest), (strip.y, highest), (lowest, top)):
        for width in range(min(most, high - low), strip.width, -STEP_MM):
            wider = replace(strip, y=max(low, min(strip.y, high - width)), width=width)
            if not isinstance(board_tree(stock, [*others, wider], rules), Stuck):
                return wider
    return strip


def filled_up(problem: Problem, best: Answer, plain: Answer, clock: Clock, seed: int) -> Answer:
    """What lacks laid out once more around all that is placed, with strips of any width for panels that lack some."""
    panels = {panel.id: panel for panel in problem.panels}
    lacking = {unplaced.wanted for unplaced in best.unplaced}
    whole = {strip for one in best.glued for strip in one.strips}
    begun = [p for p in with_panel_names(problem, plain.placements) if p.wanted in lacking and p.wanted in panels]
    # strips of panels that are not whole stay for now, where those of whole ones leave them
    held = [*best.placements]
    for strip in begun:
        if strip not in whole and all(
            gap_between(strip, p) >= problem.rules.kerf for p in held if p.stock == strip.stock
        ):
            held.append(strip)
    rows: list[tuple[str, int, int]] = []
    for name in sorted(lacking & panels.keys()):
        panel = panels[name]
        widths = range(panel.strip_least, panel.strip_most + 1, STEP_MM)
        rows += [
            (name, w, -(-panel.width // (w - panel.strip_loss)) * panel.count) for w in widths if w > panel.strip_loss
        ]
    return _laid_around(problem, best, held, tuple(rows), clock, seed)


def _laid_around(
    problem: Problem,
    best: Answer,
    held: Sequence[Placement],
    strips: tuple[tuple[str, int, int], ...],
    clock: Clock,
    seed: int,
) -> Answer:
    """What lacks laid out around the pieces held, with these strips for the panels; the best so far if that fails."""
    if _nearly_over(clock):
        return best
    try:
        part = clock.part(0.6)
        answer = lay_out(plain_problem(problem, Plan(strips), held), part, seed, None)
        clock.count(part.done)
        return finished(problem, clock, answer.placements)
    except LayoutError:
        # the pieces held leave no way to saw them apart
        return best
