"""Works a layout out: bench after bench, each solved for its share of the time, then put together."""

from typing import Any

from shopapi.boards.models import Board
from shopapi.boards.selectors import boards_in_rack
from shopapi.commissions.selectors import parts_of
from shopapi.craft.layout import Answer, LayoutError, Placement, Problem, Wanted, reason_for, solve
from shopapi.layouts import questions
from shopapi.layouts.figures import figures_of
from shopapi.layouts.models import Layout
from shopapi.layouts.questions import Bench, Need
from shopapi.layouts.watching import Watch
from shopapi.marks.selectors import marks_on


def solve_all(layout: Layout) -> dict[str, Any]:
    workshop = layout.workshop
    needs = questions.needs_of(parts_of(layout.commission), workshop)
    if not needs:
        raise LayoutError("This commission has no parts yet. Add parts, then lay them out.")
    boards = _boards_for(layout, needs)
    marks = marks_on(boards)
    stocks = {str(b.pk): questions.stock_of(b, marks.get(str(b.pk), [])) for b in boards}
    solving = _Solving(layout, stocks, needs)
    benches = questions.first_benches(needs, boards)
    for bench in benches:
        solving.solve(bench, share=_share(bench, needs))
    for need in [need for need in needs if need.left]:
        spare = [b for b in boards if questions.thick_enough(b, need) and str(b.pk) not in solving.used]
        if not any(questions.thick_enough(b, need) for b in boards):
            need.reason = questions.why_no_board(need, boards, workshop)
        elif spare:
            solving.solve(Bench(boards=spare, needs=[need]), share=0.1)
    asked = questions.asked_as_json(workshop, needs, boards, marks)
    placements = _numbered(solving.placements, {need.key: need for need in needs})
    unplaced = [{"part": need.key, "count": need.left, "reason": need.reason} for need in needs if need.left]
    return {
        "state": Layout.State.DONE,
        "problem": "",
        "asked": asked,
        "value": solving.value,
        "bound": solving.bound if len(solving.answers) == len(benches) else None,
        "bound_covers": " ".join(dict.fromkeys(answer.bound_covers for answer in solving.answers)),
        "proved_best": bool(solving.answers) and all(answer.proved_best for answer in solving.answers),
        "placements": placements,
        "unplaced": unplaced,
        "cuts": solving.cuts,
        "figures": figures_of(
            placements=placements, unplaced=unplaced, cuts=solving.cuts, boards=asked["boards"], workshop=workshop
        ),
    }


def _boards_for(layout: Layout, needs: list[Need]) -> list[Board]:
    """The boards to choose from, without those the maker keeps out."""
    boards = boards_in_rack(layout.workshop, species={need.part.species for need in needs}, ids=layout.boards)
    wanted = ", ".join(sorted({need.part.species for need in needs}))
    if not boards:
        raise LayoutError(f"There is no {wanted} in the rack to lay these parts on. Add boards first.")
    excluded = set(layout.excluded)
    kept = [board for board in boards if str(board.pk) not in excluded]
    if not kept:
        raise LayoutError(f"Every board of {wanted} is kept out of this layout. Let one of them in again.")
    return kept


def _share(bench: Bench, needs: list[Need]) -> float:
    area = sum(need.left * need.rough.length_mm * need.rough.width_mm for need in bench.needs)
    total = sum(need.left * need.rough.length_mm * need.rough.width_mm for need in needs)
    return max(0.1, area / total) if total else 1.0


class _Solving:
    """One layout being solved bench by bench; a board carries pieces of one bench only."""

    def __init__(self, layout: Layout, stocks: dict[str, Any], needs: list[Need]) -> None:
        self.layout = layout
        self.stocks = stocks
        self.needs = needs
        self.watch = Watch(layout)
        self.used: set[str] = set()
        self.answers: list[Any] = []
        self.placements: list[Placement] = []
        self.cuts: dict[str, Any] = {}
        self.value = 0
        self.bound: float | None = 0

    def say_length(self, length_mm: float) -> str:
        return questions.length_in_words(length_mm, self.layout.workshop)

    def solve(self, bench: Bench, *, share: float) -> None:
        stocks = [self.stocks[key] for b in bench.boards if (key := str(b.pk)) not in self.used]
        needs = [need for need in bench.needs if need.left]
        if not stocks or not needs:
            for need in needs:
                need.reason = "The boards that are thick enough carry other parts already."
            return
        wanted = tuple(questions.wanted_of(need, self.layout.aim) for need in needs)
        problem = Problem(tuple(stocks), wanted, questions.rules_of(self.layout.workshop))
        others = self._most_of_others(wanted)
        answer = solve(
            problem,
            seconds=max(0.5, self.layout.seconds * share),
            told=lambda better: self._say(better, others),
            stopped=self.watch.stopped,
        )
        self.answers.append(answer)
        self.placements += answer.placements
        self.cuts |= answer.cuts
        self.used |= {placement.stock for placement in answer.placements}
        self.value += answer.value
        self.bound = None if self.bound is None or answer.bound is None else self.bound + answer.bound
        by_key = {need.key: need for need in needs}
        for placement in answer.placements:
            by_key[placement.wanted].left -= 1
        by_id = {one.id: one for one in wanted}
        for left in answer.unplaced:
            by_key[left.wanted].reason = reason_for(problem, by_id[left.wanted], self.say_length)

    def _most_of_others(self, wanted: tuple[Wanted, ...]) -> int:
        """What the parts still to come, besides these, are worth together: a bound on whatever they will bring."""
        now = {one.id for one in wanted}
        later = [questions.wanted_of(need, self.layout.aim) for need in self.needs if need.left and need.key not in now]
        return sum(one.value * one.quantity for one in later)

    def _say(self, better: Answer, others: int) -> None:
        sure = None if self.bound is None or better.bound is None else self.bound + better.bound + others
        self.watch.say(self.value + better.value, sure)


def _numbered(placements: list[Placement], needs: dict[str, Need]) -> list[dict[str, Any]]:
    """Placements as stored: the nth blank of a part is strip s of piece p (strip 0: not a strip)."""
    seen: dict[str, int] = {}
    rows = []
    for placed in sorted(placements, key=lambda p: (p.stock, p.x, p.y)):
        nth = seen.get(placed.wanted, 0)
        seen[placed.wanted] = nth + 1
        strips = needs[placed.wanted].rough.count
        rows.append(
            {
                "board": placed.stock,
                "part": placed.wanted,
                "piece": nth // strips + 1,
                "strip": nth % strips + 1 if strips > 1 else 0,
                "x_mm": placed.x,
                "y_mm": placed.y,
                "length_mm": placed.length,
                "width_mm": placed.width,
                "face": placed.face,
            }
        )
    return rows
