"""Reads about layouts."""

from shopapi.commissions.models import Commission
from shopapi.layouts.models import Layout
from shopapi.workshops.models import Workshop


def unfinished(workshop: Workshop | None = None) -> list[Layout]:
    """Layouts that wait or run."""
    rows = Layout.objects.filter(state__in=[Layout.State.QUEUED, Layout.State.RUNNING], gone_at=None)
    return list(rows.filter(workshop=workshop) if workshop else rows)


def latest_done(commission: Commission) -> Layout | None:
    """The layout a commission's boards are cut by: the last carried out, else the newest answered one."""
    rows = Layout.objects.for_workshop(commission.workshop_id).filter(commission=commission, state=Layout.State.DONE)
    newest = rows.order_by("-finished_at", "-created_at")
    sawn = newest.exclude(carried_out_on=None).order_by("-carried_out_on", "-finished_at")
    return sawn.first() or newest.first()


def is_stopped(layout: Layout) -> bool:
    """Whether the maker asked meanwhile to stop it, or removed it."""
    row = Layout.objects.filter(pk=layout.pk).values("stop_asked", "gone_at").first()
    return row is None or row["stop_asked"] or row["gone_at"] is not None
