"""Writes about layouts: ask, work out, keep the answer."""

import logging
from typing import Any
from uuid import UUID

from django.db import transaction
from django.utils import timezone

from shopapi.boards.selectors import boards_in_rack
from shopapi.commissions.models import Commission
from shopapi.commissions.selectors import parts_of
from shopapi.craft.layout import LayoutError, Placement, Problem, reason_for, solve
from shopapi.layouts import questions, selectors
from shopapi.layouts.models import Layout
from shopapi.layouts.questions import Bench, Need
from shopapi.marks.selectors import marks_on
from shopapi.workshops.models import Member, Workshop

log = logging.getLogger(__name__)


@transaction.atomic
def layout_create(
    *,
    workshop: Workshop,
    commission: Commission,
    boards: list[str] | None = None,
    aim: str = Layout.Aim.LOOKS,
    seconds: float = 5,
    id: UUID | None = None,
    member: Member | None = None,
) -> Layout:
    """Puts the question in the queue; the background worker answers it."""
    from shopapi.layouts.tasks import work_out

    layout = Layout(workshop=workshop, commission=commission, boards=boards or [], aim=aim, seconds=seconds)
    if id is not None:
        layout.id = id
    layout.save()
    transaction.on_commit(lambda: work_out.enqueue(str(layout.pk)))
    return layout


def layout_work_out(*, layout: Layout) -> Layout:
    """Solves the layout and keeps the answer; what goes wrong is kept too, in words."""
    layout.state = Layout.State.RUNNING
    layout.save(update_fields=["state"])
    try:
        answer = _solve_all(layout)
    except (LayoutError, ValueError) as error:
        answer = {"state": Layout.State.FAILED, "problem": str(error)[:500]}
    except Exception:
        log.exception("layout %s failed", layout.pk)
        answer = {
            "state": Layout.State.FAILED,
            "problem": "The solver stumbled over this. Your parts and boards are unharmed.",
        }
    for name, value in answer.items():
        setattr(layout, name, value)
    layout.finished_at = timezone.now()
    layout.save(update_fields=[*answer, "finished_at"])
    return layout


def layouts_left_behind() -> int:
    """Marks layouts that a stopped service left half done; asked again, they start anew."""
    left = selectors.unfinished()
    for layout in left:
        layout.state = Layout.State.FAILED
        layout.problem = "The service was stopped before this was done. Start the layout again."
        layout.save(update_fields=["state", "problem"])
    return len(left)


def _solve_all(layout: Layout) -> dict[str, Any]:
    workshop = layout.workshop
    needs = questions.needs_of(parts_of(layout.commission), workshop)
    if not needs:
        raise LayoutError("This commission has no parts yet. Add parts, then lay them out.")
    boards = boards_in_rack(workshop, species={need.part.species for need in needs}, ids=layout.boards)
    if not boards:
        wanted = ", ".join(sorted({need.part.species for need in needs}))
        raise LayoutError(f"There is no {wanted} in the rack to lay these parts on. Add boards first.")
    marks = marks_on(boards)
    solving = _Solving(layout, {str(b.pk): questions.stock_of(b, marks.get(str(b.pk), [])) for b in boards})
    benches = questions.first_benches(needs, boards)
    for bench in benches:
        solving.solve(bench, share=_share(bench, needs))
    for need in [need for need in needs if need.left]:
        spare = [b for b in boards if questions.thick_enough(b, need) and str(b.pk) not in solving.used]
        if not any(questions.thick_enough(b, need) for b in boards):
            need.reason = questions.why_no_board(need, boards, workshop)
        elif spare:
            solving.solve(Bench(boards=spare, needs=[need]), share=0.1)
    return {
        "state": Layout.State.DONE,
        "problem": "",
        "asked": questions.asked_as_json(workshop, needs, boards, marks),
        "value": solving.value,
        "bound": solving.bound if len(solving.answers) == len(benches) else None,
        "proved_best": bool(solving.answers) and all(answer.proved_best for answer in solving.answers),
        "placements": _numbered(solving.placements, {need.key: need for need in needs}),
        "unplaced": [{"part": need.key, "count": need.left, "reason": need.reason} for need in needs if need.left],
        "cuts": solving.cuts,
    }


def _share(bench: Bench, needs: list[Need]) -> float:
    area = sum(need.left * need.rough.length_mm * need.rough.width_mm for need in bench.needs)
    total = sum(need.left * need.rough.length_mm * need.rough.width_mm for need in needs)
    return max(0.1, area / total) if total else 1.0


class _Solving:
    """One layout being solved bench by bench; a board carries pieces of one bench only."""

    def __init__(self, layout: Layout, stocks: dict[str, Any]) -> None:
        self.layout = layout
        self.stocks = stocks
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
        answer = solve(problem, seconds=max(0.5, self.layout.seconds * share))
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
