"""Route: layouts."""

from collections.abc import Callable
from typing import Any

from django.http import HttpResponse
from drf_spectacular.types import OpenApiTypes
from drf_spectacular.utils import extend_schema, extend_schema_field
from rest_framework import serializers
from rest_framework.decorators import action
from rest_framework.request import Request
from rest_framework.response import Response

from shopapi.boards.models import Board
from shopapi.craft.layout import LayoutError
from shopapi.craft.packet import SheetError
from shopapi.layouts import carrying_out, services
from shopapi.layouts.models import Layout
from shopapi.layouts.shapes import (
    BoardSizeSerializer,
    CarriedSerializer,
    CarryOutSerializer,
    CutsField,
    FiguresSerializer,
    KeptTogetherSerializer,
    LabelSheetSerializer,
    PinSerializer,
    PlacementSerializer,
    ProgressSerializer,
    UnplacedSerializer,
)
from shopapi.rest import Refusal
from shopapi.workshops.routes import OWNED_FIELDS, OWNED_READ_ONLY, WorkshopSerializer, WorkshopViewSet


class LayoutSerializer(WorkshopSerializer):
    fixed_fields = ("commission", "boards", "excluded", "based_on", "made", "pinned", "aim", "seconds")

    boards = serializers.ListField(child=serializers.UUIDField(), required=False, max_length=2000)
    excluded = serializers.ListField(child=serializers.UUIDField(), required=False, max_length=2000)
    pinned = PinSerializer(many=True, required=False, max_length=5000)
    seconds = serializers.FloatField(min_value=0.5, max_value=300, default=5)
    progress = ProgressSerializer(read_only=True, allow_null=True)
    figures = FiguresSerializer(read_only=True, allow_null=True)
    carried = CarriedSerializer(many=True, read_only=True)
    kept_together = KeptTogetherSerializer(many=True, read_only=True)
    placements = PlacementSerializer(many=True, read_only=True)
    unplaced = UnplacedSerializer(many=True, read_only=True)
    cuts = CutsField(read_only=True)
    board_sizes = serializers.SerializerMethodField()

    class Meta:
        model = Layout
        fields = [
            *OWNED_FIELDS,
            "commission",
            "boards",
            "excluded",
            "based_on",
            "made",
            "pinned",
            "aim",
            "seconds",
            "state",
            "problem",
            "progress",
            "value",
            "bound",
            "bound_covers",
            "proved_best",
            "figures",
            "carried_out_on",
            "carried",
            "kept_together",
            "placements",
            "unplaced",
            "cuts",
            "board_sizes",
            "finished_at",
        ]
        read_only_fields = (
            *OWNED_READ_ONLY,
            "state",
            "problem",
            "value",
            "bound",
            "bound_covers",
            "proved_best",
            "carried_out_on",
            "finished_at",
        )

    @extend_schema_field(serializers.DictField(child=BoardSizeSerializer()))
    def get_board_sizes(self, layout: Layout) -> dict[str, Any]:
        """Tag and size of each board as they were when the layout was made."""
        kept = ("tag", "length_mm", "width_mm")
        return {key: {name: board[name] for name in kept} for key, board in layout.asked.get("boards", {}).items()}

    def validate_boards(self, ids: list[Any]) -> list[str]:
        found = Board.objects.for_workshop(self.asker.workshop_id).filter(pk__in=ids).count()
        if found != len(set(ids)):
            raise serializers.ValidationError("One of these boards is not in your rack.")
        return [str(pk) for pk in ids]

    def validate_excluded(self, ids: list[Any]) -> list[str]:
        return self.validate_boards(ids)

    def validate(self, attrs: dict[str, Any]) -> dict[str, Any]:
        attrs = super().validate(attrs)
        base = attrs.get("based_on")
        if base is not None and base.commission_id != attrs["commission"].pk:
            raise serializers.ValidationError({"based_on": "That layout is of another commission."})
        return attrs

    def create(self, validated_data: dict[str, Any]) -> Layout:
        try:
            return services.layout_create(**validated_data)
        except services.PinsError as error:
            raise serializers.ValidationError({"pinned": _by_number(error.complaints)}) from error
        except LayoutError as error:
            raise serializers.ValidationError(str(error)) from error


def _by_number(complaints: dict[int, list[str]]) -> dict[str, list[str]]:
    return {str(number): words for number, words in sorted(complaints.items())}


class LayoutViewSet(WorkshopViewSet):
    """Which part comes from where; the background worker answers, the change feed tells."""

    model = Layout
    kind = "layout"
    serializer_class = LayoutSerializer
    filter_by = ("commission",)

    @extend_schema(request=None, responses=LayoutSerializer)
    @action(detail=True, methods=["post"])
    def stop(self, request: Request, pk: str | None = None) -> Response:
        """Ends the search and keeps the best layout so far; one that is done stays as it is."""
        layout = services.layout_stop(layout=self.get_object())
        return Response(self.get_serializer(layout).data)

    @extend_schema(request=CarryOutSerializer, responses=LayoutSerializer)
    @action(detail=True, methods=["post"], url_path="carry-out")
    def carry_out(self, request: Request, pk: str | None = None) -> Response:
        """Saws boards as laid out: they are used up, offcuts worth keeping go into the rack, parts count as cut."""
        asked = CarryOutSerializer(data=request.data)
        asked.is_valid(raise_exception=True)
        boards = [str(key) for key in asked.validated_data.get("boards", [])]
        return self._carried(lambda layout: carrying_out.carry_out(layout=layout, boards=boards))

    @extend_schema(request=None, responses=LayoutSerializer)
    @action(detail=True, methods=["post"])
    def undo(self, request: Request, pk: str | None = None) -> Response:
        """Takes back what was sawn by this layout today, as long as no offcut was worked on."""
        return self._carried(lambda layout: carrying_out.undo(layout=layout))

    def _carried(self, change: Callable[[Layout], Layout]) -> Response:
        try:
            layout = change(self.get_object())
        except carrying_out.CarryingOutError as error:
            raise Refusal(str(error), kind="carrying-out") from error
        return Response(self.get_serializer(layout).data)

    @extend_schema(responses={(200, "application/pdf"): OpenApiTypes.BINARY})
    @action(detail=True, methods=["get"])
    def breakdown(self, request: Request, pk: str | None = None) -> HttpResponse:
        """The breakdown sheets: one drawing per board with its cut lines."""
        layout = self._done()
        from shopapi.layouts.breakdown import breakdown_pdf

        return _pdf(breakdown_pdf(layout), "breakdown.pdf")

    @extend_schema(parameters=[LabelSheetSerializer], responses={(200, "application/pdf"): OpenApiTypes.BINARY})
    @action(detail=True, methods=["get"])
    def labels(self, request: Request, pk: str | None = None) -> HttpResponse:
        """Part labels, one for each piece, on sheets described by their measures."""
        layout = self._done()
        asked = LabelSheetSerializer(data=request.query_params, context=self.get_serializer_context())
        asked.is_valid(raise_exception=True)
        from shopapi.layouts.labels import labels_pdf, sheet_for

        given = dict(asked.validated_data)
        used = given.pop("used")
        try:
            sheet = sheet_for(layout.workshop, **given)
        except SheetError as error:
            raise serializers.ValidationError(str(error)) from error
        return _pdf(labels_pdf(layout, sheet, used), "labels.pdf")

    def _done(self) -> Layout:
        layout: Layout = self.get_object()
        if layout.state != Layout.State.DONE:
            raise Refusal("The layout is not done yet, so there is nothing to print.")
        return layout


def _pdf(content: bytes, name: str) -> HttpResponse:
    response = HttpResponse(content, content_type="application/pdf")
    response["Content-Disposition"] = f'inline; filename="{name}"'
    return response
