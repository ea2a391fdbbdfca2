"""Who may see and change which rows: the one place of tenancy.

Every stored noun extends `WorkshopOwned`; every route that serves one extends `routes.WorkshopViewSet`, which reads and
writes through what stands here. A stranger gets 404, a member without the right 403.
"""

import uuid
from typing import Any, Self

from django.db import models, transaction
from django.db.models import F
from django.utils import timezone
from rest_framework import exceptions, permissions
from rest_framework.request import Request

from shopapi.workshops import selectors
from shopapi.workshops.models import ApiToken, Member, Workshop


class WorkshopQuerySet(models.QuerySet["WorkshopOwned"]):
    def for_workshop(self, workshop: Workshop | uuid.UUID) -> Self:
        return self.filter(workshop=workshop, gone_at=None)

    def gone_too(self, workshop: Workshop | uuid.UUID) -> Self:
        """With the rows that were removed: only the change feed needs them."""
        return self.filter(workshop=workshop)


class WorkshopOwned(models.Model):
    """A row of one workshop. The phone makes the id; `seq` is the row's place in the workshop's change feed.

    Removing only sets `gone_at`, so that phones learn of it and nothing is lost.
    """

    id = models.UUIDField(primary_key=True, default=uuid.uuid4)
    workshop = models.ForeignKey(Workshop, models.CASCADE, related_name="+")
    revision = models.PositiveIntegerField(default=0, editable=False)
    seq = models.PositiveBigIntegerField(default=0, editable=False, db_index=True)
    gone_at = models.DateTimeField(null=True, editable=False)
    created_at = models.DateTimeField(auto_now_add=True)
    updated_at = models.DateTimeField(auto_now=True)

    objects = WorkshopQuerySet.as_manager()

    class Meta:
        abstract = True

    def save(self, *args: Any, **kwargs: Any) -> None:
        # Locks the workshop's row until commit, so that numbers become visible in their order.
        with transaction.atomic():
            Workshop.objects.filter(pk=self.workshop_id).update(change_seq=F("change_seq") + 1)
            self.seq = Workshop.objects.values_list("change_seq", flat=True).get(pk=self.workshop_id)
            self.revision += 1
            if (fields := kwargs.get("update_fields")) is not None:
                kwargs["update_fields"] = {*fields, "seq", "revision", "updated_at"}
            super().save(*args, **kwargs)


def member_of_request(request: Request | Any) -> Member | None:
    """The member who asks; found once per request."""
    held: Any = request._request if isinstance(request, Request) else request
    if not hasattr(held, "flitchbook_member"):
        auth: Any = getattr(request, "auth", None)
        held.flitchbook_member = auth.member if isinstance(auth, ApiToken) else selectors.member_of(request.user)
    return held.flitchbook_member


def asking_member(request: Request | Any) -> Member:
    """The member who asks, where there must be one. Raises NotAuthenticated."""
    member = member_of_request(request)
    if member is None:
        raise exceptions.NotAuthenticated("Sign in first.")
    return member


class IsMember(permissions.BasePermission):
    """Signed in as a member; a route may ask for the owner, for reading and for writing."""

    message = "Only the owner of the workshop may do this."

    def has_permission(self, request: Request, view: Any) -> bool:
        member = asking_member(request)
        if member.is_owner:
            return True
        if getattr(view, "owner_only", False):
            return False
        return request.method in permissions.SAFE_METHODS or not getattr(view, "owner_writes", False)


class StillNeededError(Exception):
    """The row holds something up that would be lost with it."""


def remove(row: WorkshopOwned) -> None:
    """Takes the row out of sight, together with what hangs on it; the phones hear of each.

    Raises StillNeededError where rows rest on it that must not go with it.
    """
    with transaction.atomic():
        for relation in row._meta.related_objects:
            child_model = relation.related_model
            if not (isinstance(child_model, type) and issubclass(child_model, WorkshopOwned)):
                continue
            children = child_model.objects.for_workshop(row.workshop_id).filter(**{relation.field.name: row})
            if relation.on_delete is models.PROTECT and (count := children.count()):
                what = child_model._meta.verbose_name if count == 1 else child_model._meta.verbose_name_plural
                raise StillNeededError(f"{row} cannot be removed: {count} {what} would be lost with it.")
            if relation.on_delete is models.CASCADE:
                for child in children:
                    remove(child)
        row.gone_at = timezone.now()
        row.save(update_fields=["gone_at"])
