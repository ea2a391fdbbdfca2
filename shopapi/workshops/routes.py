"""The base of every route and serializer that serves rows of a workshop."""

import uuid
from typing import Any, ClassVar

from django.core.validators import MinValueValidator
from django.db import IntegrityError, models, transaction
from django.http import Http404
from rest_framework import exceptions, mixins, serializers, viewsets
from rest_framework.request import Request
from rest_framework.response import Response

from shopapi.rest import Refusal
from shopapi.workshops.lengths import LengthField
from shopapi.workshops.models import Member
from shopapi.workshops.scoping import (
    StillNeededError,
    WorkshopOwned,
    WorkshopQuerySet,
    asking_member,
    member_of_request,
    remove,
)


class OwnedField(serializers.PrimaryKeyRelatedField):
    """A foreign key in a body: looked up inside the member's workshop only."""

    default_error_messages = {
        "does_not_exist": "This was removed meanwhile, or was never here. What you wrote down was not changed.",
    }

    def get_queryset(self) -> models.QuerySet[Any]:
        queryset: Any = super().get_queryset()
        request = self.context.get("request")
        member = member_of_request(request) if request else None
        return queryset.for_workshop(member.workshop_id) if member else queryset.none()


class WorkshopSerializer(serializers.ModelSerializer):
    """Rows of a workshop. `owner_fields` are neither shown to a helper nor taken from one."""

    serializer_related_field = OwnedField
    owner_fields: ClassVar[tuple[str, ...]] = ()
    # Set once, when the row is made: a part cannot wander to another commission.
    fixed_fields: ClassVar[tuple[str, ...]] = ()

    id = serializers.UUIDField(required=False, help_text="Made by the client; a new one is made where it is missing.")

    def build_standard_field(self, field_name: str, model_field: models.Field) -> tuple[type[serializers.Field], dict]:
        field, options = super().build_standard_field(field_name, model_field)
        if field_name.endswith("_mm") and isinstance(model_field, models.FloatField):
            kept = {name: value for name, value in options.items() if name in {"required", "allow_null", "read_only"}}
            zero_ok = any(isinstance(check, MinValueValidator) for check in model_field.validators)
            return LengthField, {**kept, "zero_ok": zero_ok}
        return field, options

    @property
    def member(self) -> Member | None:
        request = self.context.get("request")
        return member_of_request(request) if request else self.context.get("member")

    @property
    def asker(self) -> Member:
        """The member who asks, where there must be one."""
        return asking_member(self.context["request"])

    def get_fields(self) -> dict[str, serializers.Field]:
        fields = super().get_fields()
        if self.member is not None and not self.member.is_owner:
            for name in self.owner_fields:
                fields.pop(name, None)
        if self.owner_fields:
            for name in self.owner_fields:
                if name in fields and fields[name].required:
                    fields[name].required = False
        return fields

    def validate(self, attrs: dict[str, Any]) -> dict[str, Any]:
        if self.instance is not None:
            attrs.pop("id", None)
            for name in self.fixed_fields:
                attrs.pop(name, None)
        return attrs


OWNED_FIELDS = ("id", "revision", "created_at", "updated_at")
OWNED_READ_ONLY = ("revision", "created_at", "updated_at")


class WorkshopViewSet(
    mixins.CreateModelMixin,
    mixins.RetrieveModelMixin,
    mixins.UpdateModelMixin,
    mixins.DestroyModelMixin,
    mixins.ListModelMixin,
    viewsets.GenericViewSet,
):
    """The base of every route that serves rows of a workshop."""

    model: ClassVar[type[WorkshopOwned]]
    kind: ClassVar[str] = ""  # the row's name in the change feed
    owner_only: ClassVar[bool] = False
    owner_writes: ClassVar[bool] = False
    related: ClassVar[tuple[str, ...]] = ()
    prefetched: ClassVar[tuple[str, ...]] = ()
    feed: ClassVar[dict[str, type["WorkshopViewSet"]]] = {}
    filter_by: ClassVar[tuple[str, ...]] = ()

    def __init_subclass__(cls, **kwargs: Any) -> None:
        super().__init_subclass__(**kwargs)
        if cls.kind:
            WorkshopViewSet.feed[cls.kind] = cls

    @property
    def member(self) -> Member:
        return asking_member(self.request)

    def get_queryset(self) -> models.QuerySet[Any]:
        rows = self.model.objects.none()
        if not getattr(self, "swagger_fake_view", False):
            rows = self.rows().for_workshop(self.member.workshop_id).order_by("created_at", "id")
            for name in self.filter_by:
                if value := self.request.query_params.get(name):
                    rows = rows.filter(**{name: _uuid_or_404(value)})
        return rows

    def get_object(self) -> Any:
        try:
            return super().get_object()
        except Http404:
            if self._was_removed():
                raise exceptions.NotFound(
                    "This was removed meanwhile, so nothing was changed. If it is still wanted, write it down anew."
                ) from None
            raise

    def _was_removed(self) -> bool:
        """Whether the row was here once; only members of its own workshop are told."""
        given = _uuid_or_404(self.kwargs["pk"])
        return self.model.objects.gone_too(self.member.workshop_id).filter(pk=given, gone_at__isnull=False).exists()

    @classmethod
    def rows(cls) -> WorkshopQuerySet:
        return cls.model.objects.select_related(*cls.related).prefetch_related(*cls.prefetched)

    def finalize_response(self, request: Request, response: Response, *args: Any, **kwargs: Any) -> Response:
        response = super().finalize_response(request, response, *args, **kwargs)
        row = getattr(response, "data", None)
        if isinstance(row, dict) and isinstance(row.get("revision"), int) and response.status_code < 300:
            response["ETag"] = f'"{row["revision"]}"'
        return response

    def create(self, request: Request, *args: Any, **kwargs: Any) -> Response:
        try:
            with transaction.atomic():
                return super().create(request, *args, **kwargs)
        except IntegrityError as error:
            raise self._why(error) from error

    def perform_create(self, serializer: serializers.BaseSerializer) -> None:
        given = serializer.validated_data.get("id")
        # A foreign id gives the same answer as one of ours: nobody learns that it exists elsewhere.
        if given and self.model.objects.filter(pk=given).exists():
            raise Refusal("A row with this id was saved before.", kind="exists")
        serializer.save(workshop=self.member.workshop)

    def _why(self, error: IntegrityError) -> exceptions.APIException:
        text = str(error)
        for constraint in self.model._meta.constraints:
            if constraint.name in text or self._columns_in(constraint, text):
                return exceptions.ValidationError({"": [str(constraint.violation_error_message)]})
        return Refusal("This clashes with something saved before.", kind="exists")

    def _columns_in(self, constraint: models.BaseConstraint, text: str) -> bool:
        """SQLite names the columns of a unique constraint, not the constraint."""
        fields = getattr(constraint, "fields", ())
        table = self.model._meta.db_table
        meta: Any = self.model._meta
        columns = [f"{table}.{meta.get_field(name).column}" for name in fields]
        return bool(columns) and all(column in text for column in columns)

    def update(self, request: Request, *args: Any, **kwargs: Any) -> Response:
        try:
            with transaction.atomic():
                self._demand_current(self._locked())
                return super().update(request, *args, **kwargs)
        except IntegrityError as error:
            raise self._why(error) from error

    def destroy(self, request: Request, *args: Any, **kwargs: Any) -> Response:
        with transaction.atomic():
            row = self._locked()
            self._demand_current(row)
            self.perform_destroy(row)
        return Response(status=204)

    def perform_destroy(self, instance: WorkshopOwned) -> None:
        try:
            self.remove(instance)
        except StillNeededError as error:
            raise Refusal(str(error), kind="still-needed") from error

    def remove(self, row: WorkshopOwned) -> None:
        """Takes the row out of sight; a stage with more to say overrides it."""
        remove(row)

    def _locked(self) -> WorkshopOwned:
        row = self.get_object()
        self.model.objects.select_for_update().filter(pk=row.pk).values_list("pk").first()
        row.refresh_from_db()
        return row

    def _demand_current(self, row: WorkshopOwned) -> None:
        given = self.request.headers.get("If-Match", "").strip().removeprefix("W/").strip('"')
        if not given:
            raise Refusal(
                "Say which version you changed: send its ETag as If-Match.", status_code=428, kind="version-needed"
            )
        if given not in {"*", str(row.revision)}:
            raise Refusal(
                "Somebody changed this meanwhile. Both versions are kept until you choose.",
                status_code=412,
                kind="changed-meanwhile",
                current=self.get_serializer(row).data,
            )


def _uuid_or_404(value: str) -> uuid.UUID:
    try:
        return uuid.UUID(value)
    except ValueError:
        raise exceptions.NotFound("There is nothing here by that name.") from None
