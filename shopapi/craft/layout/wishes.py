"""Layouts that heed wishes: first the best layout without them, then one that keeps them at no part's price."""

from __future__ import annotations

import math
from dataclasses import replace

from shopapi.craft.layout.clock import Clock
from shopapi.craft.layout.cut_tree import cut_tree_of
from shopapi.craft.layout.looks import bettered, figured_places, looks_of
from shopapi.craft.layout.model import Answer, LayoutError, Placement, Problem, Progress, Wanted
from shopapi.craft.layout.panels import lay_out_panels
from shopapi.craft.layout.sheets.lay_out import lay_out
from shopapi.craft.layout.together import MOST_IN_A_SET, gathered, groups_of, kept_together, laid_out_on

FREE_SHARE, SCARCE_SHARE = 0.4, 0.8  # of the time, for the layout without wishes, by how scarce wood is
ROOMY_SHARE = 0.6  # of the boards: parts that need less will mostly find a place
MANY = 20_000  # boards x parts of which one layout takes long
ALL_SHARE = 0.5  # of what is then left, for a layout that keeps every group
ONE_SHARE = 0.3  # of what is then left, for a layout that keeps one more group
FEW_SHARE = 0.15  # of what is then left, for one that moves a single part
MOST_SEEDS = 6  # other layouts that are looked at for their looks
GOOD_ENOUGH = 0.98


def lay_out_as_wished(problem: Problem, clock: Clock, seed: int, told: Progress | None) -> Answer:
    """The best layout found that keeps wishes where that costs no part; the bound is that of all layouts.

    Source: OWN; how the time is shared out is our own choice.
    """
    if problem.panels:
        return finished(problem, lay_out_panels(problem, clock, seed, told, _as_wished))
    return finished(problem, _as_wished(problem, clock, seed, told))


def _as_wished(problem: Problem, clock: Clock, seed: int, told: Progress | None) -> Answer:
    """The same for parts alone, without the last small moves."""
    plain = with_top_values(problem)
    groups = groups_of(problem)
    figured = figured_places(problem) if problem.aim != "yield" else ()
    valued = [w for w in problem.wanted if w.value_on]
    if not (groups or figured or valued or problem.aim == "looks"):
        return lay_out(problem, clock, seed, told)
    free, known_after = without_wishes(plain, clock, seed, told)
    search = _Wishes(problem, plain, free, clock, seed, known_after)
    search.figured(figured)
    search.all_at_once(list(groups.values()))
    for name, parts in groups.items():
        if name not in search.kept:
            search.one(name, parts)
    for part in valued:
        search.where_worth_most(part)
    if problem.aim == "looks":
        search.handsomer()
    return with_bound_of(problem, search.best, free)


def without_wishes(problem: Problem, clock: Clock, seed: int, told: Progress | None) -> tuple[Answer, float]:
    """The layout without wishes, and after how long its first places were known. [s]

    It gets most of the time where wood is scarce, as wishes will hardly be kept then, or where there are very many
    boards and parts.
    """
    known_after = math.inf

    def tell(answer: Answer) -> None:
        nonlocal known_after
        known_after = min(known_after, clock.elapsed)
        if told:
            told(answer)

    wood = sum(stock.length * stock.width for stock in problem.stocks)
    needed = sum(w.length * w.width * w.quantity for w in problem.wanted)
    roomy = needed < ROOMY_SHARE * wood and len(problem.stocks) * len(problem.wanted) < MANY
    free = run(problem, clock, FREE_SHARE if roomy else SCARCE_SHARE, seed, tell)
    if roomy and not free.proved_best:
        longer = run(problem, clock, SCARCE_SHARE, seed, tell)
        if no_worse(longer, free) or longer.value > free.value:
            free = longer
    return free, known_after


def with_top_values(problem: Problem) -> Problem:
    """The problem with every part worth what it is on the board where it is worth most: its bound holds for it too."""
    if all(w.value_on is None for w in problem.wanted):
        return problem
    stocks = [stock.id for stock in problem.stocks]
    wanted = tuple(replace(w, value=max(w.worth_on(s) for s in stocks), value_on=None) for w in problem.wanted)
    return replace(problem, wanted=wanted)


def finished(problem: Problem, answer: Answer) -> Answer:
    """The answer with its groups and looks, bettered by small moves where looks are the aim."""
    placements = answer.placements
    if problem.aim == "looks":
        placements = tuple(bettered(problem, placements))
    moved = dict(zip(answer.placements, placements, strict=True))
    return replace(
        answer,
        placements=placements,
        cuts=answer.cuts if placements == answer.placements else cut_tree_of(problem, placements),
        glued=tuple(replace(one, strips=tuple(moved[strip] for strip in one.strips)) for one in answer.glued),
        together=kept_together(problem, placements),
        looks=looks_of(problem, placements),
    )


class _Wishes:
    """The best layout so far, with the pins that keep its wishes; least_s: what one more layout takes at least. [s]"""

    def __init__(self, problem: Problem, plain: Problem, free: Answer, clock: Clock, seed: int, least_s: float) -> None:
        self.least_s = least_s
        self.problem, self.free, self.clock, self.seed = problem, free, clock, seed
        self.best, self.pinned = free, plain
        self.kept: set[str] = set()

    @property
    def over(self) -> bool:
        """Whether to begin no other layout."""
        return self.clock.over or (self.clock.work is None and self.clock.seconds - self.clock.elapsed < self.least_s)

    def figured(self, places: tuple[Placement, ...]) -> None:
        """Try to keep pieces on figured wood: all of them, else one after another."""
        if places and not self._try(with_pins(self.pinned, places), {"figure"}, ONE_SHARE):
            for place in places if len(places) > 1 else ():
                self._try(with_pins(self.pinned, (place,)), {"figure"}, FEW_SHARE)
        self.kept.discard("figure")

    def where_worth_most(self, part: Wanted) -> None:
        """Try to move a part to the boards where it is worth most."""
        most = max(part.worth_on(stock.id) for stock in self.problem.stocks)
        stocks = [s for s in self.problem.stocks if part.worth_on(s.id) == most][:MOST_IN_A_SET]
        if self.over or len(stocks) == len(self.problem.stocks):
            return
        found = laid_out_on(self.pinned, stocks, {part.id}, self.clock, self.seed)
        places = tuple(p for p in found.placements if p.wanted == part.id)
        before, pinned = self.best, self.pinned
        if self._try(with_pins(self.pinned, places), {part.id}, FEW_SHARE) and (
            worth_of(self.problem, self.best) <= worth_of(self.problem, before)
        ):
            self.best, self.pinned = before, pinned

    def handsomer(self) -> None:
        """Try other layouts, and keep the one that places most; of those that place as much the handsomest."""
        if self.over:
            return
        most = looks_of(self.problem, bettered(self.problem, self.best.placements))
        for other in range(1, MOST_SEEDS + 1):
            if self.over or most > GOOD_ENOUGH:
                return
            answer = run(self.pinned, self.clock, ONE_SHARE, self.seed + other, None)
            looks = looks_of(self.problem, bettered(self.problem, answer.placements))
            # what is worth more, or places more, comes before what looks better
            if (answer.value, len(answer.placements), looks) > (self.best.value, len(self.best.placements), most):
                self.best, most = answer, looks

    def all_at_once(self, groups: list[list[Wanted]]) -> None:
        """Try to keep every group as near together as it goes beside the others."""
        pinned, names = self.pinned, set()
        for parts in groups if not self.over else ():
            for places in gathered(pinned, parts, self.free.placements, self.clock, self.seed):
                pinned = with_pins(pinned, places)
                names.add(parts[0].together)
                break
        self._try(pinned, names, ALL_SHARE)

    def one(self, name: str, parts: list[Wanted]) -> None:
        """Try to keep one group beside those that are kept, the nearer the better."""
        if self.over:
            return
        for places in gathered(self.pinned, parts, self.free.placements, self.clock, self.seed):
            if self._try(with_pins(self.pinned, places), {name}, ONE_SHARE):
                return

    def _try(self, pinned: Problem, names: set[str], share: float) -> bool:
        if not names or self.over:
            return False
        try:
            answer = run(pinned, self.clock, share, self.seed, None)
        except LayoutError:
            # homes of two groups on one board may leave no way to saw them apart
            return False
        if not no_worse(answer, self.free):
            return False
        self.best, self.pinned = answer, pinned
        self.kept |= names
        return True


def with_pins(problem: Problem, places: tuple[Placement, ...]) -> Problem:
    """The problem with these pieces pinned as well."""
    return replace(problem, pins=(*problem.pins, *(p for p in places if p not in problem.pins)))


def run(problem: Problem, clock: Clock, share: float, seed: int, told: Progress | None) -> Answer:
    """A plain layout within a share of what is left of the clock."""
    part = clock.part(share)
    answer = lay_out(problem, part, seed, told)
    clock.count(part.done)
    return answer


def no_worse(answer: Answer, free: Answer) -> bool:
    """Whether a layout that keeps a wish places as much as the free one, in value and in pieces."""
    return answer.value >= free.value and len(answer.placements) >= len(free.placements)


def worth_of(problem: Problem, answer: Answer) -> int:
    """What a layout is worth, each piece by the board that it lies on."""
    parts = {w.id: w for w in problem.wanted}
    return sum(parts[p.wanted].worth_on(p.stock) for p in answer.placements)


def with_bound_of(problem: Problem, answer: Answer, free: Answer) -> Answer:
    """A layout that keeps wishes, with the bound of the layout without them, which holds for it too."""
    value = worth_of(problem, answer)
    bound = free.bound if free.bound is None else max(free.bound, value)
    proved = bound is not None and value >= bound
    return replace(answer, value=value, bound=bound, proved_best=proved, bound_covers=free.bound_covers)
