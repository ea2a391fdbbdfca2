"""Reads of the change feed: what happened in a workshop since a phone last asked."""

from dataclasses import dataclass
from typing import Any

from shopapi.workshops.models import Member
from shopapi.workshops.routes import WorkshopViewSet
from shopapi.workshops.scoping import WorkshopOwned


@dataclass(frozen=True)
class Changes:
    entries: list[dict[str, Any]]
    next: int
    more: bool


def changes_since(*, member: Member, since: int, limit: int, context: dict[str, Any]) -> Changes:
    """Rows with a feed number above `since`, in order, at most `limit`; a removed row comes as `gone`."""
    found: list[tuple[int, str, WorkshopOwned]] = []
    for kind, view in sorted(WorkshopViewSet.feed.items()):
        if view.owner_only and not member.is_owner:
            continue
        rows = view.rows().gone_too(member.workshop_id).filter(seq__gt=since).order_by("seq")[: limit + 1]
        found += [(row.seq, kind, row) for row in rows]
    found.sort(key=lambda item: item[0])
    page = found[:limit]
    entries = [_entry(kind, row, context) for _, kind, row in page]
    return Changes(entries=entries, next=page[-1][0] if page else since, more=len(found) > limit)


def _entry(kind: str, row: WorkshopOwned, context: dict[str, Any]) -> dict[str, Any]:
    gone = row.gone_at is not None
    serializer: Any = WorkshopViewSet.feed[kind].serializer_class
    body = None if gone else serializer(row, context=context).data
    return {"seq": row.seq, "kind": kind, "id": str(row.pk), "gone": gone, "row": body}
