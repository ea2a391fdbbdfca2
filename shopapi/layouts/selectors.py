"""Reads about layouts."""

from shopapi.layouts.models import Layout
from shopapi.workshops.models import Workshop


def unfinished(workshop: Workshop | None = None) -> list[Layout]:
    """Layouts that wait or run."""
    rows = Layout.objects.filter(state__in=[Layout.State.QUEUED, Layout.State.RUNNING], gone_at=None)
    return list(rows.filter(workshop=workshop) if workshop else rows)
