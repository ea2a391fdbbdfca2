"""Works a layout out: bench after bench, each solved for its share of the time, then put together."""

from collections import Counter
from collections.abc import Iterable
from dataclasses import asdict
from time import monotonic
from typing import Any, cast

from shopapi.craft.layout import Answer, GluedPanel, LayoutError, Placement, Problem, reason_for, solve
from shopapi.craft.layout.model import Aim
from shopapi.layouts import questions
from shopapi.layouts.answers import answer_of, numbered
from shopapi.layouts.benches import Bench, first_benches, second_round, with_pins
from shopapi.layouts.models import Layout
from shopapi.layouts.pins import complaints, placement_of
from shopapi.layouts.questions import Asked, Need, Rack
from shopapi.layouts.watching import Watch

LEAST_SECONDS = 0.5  # for one search
SECOND_SHARE = 0.1  # of the time, for what found no place on its own thickness


def solve_all(layout: Layout) -> dict[str, Any]:
    """The answer to a layout, to be kept. Raises LayoutError where nothing can be laid out."""
    started = monotonic()
    rack = questions.rack_for(
        layout.commission, boards=layout.boards, excluded=layout.excluded, pinned=layout.pinned, aim=layout.aim
    )
    strange = complaints(layout.pinned, rack=rack, excluded=layout.excluded, workshop=layout.workshop)
    if strange:  # the rack changed since it was asked
        raise LayoutError(" ".join(next(iter(strange.values()))))
    # What it took to gather tones and marks is no longer there to search in.
    solving = _Solving(layout, rack, seconds=layout.seconds - (monotonic() - started))
    benches = with_pins(first_benches(rack.needs, rack.boards), layout.pinned, rack)
    for bench in benches:
        solving.solve(bench, share=_share(bench, rack.needs))
    for bench in second_round(benches, rack, solving.used):
        solving.solve(bench, share=SECOND_SHARE)
    bound = solving.bound if len(solving.answers) == len(benches) else None
    return answer_of(
        layout,
        rack,
        placements=numbered(solving.placements, solving.glued, rack.needs, layout.pinned),
        cuts=solving.cuts,
        value=solving.value,
        bound=bound,
        kept_together=[asdict(group) for answer in solving.answers for group in answer.together],
        bound_covers=" ".join(dict.fromkeys(answer.bound_covers for answer in solving.answers)),
        proved_best=bound is not None and all(answer.proved_best for answer in solving.answers),
    )


def _share(bench: Bench, needs: list[Need]) -> float:
    area = sum(need.left * need.rough.length_mm * need.rough.width_mm for need in bench.needs)
    total = sum(need.left * need.rough.length_mm * need.rough.width_mm for need in needs)
    return max(0.1, area / total) if total else 1.0


class _Solving:
    """One layout being solved bench by bench; a board carries pieces of one bench only."""

    def __init__(self, layout: Layout, rack: Rack, seconds: float) -> None:
        self.layout = layout
        self.seconds = seconds
        self.stocks = rack.stocks
        self.needs = rack.needs
        self.pins = [placement_of(pin) for pin in layout.pinned]  # those that still wait for their bench
        self.watch = Watch(layout)
        self.used: set[str] = set()
        self.answers: list[Any] = []
        self.placements: list[Placement] = []
        self.glued: list[GluedPanel] = []
        self.cuts: dict[str, Any] = {}
        self.value = 0
        self.bound: float | None = 0

    def say_length(self, length_mm: float) -> str:
        return questions.length_in_words(length_mm, self.layout.workshop)

    def solve(self, bench: Bench, *, share: float) -> None:
        stocks = [self.stocks[key] for b in bench.boards if (key := str(b.pk)) not in self.used]
        here = {stock.id for stock in stocks}
        pins = tuple(pin for pin in self.pins if pin.stock in here)
        self.pins = [pin for pin in self.pins if pin.stock not in here]
        asked = self._asked(bench, pins)
        if not stocks or not asked.worth:
            for need in bench.needs:
                need.reason = "The boards that are thick enough carry other parts already."
            return
        rules = questions.rules_of(self.layout.workshop)
        problem = Problem(tuple(stocks), asked.wanted, rules, pins, asked.panels, cast(Aim, self.layout.aim))
        others = self._all_left() - asked.worth
        answer = solve(
            problem,
            seconds=max(LEAST_SECONDS, self.seconds * share),
            told=lambda better: self._say(better, others),
            stopped=self.watch.stopped,
        )
        self._take(answer, problem)

    def _take(self, answer: Answer, problem: Problem) -> None:
        self.answers.append(answer)
        self.placements += answer.placements
        self.glued += answer.glued
        self.cuts |= answer.cuts
        self.used |= {placement.stock for placement in answer.placements}
        self.value += answer.value
        self.bound = None if self.bound is None or answer.bound is None else self.bound + answer.bound
        by_key = {need.key: need for need in self.needs}
        for placement in answer.placements:
            by_key[placement.wanted].left -= not by_key[placement.wanted].has_free_strips
        for panel in answer.glued:
            by_key[panel.panel].left -= 1
        asked = {one.id: one for one in (*problem.wanted, *problem.panels)}
        for left in answer.unplaced:
            by_key[left.wanted].reason = reason_for(problem, asked[left.wanted], self.say_length)

    def _asked(self, bench: Bench, pins: tuple[Placement, ...]) -> Asked:
        """What this bench is asked for: its needs but for what is pinned elsewhere, and guests pinned to its boards."""
        elsewhere, guests = self._counted(self.pins), self._counted(pins)
        counts = guests | Counter({need.key: need.left - elsewhere[need.key] for need in bench.needs})
        return questions.asked_of(counts, self.needs, self.layout.workshop)

    def _counted(self, pins: Iterable[Placement]) -> Counter[str]:
        """Pinned blanks by part; a pinned strip of a panel of free strips asks for that panel."""
        counts = Counter(pin.wanted for pin in pins)
        return counts | Counter(
            {need.key: min(need.left, counts[need.key]) for need in self.needs if need.has_free_strips}
        )

    def _all_left(self) -> int:
        """What everything still to be placed is worth together: a bound on whatever it will bring."""
        return sum(questions.value_of(need) * need.left for need in self.needs)

    def _say(self, better: Answer, others: int) -> None:
        sure = None if self.bound is None or better.bound is None else self.bound + better.bound + others
        self.watch.say(self.value + better.value, sure)
