"""Route: photographs of board faces."""

from typing import Any

from django.db import IntegrityError
from django.http import FileResponse
from drf_spectacular.types import OpenApiTypes
from drf_spectacular.utils import OpenApiResponse, extend_schema
from rest_framework import parsers, serializers
from rest_framework.decorators import action
from rest_framework.request import Request
from rest_framework.response import Response

from shopapi.boards import photographs, services
from shopapi.boards.api.fields import CornersField, HomographyField, ProposalSerializer, ReferencePointSerializer
from shopapi.boards.api.worked_on import PICTURE, WorkedOnViewSet, picture
from shopapi.boards.models import Shot
from shopapi.craft.rectify import RectifyError
from shopapi.rest import Refusal
from shopapi.workshops.routes import OWNED_FIELDS, OWNED_READ_ONLY, WorkshopSerializer
from shopapi.workshops.scoping import WorkshopOwned


class ShotSerializer(WorkshopSerializer):
    fixed_fields = ("board", "photo")

    corners = CornersField(required=False)
    points = ReferencePointSerializer(many=True, required=False, allow_null=True, help_text="Instead of corners.")
    proposal = ProposalSerializer(read_only=True, allow_null=True)
    point_residuals_mm = serializers.ListField(
        child=serializers.FloatField(), read_only=True, allow_null=True, help_text="Of each corner or point."
    )
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
            "points",
            "proposal",
            "homography",
            "lens_k",
            "x0_mm",
            "x1_mm",
            "point_residuals_mm",
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
            "lens_k",
            "x0_mm",
            "x1_mm",
            "residual_mm",
            "slip_mm",
            "mm_per_px",
            "width_px",
            "height_px",
            "squared_width_px",
            "squared_height_px",
        )

    def validate(self, attrs: dict[str, Any]) -> dict[str, Any]:
        attrs = super().validate(attrs)
        points = attrs.get("points")
        if points and attrs.get("corners"):
            raise serializers.ValidationError({"points": "Send the board's corners or points on a stretch, not both."})
        if points is not None and len(points) < 4:
            raise serializers.ValidationError(
                {"points": f"Four points are needed, two on either edge; {len(points)} were given."}
            )
        return attrs

    def create(self, validated_data: dict[str, Any]) -> Shot:
        validated_data.pop("workshop")
        points = validated_data.pop("points", None)
        try:
            shot = services.shot_create(member=self.asker, **validated_data)
        except photographs.PhotoError as error:
            raise serializers.ValidationError({"photo": str(error)}) from error
        except RectifyError as error:
            raise serializers.ValidationError({"corners": str(error)}) from error
        return self._place(shot, None, points)

    def update(self, instance: Shot, validated_data: dict[str, Any]) -> Shot:
        corners, points = validated_data.pop("corners", None), validated_data.pop("points", None)
        if (face := validated_data.get("face", instance.face)) != instance.face:
            services.shot_turn_over(shot=instance, face=face)
        return self._place(instance, corners, points)

    def _place(self, shot: Shot, corners: Any, points: Any) -> Shot:
        try:
            if points:
                return services.shot_square_stretch(shot=shot, points=points)
            return services.shot_square(shot=shot, corners=corners) if corners else shot
        except RectifyError as error:
            raise serializers.ValidationError({"points" if points else "corners": str(error)}) from error


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

    def remove(self, row: WorkshopOwned) -> None:
        assert isinstance(row, Shot)  # noqa: S101 - tells the type checker
        services.shot_remove(shot=row)

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
