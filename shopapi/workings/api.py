"""Routes: the trade's arithmetic, to try and to keep."""

from typing import Any

from django.utils.decorators import method_decorator
from django.views.decorators.http import conditional_page
from drf_spectacular.utils import extend_schema, extend_schema_field
from rest_framework import exceptions, serializers
from rest_framework.request import Request
from rest_framework.response import Response
from rest_framework.views import APIView

from shopapi.workings import services
from shopapi.workings.declare import FIELD_KINDS, FIGURE_KINDS
from shopapi.workings.given import InputRefusalError
from shopapi.workings.models import Working
from shopapi.workings.selectors import kind_named, kinds_for, tape_of
from shopapi.workshops.routes import OWNED_FIELDS, OWNED_READ_ONLY, WorkshopSerializer, WorkshopViewSet
from shopapi.workshops.scoping import asking_member

_VALUE = {"oneOf": [{"type": "number"}, {"type": "string"}]}
_INPUTS = {
    "type": "object",
    "description": "By field name. A length in mm, or as text such as 29 3/4; other numbers in the field's own unit.",
    "additionalProperties": {**_VALUE, "nullable": True},
}


@extend_schema_field({**_VALUE, "nullable": True})
class ValueField(serializers.JSONField):
    """A number or a word."""


@extend_schema_field({"type": "array", "items": {"type": "array", "items": _VALUE}})
class RowsField(serializers.JSONField):
    """Rows of a table, a number or a word in each column."""


class WorkingChoiceSerializer(serializers.Serializer):
    value = serializers.CharField()
    word = serializers.CharField()


class WorkingFieldSerializer(serializers.Serializer):
    name = serializers.CharField()
    label = serializers.CharField()  # type: ignore[assignment]
    kind = serializers.ChoiceField(FIELD_KINDS)
    unit = serializers.CharField(help_text="What a number here is counted in.")
    default = ValueField(help_text="Stands where nothing is given.")  # type: ignore[assignment]
    least = serializers.FloatField(allow_null=True)
    most = serializers.FloatField(allow_null=True)
    zero_ok = serializers.BooleanField(help_text="Whether a length may be nothing.")
    whole = serializers.BooleanField()
    need = serializers.BooleanField(help_text="Whether it must be given where it has no default.")
    hint = serializers.CharField()
    choices = WorkingChoiceSerializer(many=True)


class WorkingSourceSerializer(serializers.Serializer):
    key = serializers.CharField()
    place = serializers.CharField()
    title = serializers.CharField()
    standing = serializers.ChoiceField(
        ["read", "secondary", "memory", "practice", "own"], help_text="How well it could be checked."
    )
    note = serializers.CharField()


class _Told(serializers.Serializer):
    key = serializers.CharField()
    family = serializers.CharField()
    title = serializers.CharField()
    purpose = serializers.CharField()
    formula = serializers.CharField()
    sources = WorkingSourceSerializer(many=True)
    limits = serializers.CharField()


class WorkingKindSerializer(_Told):
    fields = WorkingFieldSerializer(many=True)  # type: ignore[assignment]


class WorkingEchoSerializer(serializers.Serializer):
    name = serializers.CharField()
    label = serializers.CharField()  # type: ignore[assignment]
    kind = serializers.ChoiceField(FIGURE_KINDS)
    unit = serializers.CharField()
    value = serializers.FloatField(allow_null=True)
    text = serializers.CharField()


class WorkingLineSerializer(serializers.Serializer):
    label = serializers.CharField()  # type: ignore[assignment]
    kind = serializers.ChoiceField(FIGURE_KINDS)
    unit = serializers.CharField()
    value = serializers.FloatField(allow_null=True, help_text="Nothing where the line is words.")
    text = serializers.CharField()
    digits = serializers.IntegerField()
    fine = serializers.BooleanField(help_text="A length to be told finer than a tape is divided.")
    main = serializers.BooleanField(help_text="The answer itself, to be shown largest.")


class WorkingColumnSerializer(serializers.Serializer):
    label = serializers.CharField()  # type: ignore[assignment]
    kind = serializers.ChoiceField(FIGURE_KINDS)
    digits = serializers.IntegerField()
    fine = serializers.BooleanField()


class WorkingTableSerializer(serializers.Serializer):
    columns = WorkingColumnSerializer(many=True)
    rows = RowsField()


class WorkingAnswerSerializer(_Told):
    inputs = WorkingEchoSerializer(many=True)
    lines = WorkingLineSerializer(many=True)
    table = WorkingTableSerializer(allow_null=True)
    method = serializers.CharField()
    cautions = serializers.ListField(child=serializers.CharField(), help_text="To be shown wherever the answer is.")


@extend_schema_field(_INPUTS)
class InputsField(serializers.JSONField):
    """The inputs of a working by name."""


@extend_schema_field(WorkingAnswerSerializer)
class AnswerField(serializers.JSONField):
    """The answer as it was given on the day."""


@method_decorator(conditional_page, name="dispatch")
class WorkingKindsView(APIView):
    """Every working there is, with what it asks; the ETag lets a phone keep it."""

    @extend_schema(responses=WorkingKindSerializer(many=True), operation_id="craft_list")
    def get(self, request: Request) -> Response:
        return Response(kinds_for(asking_member(request).workshop))


class WorkOutView(APIView):
    """Works one out; nothing is kept."""

    @extend_schema(
        request={"application/json": _INPUTS}, responses=WorkingAnswerSerializer, operation_id="craft_work_out"
    )
    def post(self, request: Request, key: str) -> Response:
        kind = kind_named(key)
        if kind is None:
            raise exceptions.NotFound(f'There is no working "{key}". GET /api/craft/ lists them.')
        try:
            tape = tape_of(asking_member(request).workshop)
            return Response(services.work_out(kind=kind, inputs=request.data, tape=tape))
        except InputRefusalError as refusal:
            raise serializers.ValidationError(refusal.errors) from refusal


class WorkingSerializer(WorkshopSerializer):
    # What was asked and answered stays; another answer is another working.
    fixed_fields = ("commission", "kind", "inputs")

    kind = serializers.CharField(max_length=40)
    inputs = InputsField()
    answer = AnswerField(read_only=True)

    class Meta:
        model = Working
        fields = [*OWNED_FIELDS, "kind", "title", "commission", "part", "inputs", "answer"]
        read_only_fields = OWNED_READ_ONLY

    def validate_kind(self, key: str) -> str:
        if kind_named(key) is None:
            raise serializers.ValidationError(f'There is no working "{key}". GET /api/craft/ lists them.')
        return key

    def validate(self, attrs: dict[str, Any]) -> dict[str, Any]:
        attrs = super().validate(attrs)
        commission = attrs["commission"] if self.instance is None else self.instance.commission
        if (part := attrs.get("part")) and part.commission_id != commission.pk:
            raise serializers.ValidationError({"part": f"{part} belongs to another commission."})
        return attrs

    def create(self, validated_data: dict[str, Any]) -> Working:
        kind = kind_named(validated_data.pop("kind"))
        assert kind is not None  # noqa: S101 - validate_kind saw to it
        try:
            return services.working_create(kind=kind, tape=tape_of(self.asker.workshop), **validated_data)
        except InputRefusalError as refusal:
            raise serializers.ValidationError({"inputs": refusal.errors}) from refusal


class WorkingViewSet(WorkshopViewSet):
    """Answers kept with a commission or one of its parts, with their inputs."""

    model = Working
    kind = "working"
    serializer_class = WorkingSerializer
    filter_by = ("commission", "part")
