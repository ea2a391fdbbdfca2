"""Writes about layouts: ask, work out, keep the answer."""

import logging
from typing import Any
from uuid import UUID

from django.db import transaction
from django.utils import timezone

from shopapi.commissions.models import Commission
from shopapi.craft.layout import LayoutError
from shopapi.layouts import selectors
from shopapi.layouts.answers import answer_by_hand
from shopapi.layouts.models import Layout
from shopapi.layouts.pins import Complaints, complaints
from shopapi.layouts.questions import rack_for
from shopapi.layouts.solving import solve_all
from shopapi.workshops.models import Member, Workshop

log = logging.getLogger(__name__)


class PinsError(Exception):
    """Pieces laid by hand that cannot be cut as they lie; `complaints` holds words for the maker by piece."""

    def __init__(self, complaints: Complaints) -> None:
        super().__init__()
        self.complaints = complaints


@transaction.atomic
def layout_create(
    *,
    workshop: Workshop,
    commission: Commission,
    boards: list[str] | None = None,
    excluded: list[str] | None = None,
    based_on: Layout | None = None,
    made: str = Layout.Made.SOLVED,
    pinned: list[dict[str, Any]] | None = None,
    aim: str = Layout.Aim.LOOKS,
    seconds: float = 5,
    id: UUID | None = None,
    member: Member | None = None,
) -> Layout:
    """Puts the question in the queue; the background worker answers it. By hand: the pinned pieces are the answer.

    Raises PinsError where pinned pieces cannot be cut as they lie, LayoutError where there is nothing to lay out.
    """
    from shopapi.layouts.tasks import work_out

    layout = Layout(workshop=workshop, commission=commission, aim=aim, seconds=seconds, based_on=based_on)
    layout.boards, layout.excluded, layout.pinned, layout.made = boards or [], excluded or [], pinned or [], made
    if id is not None:
        layout.id = id
    by_hand = made == Layout.Made.BY_HAND
    if by_hand or pinned:
        rack = rack_for(commission, boards=layout.boards, excluded=layout.excluded, pinned=layout.pinned, aim=aim)
        found = complaints(layout.pinned, rack=rack, excluded=layout.excluded, workshop=workshop)
        if found:
            raise PinsError(found)
        if by_hand:
            _keep(layout, answer_by_hand(layout, rack))
            layout.save()
            return layout
    layout.save()
    transaction.on_commit(lambda: work_out.enqueue(str(layout.pk)))
    return layout


@transaction.atomic
def layout_stop(*, layout: Layout) -> Layout:
    """Ends the search of a running layout, which keeps its best so far; one that has not begun never begins."""
    layout = Layout.objects.select_for_update().get(pk=layout.pk)
    if layout.state == Layout.State.QUEUED:
        layout.state, layout.finished_at = Layout.State.FAILED, timezone.now()
        layout.problem = "It was stopped before it had begun. Start it again when you like."
        layout.save(update_fields=["state", "problem", "finished_at"])
    elif layout.state == Layout.State.RUNNING and not layout.stop_asked:
        layout.stop_asked = True
        layout.save(update_fields=["stop_asked"])
    return layout


def layout_work_out(*, layout: Layout) -> Layout:
    """Solves the layout and keeps the answer; what goes wrong is kept too, in words."""
    layout.state = Layout.State.RUNNING
    layout.save(update_fields=["state"])
    try:
        answer = solve_all(layout)
    except (LayoutError, ValueError) as error:
        answer = {"state": Layout.State.FAILED, "problem": str(error)[:500]}
    except Exception:
        log.exception("layout %s failed", layout.pk)
        answer = {
            "state": Layout.State.FAILED,
            "problem": "The solver stumbled over this. Your parts and boards are unharmed.",
        }
    answer["progress"] = None
    layout.refresh_from_db(fields=["revision"])  # a "stop" meanwhile counted it up
    _keep(layout, answer)
    layout.save(update_fields=[*answer, "finished_at"])
    return layout


def _keep(layout: Layout, answer: dict[str, Any]) -> None:
    for name, value in answer.items():
        setattr(layout, name, value)
    layout.finished_at = timezone.now()


def layouts_left_behind() -> int:
    """Marks layouts that a stopped service left half done; asked again, they start anew."""
    left = selectors.unfinished()
    for layout in left:
        layout.state = Layout.State.FAILED
        layout.problem = "The service was stopped before this was done. Start the layout again."
        layout.save(update_fields=["state", "problem"])
    return len(left)
