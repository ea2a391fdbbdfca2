"""Routes: surface plans, their steps, the bench log."""

from typing import Any, cast

from drf_spectacular.utils import extend_schema
from rest_framework import serializers
from rest_framework.request import Request
from rest_framework.response import Response
from rest_framework.views import APIView

from shopapi.craft.finish import all_finish_classes, finish_class
from shopapi.craft.limits import OutOfRangeError
from shopapi.finishing import services
from shopapi.finishing.models import BenchEntry, Step, SurfacePlan
from shopapi.workshops.routes import OWNED_FIELDS, OWNED_READ_ONLY, WorkshopSerializer, WorkshopViewSet
from shopapi.workshops.scoping import WorkshopOwned


class SurfacePlanSerializer(WorkshopSerializer):
    # The steps were made from these; afterwards the steps themselves are edited.
    fixed_fields = ("commission", "finish_class", "coats", "start_grit", "final_grit", "raise_grain")

    class Meta:
        model = SurfacePlan
        fields = [
            *OWNED_FIELDS,
            "commission",
            "name",
            "finish_class",
            "coats",
            "start_grit",
            "final_grit",
            "raise_grain",
        ]
        read_only_fields = OWNED_READ_ONLY

    def validate_finish_class(self, key: str) -> str:
        try:
            return finish_class(key).name
        except OutOfRangeError as error:
            raise serializers.ValidationError(str(error)) from error

    def create(self, validated_data: dict[str, Any]) -> SurfacePlan:
        try:
            return services.surface_plan_create(**validated_data)
        except ValueError as error:
            raise serializers.ValidationError({"": str(error)}) from error


class SurfacePlanViewSet(WorkshopViewSet):
    """The sanding and finish steps of a commission; making one makes its steps."""

    model = SurfacePlan
    kind = "surface_plan"
    serializer_class = SurfacePlanSerializer
    filter_by = ("commission",)


class StepSerializer(WorkshopSerializer):
    fixed_fields = ("plan",)

    cautions = serializers.ListField(child=serializers.CharField(max_length=500), required=False, max_length=20)

    class Meta:
        model = Step
        fields = [
            *OWNED_FIELDS,
            "plan",
            "position",
            "kind",
            "title",
            "detail",
            "cautions",
            "wait_hours",
            "window_hours",
            "hands_on_minutes",
        ]
        read_only_fields = OWNED_READ_ONLY

    def validate(self, attrs: dict[str, Any]) -> dict[str, Any]:
        attrs = super().validate(attrs)
        wait = attrs.get("wait_hours", self.instance.wait_hours if self.instance else 0)
        window = attrs.get("window_hours", self.instance.window_hours if self.instance else None)
        if window is not None and window < wait:
            raise serializers.ValidationError(
                {"window_hours": "The latest start cannot come before the earliest; leave it empty for no limit."}
            )
        return attrs


class StepViewSet(WorkshopViewSet):
    """Steps of surface plans."""

    model = Step
    kind = "step"
    serializer_class = StepSerializer
    filter_by = ("plan",)

    def remove(self, row: WorkshopOwned) -> None:
        services.step_remove(step=cast(Step, row))


class BenchEntrySerializer(WorkshopSerializer):
    fixed_fields = ("step",)

    class Meta:
        model = BenchEntry
        fields = [
            *OWNED_FIELDS,
            "step",
            "done_at",
            "done_by",
            "done_by_name",
            "temp_c",
            "rh_pct",
            "note",
            "early_reason",
        ]
        read_only_fields = (*OWNED_READ_ONLY, "done_by", "done_by_name")

    def create(self, validated_data: dict[str, Any]) -> BenchEntry:
        validated_data.pop("workshop")
        return services.bench_entry_create(member=self.asker, **validated_data)


class BenchEntryViewSet(WorkshopViewSet):
    """The bench log: what was done, when, by whom, in what air."""

    model = BenchEntry
    kind = "bench_entry"
    serializer_class = BenchEntrySerializer
    related = ("step",)


class FinishRowSerializer(serializers.Serializer):
    name = serializers.CharField()
    label = serializers.CharField()  # type: ignore[assignment]
    drying = serializers.ChoiceField(["reaction", "water", "solvent"], help_text="What its drying waits for.")
    coats = serializers.IntegerField()
    most_coats = serializers.IntegerField()
    final_grit = serializers.IntegerField()
    raise_grain = serializers.BooleanField()
    cautions = serializers.ListField(child=serializers.CharField())
    repair = serializers.CharField()
    how = serializers.CharField(help_text="What the numbers rest on.")


class FinishesView(APIView):
    """Generic finish classes, for pickers."""

    @extend_schema(responses=FinishRowSerializer(many=True), operation_id="finishes_list")
    def get(self, request: Request) -> Response:
        return Response(FinishRowSerializer(all_finish_classes(), many=True).data)
