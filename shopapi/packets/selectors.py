"""Reads about packets."""

from uuid import UUID

from shopapi.commissions.models import Commission


def commissions_called(name: str) -> list[Commission]:
    """For the command line, which acts for every workshop: by id, else by title, else by how the title begins."""
    rows = Commission.objects.filter(gone_at=None).select_related("workshop", "client").order_by("created_at", "id")
    try:
        return list(rows.filter(pk=UUID(name)))
    except ValueError:
        wanted = name.strip()
        return list(rows.filter(title__iexact=wanted)) or list(rows.filter(title__istartswith=wanted))
