"""Reads about commissions."""

from shopapi.commissions.models import Commission, Part


def parts_of(commission: Commission) -> list[Part]:
    return list(
        Part.objects.for_workshop(commission.workshop_id)
        .filter(commission=commission)
        .order_by("position", "created_at", "id")
    )


def widest_panel(commission: Commission) -> Part | None:
    """The part that moves most across its width: the widest panel, or the widest part where there is none."""
    parts = parts_of(commission)
    panels = [part for part in parts if part.is_panel]
    return max(panels or parts, key=lambda part: part.width_mm, default=None)
