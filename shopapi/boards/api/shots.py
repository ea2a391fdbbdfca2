"""Route: photographs of board faces."""

import json
from typing import Any

from django.db import IntegrityError
from django.http import FileResponse
from drf_spectacular.types import OpenApiTypes
from drf_spectacular.utils import OpenApiResponse, extend_schema, extend_schema_field
from rest_framework import parsers, serializers
from rest_framework.decorators import action
from rest_framework.request import Request
from rest_framework.response import Response

from shopapi.boards import photographs, services
from shopapi.boards.api.worked_on import PICTURE, WorkedOnViewSet, picture
from shopapi.boards.models import Shot
from shopapi.craft.rectify import RectifyError
from shopapi.rest import Refusal
from shopapi.workshops.routes import OWNED_FIELDS, OWNED_READ_ONLY, WorkshopSerializer

_PAIRS = {
    "type": "array",
    "nullable": True,
    "items": {"type": "array", "items": {"type": "number"}, "minItems": 2, "maxItems": 2},
    "minItems": 4,
    "maxItems": 4,
}
_MATRIX = {
    "type": "array",
    "nullable": True,
    "items": {"type": "array", "items": {"type": "number"}, "minItems": 3, "maxItems": 3},
    "minItems": 3,
    "maxItems": 3,
}


@extend_schema_field(_PAIRS)
class CornersField(serializers.Field):
    """Butt-end lower, far-end lower, far-end upper, butt-end upper: pixels of the upright photo."""

    def to_internal_value(self, data: Any) -> list[list[float]]:
        if isinstance(data, str):
            try:
                data = json.loads(data)
            except ValueError:
                data = None
        try:
            pairs = [[float(x), float(y)] for x, y in data]
        except (TypeError, ValueError):
            raise serializers.ValidationError("Corners are four pairs of numbers.") from None
        if len(pairs) != 4:
            raise serializers.ValidationError(f"A board has four corners, not {len(pairs)}.")
        return pairs

    def to_representation(self, value: list[list[float]]) -> list[list[float]]:
        return value


@extend_schema_field(_MATRIX)
class HomographyField(serializers.JSONField):
    """3 x 3, upright photo pixels to board mm."""


class ShotSerializer(WorkshopSerializer):
    fixed_fields = ("board", "photo")

    corners = CornersField(required=False)
    homography = HomographyField(read_only=True)
    photo = serializers.FileField(write_only=True, required=True)

    class Meta:
        model = Shot
        fields = [
            *OWNED_FIELDS,
            "board",
            "face",
            "photo",
            "state",
            "problem",
            "corners",
            "homography",
            "residual_mm",
            "slip_mm",
            "mm_per_px",
            "width_px",
            "height_px",
            "squared_width_px",
            "squared_height_px",
        ]
        read_only_fields = (
            *OWNED_READ_ONLY,
            "state",
            "problem",
            "residual_mm",
            "slip_mm",
            "mm_per_px",
            "width_px",
            "height_px",
            "squared_width_px",
            "squared_height_px",
        )

    def create(self, validated_data: dict[str, Any]) -> Shot:
        validated_data.pop("workshop")
        try:
            return services.shot_create(member=self.asker, **validated_data)
        except photographs.PhotoError as error:
            raise serializers.ValidationError({"photo": str(error)}) from error
        except RectifyError as error:
            raise serializers.ValidationError({"corners": str(error)}) from error

    def update(self, instance: Shot, validated_data: dict[str, Any]) -> Shot:
        corners = validated_data.pop("corners", None)
        if validated_data:
            instance = super().update(instance, validated_data)
        if not corners:
            return instance
        try:
            return services.shot_square(shot=instance, corners=corners)
        except RectifyError as error:
            raise serializers.ValidationError({"corners": str(error)}) from error


class ShotViewSet(WorkedOnViewSet):
    """Photographs of board faces; corners sent later square them up."""

    model = Shot
    kind = "shot"
    serializer_class = ShotSerializer
    related = ("board",)
    filter_by = ("board",)
    parser_classes = [parsers.MultiPartParser, parsers.JSONParser]

    def create(self, request: Request, *args: Any, **kwargs: Any) -> Response:
        try:
            return super().create(request, *args, **kwargs)
        except (Refusal, IntegrityError):
            if shot := self._came_before(request):  # a phone that never heard the first answer
                return Response(self.get_serializer(shot).data, status=200)
            raise

    def _came_before(self, request: Request) -> Shot | None:
        photo, given = request.FILES.get("photo"), request.POST.get("id")
        if photo is None or not given:
            return None
        rows = self.get_queryset().filter(pk=given, sha256=photographs.digest_of(photo))
        return rows.first()

    @extend_schema(responses=PICTURE)
    @action(detail=True, methods=["get"])
    def preview(self, request: Request, pk: str | None = None) -> FileResponse:
        """Upright and small enough for a phone's screen."""
        return picture(
            self.get_object().preview, "image/jpeg", missing="This photograph is still being turned upright."
        )

    @extend_schema(responses=PICTURE)
    @action(detail=True, methods=["get"])
    def squared(self, request: Request, pk: str | None = None) -> FileResponse:
        """The board as if seen straight from above: butt end left, upper edge on top."""
        return picture(self.get_object().squared, "image/jpeg", missing="This photograph has not been squared up yet.")

    @extend_schema(responses={200: OpenApiResponse(OpenApiTypes.BINARY, description="The photograph as it came")})
    @action(detail=True, methods=["get"])
    def original(self, request: Request, pk: str | None = None) -> FileResponse:
        """The photograph as it came, without the place it was taken at."""
        shot = self.get_object()
        return picture(shot.original, "application/octet-stream", missing="", attach=True)
