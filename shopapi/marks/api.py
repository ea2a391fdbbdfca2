"""Routes: marks on board faces, and the clear wood and grade they leave."""

from typing import Any
from uuid import UUID

from django.shortcuts import get_object_or_404
from drf_spectacular.utils import extend_schema, extend_schema_field
from rest_framework import serializers
from rest_framework.request import Request
from rest_framework.response import Response
from rest_framework.views import APIView

from shopapi.boards.models import Board
from shopapi.craft.clear_area import ClearFace
from shopapi.craft.grading import FaceGrade
from shopapi.craft.limits import OutOfRangeError
from shopapi.craft.marks import MarkError, check_inside, parse_shape, shape_to_dict
from shopapi.marks import selectors
from shopapi.marks.models import Mark
from shopapi.rest import Refusal
from shopapi.workshops.routes import OWNED_FIELDS, OWNED_READ_ONLY, WorkshopSerializer, WorkshopViewSet
from shopapi.workshops.scoping import asking_member

_POINTS = {
    "type": "array",
    "items": {"type": "array", "items": {"type": "number"}, "minItems": 2, "maxItems": 2},
}
_NUMBER = {"type": "number", "format": "double"}


def _one_of(kind: str, **fields: dict[str, Any]) -> dict[str, Any]:
    properties = {"type": {"type": "string", "enum": [kind]}, **fields}
    return {"type": "object", "properties": properties, "required": list(properties)}


@extend_schema_field(
    {
        "oneOf": [
            _one_of("ellipse", cx_mm=_NUMBER, cy_mm=_NUMBER, rx_mm=_NUMBER, ry_mm=_NUMBER),
            _one_of("line", points=_POINTS, width_mm=_NUMBER),
            _one_of("outline", points=_POINTS),
        ]
    }
)
class ShapeField(serializers.JSONField):
    """An ellipse, a line with a width, or an outline; board mm in face A's coordinates."""

    def to_internal_value(self, data: Any) -> dict[str, Any]:
        try:
            return shape_to_dict(parse_shape(data))
        except MarkError as error:
            raise serializers.ValidationError(str(error)) from error


class MarkSerializer(WorkshopSerializer):
    fixed_fields = ("board",)

    shape = ShapeField()

    class Meta:
        model = Mark
        fields = [*OWNED_FIELDS, "board", "face", "kind", "shape", "through", "blocks", "note"]
        read_only_fields = OWNED_READ_ONLY

    def validate(self, attrs: dict[str, Any]) -> dict[str, Any]:
        attrs = super().validate(attrs)
        board = attrs["board"] if self.instance is None else self.instance.board
        if "shape" in attrs:
            try:
                check_inside(parse_shape(attrs["shape"]), board.length_mm, board.width_mm)
            except MarkError as error:
                raise serializers.ValidationError({"shape": str(error)}) from error
        return attrs


class MarkViewSet(WorkshopViewSet):
    """Flaws and prized figure marked on board faces."""

    model = Mark
    kind = "mark"
    serializer_class = MarkSerializer
    related = ("board",)
    filter_by = ("board",)


class AreaSerializer(serializers.Serializer):
    x_mm = serializers.FloatField()
    y_mm = serializers.FloatField()
    length_mm = serializers.FloatField()
    width_mm = serializers.FloatField()


class ClearFaceSerializer(serializers.Serializer):
    clear_share = serializers.FloatField(help_text="0 to 1, by the flaws' true shapes.")
    rectangles = AreaSerializer(many=True, help_text="The largest clear one, the largest in what is left, and so on.")
    grade = serializers.CharField(help_text="What the face's clear wood reaches, whatever the board's size.")
    cuttings = AreaSerializer(many=True, help_text="Cuttings that prove the face's grade.")
    units_found = serializers.FloatField(help_text="Of those cuttings; a unit is an inch by a foot.")
    units_needed = serializers.FloatField()


class ClearFacesSerializer(serializers.Serializer):
    A = ClearFaceSerializer()
    B = ClearFaceSerializer()


class ClearWoodSerializer(serializers.Serializer):
    faces = ClearFacesSerializer()
    grade = serializers.CharField(help_text="Of the board, by the rules for hardwood.")
    why = serializers.CharField(help_text="Why no better one; empty for the best.", allow_blank=True)
    graded_face = serializers.ChoiceField(choices=["A", "B"], help_text="The poorer one, which decides.")
    cuttings = AreaSerializer(many=True, help_text="Cuttings that prove the grade, on the graded face.")
    surface_measure = serializers.IntegerField(help_text="Square feet.")
    proved = serializers.BooleanField(help_text="False: the search gave up, so the board may be better.")
    cautions = serializers.ListField(child=serializers.CharField())


class ClearWoodView(APIView):
    """The largest clear areas of a board's faces, its clear share, its grade and the cuttings that prove it."""

    @extend_schema(responses=ClearWoodSerializer, operation_id="boards_clear")
    def get(self, request: Request, pk: UUID) -> Response:
        board = get_object_or_404(Board.objects.for_workshop(asking_member(request).workshop_id), pk=pk)
        try:
            clear = selectors.clear_wood(board)
        except OutOfRangeError as error:
            raise Refusal(f"{board.tag} cannot be graded. {error}", kind="not-gradable") from error
        grading, poorer = clear.grading, clear.grading.poorer_face
        faces = {"A": _face(clear.face_a, grading.face_a), "B": _face(clear.face_b, grading.face_b)}
        answer = {
            "faces": faces,
            "grade": grading.grade,
            "why": _sentences(grading.why_not_better),
            "graded_face": poorer,
            "cuttings": faces[poorer]["cuttings"],
            "surface_measure": grading.surface_measure_sqft,
            "proved": grading.proved,
            "cautions": grading.cautions,
        }
        return Response(ClearWoodSerializer(answer).data)


def _face(clear: ClearFace, graded: FaceGrade) -> dict[str, Any]:
    return {
        "clear_share": clear.clear_share,
        "rectangles": [_area(rect.x0_mm, rect.y0_mm, rect.x1_mm, rect.y1_mm) for rect in clear.rectangles],
        "grade": graded.grade,
        "cuttings": [_area(*box) for box in graded.cuttings],
        "units_found": graded.units_found,
        "units_needed": graded.units_needed,
    }


def _area(x0: float, y0: float, x1: float, y1: float) -> dict[str, float]:
    return {"x_mm": x0, "y_mm": y0, "length_mm": x1 - x0, "width_mm": y1 - y0}


def _sentences(reasons: tuple[str, ...]) -> str:
    return " ".join(f"{reason}." for reason in reasons)
