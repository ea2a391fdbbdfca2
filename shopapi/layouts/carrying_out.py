"""From a layout to sawn wood: boards become offcuts, parts count as cut; undone the same day, all is as before."""

from collections import Counter, defaultdict
from collections.abc import Collection, Iterable
from datetime import date
from itertools import count
from string import ascii_lowercase
from typing import Any
from uuid import uuid4
from zoneinfo import ZoneInfo

from django.db import transaction
from django.utils import timezone

from shopapi.boards.models import Board
from shopapi.boards.selectors import boards_by_id
from shopapi.commissions.models import Part
from shopapi.cuts.models import Cut
from shopapi.cuts.services import BoardNotHereError, Piece, PiecesTouchedError, cut_create, cut_undo
from shopapi.layouts.answers import whole_pieces
from shopapi.layouts.models import Layout
from shopapi.workshops.models import Workshop

TAG_LENGTH = 20
SAME_SIZE_MM = 0.5


class CarryingOutError(Exception):
    """It cannot be carried out, or not undone; nothing was changed. The message is meant for the maker."""


@transaction.atomic
def carry_out(*, layout: Layout, boards: Collection[str] = ()) -> Layout:
    """Saws the boards named, or all that are left: each is used up, what is worth keeping becomes a board again.

    Raises CarryingOutError.
    """
    layout = Layout.objects.select_for_update().select_related("workshop").get(pk=layout.pk)
    if layout.state != Layout.State.DONE:
        raise CarryingOutError("The layout is not done yet, so there is nothing to saw.")
    done = {entry["board"] for entry in layout.carried}
    used = {row["board"] for row in layout.placements}
    chosen = {str(key) for key in boards} or used - done
    if strange := chosen - used:
        raise CarryingOutError(f"{len(strange)} of these boards carry nothing in this layout. Choose among its boards.")
    rows = boards_by_id(layout.workshop, chosen)
    if again := sorted(rows[key].tag for key in chosen & done if key in rows):
        raise CarryingOutError(f"{', '.join(again)} was sawn by this layout before.")
    if not chosen:
        raise CarryingOutError("Every board of this layout is sawn already." if done else "This layout uses no board.")
    today = _today(layout.workshop)
    for board in sorted(rows.values(), key=lambda board: board.tag):
        cut = _saw(layout, board)
        before, done = _finished(layout, done), done | {str(board.pk)}
        raised = _raise_counts(_finished(layout, done) - before)
        layout.carried.append({"board": str(board.pk), "cut": str(cut.pk), "on": today.isoformat(), "raised": raised})
    layout.carried_out_on = today
    layout.save(update_fields=["carried", "carried_out_on"])
    return layout


@transaction.atomic
def undo(*, layout: Layout) -> Layout:
    """Takes back what was sawn today. Raises CarryingOutError once the day is over or an offcut was worked on."""
    layout = Layout.objects.select_for_update().select_related("workshop").get(pk=layout.pk)
    today = _today(layout.workshop).isoformat()
    entries = [entry for entry in layout.carried if entry["on"] == today]
    if not layout.carried:
        raise CarryingOutError("Nothing of this layout was sawn, so there is nothing to undo.")
    if not entries:
        raise CarryingOutError(
            "It was sawn on another day and can be undone on the same day only. Edit boards one by one."
        )
    cuts = Cut.objects.gone_too(layout.workshop_id).in_bulk([entry["cut"] for entry in entries])
    for cut in cuts.values():
        if isinstance(cut, Cut) and cut.gone_at is None:
            try:
                cut_undo(cut=cut)
            except PiecesTouchedError as error:
                raise CarryingOutError(str(error)) from error
    lowered: Counter[str] = Counter()
    for entry in entries:
        lowered.update(entry["raised"])
    for part in _locked_parts(lowered):
        part.cut_count = max(0, part.cut_count - lowered[str(part.pk)])
        part.save(update_fields=["cut_count"])
    layout.carried = [entry for entry in layout.carried if entry["on"] != today]
    layout.carried_out_on = max((date.fromisoformat(entry["on"]) for entry in layout.carried), default=None)
    layout.save(update_fields=["carried", "carried_out_on"])
    return layout


def _today(workshop: Workshop) -> date:
    return timezone.localdate(timezone=ZoneInfo(workshop.time_zone))


def _saw(layout: Layout, board: Board) -> Cut:
    asked = layout.asked["boards"][str(board.pk)]
    for name in ("length_mm", "width_mm"):
        if abs(getattr(board, name) - asked[name]) > SAME_SIZE_MM:
            raise CarryingOutError(f"{board.tag} was measured anew since this was laid out. Lay it out again.")
    leftovers = [row for row in (layout.figures or {}).get("leftovers", []) if row["board"] == str(board.pk)]
    tags = _free_tags(board, len(leftovers))
    pieces = [
        Piece(
            id=str(uuid4()), tag=tag, **{name: float(row[name]) for name in ("x_mm", "y_mm", "length_mm", "width_mm")}
        )
        for tag, row in zip(tags, leftovers, strict=True)
    ]
    try:
        return cut_create(
            workshop=layout.workshop,
            board=board,
            kind=Cut.Kind.LAYOUT,
            pieces=pieces,
            kerf_mm=float(layout.asked.get("kerf_mm", 0)),
        )
    except BoardNotHereError as error:
        raise CarryingOutError(str(error)) from error


def _free_tags(board: Board, number: int) -> list[str]:
    """The board's tag with a letter behind it: letters that no board in the rack carries."""
    stem = board.tag[: TAG_LENGTH - 2]
    taken = set(
        Board.objects.for_workshop(board.workshop_id).filter(tag__startswith=stem).values_list("tag", flat=True)
    )
    free = (tag for n in count() if (tag := stem + _letters(n)) not in taken)
    return [next(free) for _ in range(number)]


def _letters(number: int) -> str:
    high, low = divmod(number, len(ascii_lowercase))
    return (_letters(high - 1) if high else "") + ascii_lowercase[low]


def _finished(layout: Layout, sawn: Collection[str]) -> Counter[str]:
    """How many of each part are cut with these boards: all that a blank holds, a panel only once its strips all are."""
    rows: dict[str, list[dict[str, Any]]] = defaultdict(list)
    for row in layout.placements:
        if row["board"] in sawn:
            rows[row["part"]].append(row)
    parts = layout.asked.get("parts", {})
    asked = {key: parts.get(key, {}) for key in rows}
    return Counter(
        {key: whole_pieces(each, asked[key]) * asked[key].get("blank_holds", 1) for key, each in rows.items()}
    )


def _raise_counts(more: Counter[str]) -> dict[str, int]:
    """Counts the parts as cut, never above what is wanted; gives by how much each really rose."""
    raised = {}
    for part in _locked_parts(more):
        count_after = min(part.quantity, part.cut_count + more[str(part.pk)])
        if count_after > part.cut_count:
            raised[str(part.pk)] = count_after - part.cut_count
            part.cut_count = count_after
            part.save(update_fields=["cut_count"])
    return raised


def _locked_parts(keys: Iterable[str]) -> list[Any]:
    return list(Part.objects.select_for_update().filter(pk__in=list(keys), gone_at=None).order_by("pk"))
