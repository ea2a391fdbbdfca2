"""Routes: sheets of board tags, and the sheets of labels that are known."""

from dataclasses import replace
from typing import Any
from uuid import UUID

from django.http import HttpResponse
from drf_spectacular.types import OpenApiTypes
from drf_spectacular.utils import OpenApiParameter, extend_schema
from rest_framework import serializers
from rest_framework.exceptions import NotFound
from rest_framework.request import Request
from rest_framework.response import Response
from rest_framework.views import APIView

from shopapi.craft.packet import SHEETS, USUAL_SHEETS, LabelSheet, SheetError
from shopapi.labels import selectors
from shopapi.layouts.shapes import LabelSheetSerializer
from shopapi.workshops.scoping import asking_member

MOST_BOARDS = 500


class _IdsField(serializers.Field):
    """Ids with commas between them."""

    def to_internal_value(self, data: Any) -> list[UUID]:
        words = [word for word in str(data).split(",") if word.strip()]
        try:
            ids = list(dict.fromkeys(UUID(word.strip()) for word in words))
        except ValueError:
            raise serializers.ValidationError("Boards are named by their ids, with commas between them.") from None
        if not ids:
            raise serializers.ValidationError("Choose at least one board.")
        if len(ids) > MOST_BOARDS:
            raise serializers.ValidationError(f"At most {MOST_BOARDS} labels are printed at once; choose fewer boards.")
        return ids


class BoardLabelsSerializer(LabelSheetSerializer):
    """Which boards, on which sheet of labels; measures given beside it change that sheet."""

    used = None  # type: ignore[assignment]
    boards = _IdsField(error_messages={"required": "Choose the boards to print tags for."})
    sheet = serializers.ChoiceField(
        choices=list(SHEETS),
        required=False,
        error_messages={"invalid_choice": "There is no such sheet. Known: " + ", ".join(SHEETS) + "."},
        help_text="By paper, columns and rows; without it, the usual one of the workshop's paper.",
    )
    start = serializers.IntegerField(
        default=1, min_value=1, help_text="The first label that is still on the sheet, row by row from the upper left."
    )

    def validate(self, attrs: dict[str, Any]) -> dict[str, Any]:
        key = attrs.pop("sheet", None)
        base = SHEETS[key] if key else USUAL_SHEETS[self.member.workshop.paper]  # type: ignore[index]
        boards, start = attrs.pop("boards"), attrs.pop("start")
        try:
            sheet = replace(base, **attrs)
        except SheetError as error:
            raise serializers.ValidationError({"sheet": str(error)}) from error
        if start > sheet.count:
            raise serializers.ValidationError({"start": f"The sheet has {sheet.count} labels; start with one of them."})
        return {"boards": boards, "sheet": sheet, "used": start - 1}


class LabelsView(APIView):
    """Tags of boards as a PDF, to be printed at full size on a sheet of labels."""

    @extend_schema(
        parameters=[
            OpenApiParameter("boards", str, required=True, description="Ids of boards, with commas between them."),
            OpenApiParameter("sheet", str, enum=list(SHEETS)),
            OpenApiParameter("start", int, default=1, description="The first label that is still on the sheet."),
            *(
                OpenApiParameter(name, OpenApiTypes.DOUBLE if name.endswith("_mm") else OpenApiTypes.INT)
                for name in LabelSheet.__dataclass_fields__
                if name != "paper"
            ),
        ],
        responses={(200, "application/pdf"): OpenApiTypes.BINARY},
        operation_id="labels",
    )
    def get(self, request: Request) -> HttpResponse:
        workshop = asking_member(request).workshop
        asked = BoardLabelsSerializer(data=request.query_params, context={"request": request})
        asked.is_valid(raise_exception=True)
        given = asked.validated_data
        boards = selectors.boards_in_order(workshop, given["boards"])
        if boards is None:
            raise NotFound("One of these boards was removed meanwhile, or was never here. Choose them again.")
        origin = request.build_absolute_uri("/")
        try:
            pdf = selectors.labels_pdf(workshop, boards, given["sheet"], used=given["used"], origin=origin)
        except SheetError as error:
            raise serializers.ValidationError({"sheet": str(error)}) from error
        response = HttpResponse(pdf, content_type="application/pdf")
        response["Content-Disposition"] = 'inline; filename="tags.pdf"'
        return response


class SheetRowSerializer(serializers.Serializer):
    key = serializers.CharField()
    paper = serializers.ChoiceField(choices=list(USUAL_SHEETS))
    columns = serializers.IntegerField()
    rows = serializers.IntegerField()
    width_mm = serializers.FloatField()
    height_mm = serializers.FloatField()
    left_mm = serializers.FloatField()
    top_mm = serializers.FloatField()
    across_mm = serializers.FloatField(help_text="From the edge of a label to the same edge of the next.")
    down_mm = serializers.FloatField()


class LabelSheetsView(APIView):
    """Sheets of labels by their measures, those of the workshop's paper first."""

    @extend_schema(responses=SheetRowSerializer(many=True), operation_id="label_sheets_list")
    def get(self, request: Request) -> Response:
        paper = asking_member(request).workshop.paper
        rows = [{"key": key, **vars(sheet)} for key, sheet in SHEETS.items()]
        rows.sort(key=lambda row: row["paper"] != paper)
        return Response(SheetRowSerializer(rows, many=True).data)
