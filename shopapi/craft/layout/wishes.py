"""Layouts that heed wishes: first the best layout without them, then one that keeps them at no part's price."""

from __future__ import annotations

from dataclasses import replace

from shopapi.craft.layout.clock import Clock
from shopapi.craft.layout.model import Answer, LayoutError, Placement, Problem, Progress, Wanted
from shopapi.craft.layout.panels import lay_out_panels
from shopapi.craft.layout.sheets.lay_out import lay_out
from shopapi.craft.layout.together import gathered, groups_of, kept_together

FREE_SHARE = 0.4  # of the time, for the layout without wishes
ALL_SHARE = 0.5  # of what is then left, for a layout that keeps every group
ONE_SHARE = 0.3  # of what is then left, for a layout that keeps one more group


def lay_out_as_wished(problem: Problem, clock: Clock, seed: int, told: Progress | None) -> Answer:
    """The best layout found that keeps wishes where that costs no part; the bound is that of all layouts.

    Source: OWN; how the time is shared out is our own choice.
    """
    if problem.panels:
        answer = lay_out_panels(problem, clock, seed, told, lay_out_as_wished)
        return replace(answer, together=kept_together(problem, answer.placements))
    groups = groups_of(problem)
    if not groups:
        answer = lay_out(problem, clock, seed, told)
        return replace(answer, together=kept_together(problem, answer.placements))
    free = run(problem, clock, FREE_SHARE, seed, told)
    search = _Wishes(problem, free, clock, seed)
    search.all_at_once(list(groups.values()))
    for name, parts in groups.items():
        if name not in search.kept:
            search.one(name, parts)
    return with_bound_of(problem, search.best, free)


class _Wishes:
    """The best layout so far, with the pins that keep its groups."""

    def __init__(self, problem: Problem, free: Answer, clock: Clock, seed: int) -> None:
        self.free, self.clock, self.seed = free, clock, seed
        self.best, self.pinned = free, problem
        self.kept: set[str] = set()

    def all_at_once(self, groups: list[list[Wanted]]) -> None:
        """Try to keep every group as near together as it goes beside the others."""
        pinned, names = self.pinned, set()
        for parts in groups:
            for places in gathered(pinned, parts, self.free.placements, self.clock, self.seed):
                pinned = with_pins(pinned, places)
                names.add(parts[0].together)
                break
        self._try(pinned, names, ALL_SHARE)

    def one(self, name: str, parts: list[Wanted]) -> None:
        """Try to keep one group beside those that are kept, the nearer the better."""
        for places in gathered(self.pinned, parts, self.free.placements, self.clock, self.seed):
            if self._try(with_pins(self.pinned, places), {name}, ONE_SHARE):
                return

    def _try(self, pinned: Problem, names: set[str], share: float) -> bool:
        if not names or self.clock.over:
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


def with_bound_of(problem: Problem, answer: Answer, free: Answer) -> Answer:
    """A layout that keeps wishes, with the bound of the layout without them, which holds for it too."""
    bound = free.bound if free.bound is None else max(free.bound, answer.value)
    return replace(
        answer,
        bound=bound,
        proved_best=bound is not None and answer.value >= bound,
        bound_covers=free.bound_covers,
        together=kept_together(problem, answer.placements),
    )
