"""Route: pictures of faces, joined of their photographs."""

from django.http import FileResponse
from drf_spectacular.utils import extend_schema, extend_schema_field
from rest_framework import serializers
from rest_framework.decorators import action
from rest_framework.request import Request

from shopapi.boards.api.worked_on import PICTURE, WorkedOnViewSet, picture
from shopapi.boards.models import FacePicture
from shopapi.workshops.routes import OWNED_FIELDS, OWNED_READ_ONLY, WorkshopSerializer


class StretchSerializer(serializers.Serializer):
    """A photograph's part in the picture."""

    shot = serializers.UUIDField()
    x0_mm = serializers.FloatField()
    x1_mm = serializers.FloatField()
    righted = serializers.ChoiceField(
        ["turned", "mirrored"], allow_null=True, help_text="How it was put right, where it lay wrongly."
    )


@extend_schema_field({"type": "object", "additionalProperties": {}})
class ShapeField(serializers.JSONField):
    """A shape as those of marks, in face A's coordinates."""


class SuggestionSerializer(serializers.Serializer):
    """A mark the picture suggests; it counts only once the maker made a mark of it."""

    key = serializers.CharField()
    kind = serializers.ChoiceField(["knot", "check", "wane"])
    shape = ShapeField()
    score = serializers.FloatField(help_text="0 to 1, how strongly.")


class FacePictureSerializer(WorkshopSerializer):
    stretches = StretchSerializer(many=True, read_only=True)
    gaps = serializers.ListField(
        child=serializers.ListField(child=serializers.FloatField(), min_length=2, max_length=2),
        read_only=True,
        help_text="[from, to] in mm from the butt end that no photograph shows.",
    )
    overlaps = serializers.ListField(
        child=serializers.ListField(child=serializers.FloatField(allow_null=True), min_length=3, max_length=3),
        read_only=True,
        help_text="[from, to, how far apart two photographs put the same wood; null where they show none in common].",
    )
    remarks = serializers.ListField(
        child=serializers.CharField(), read_only=True, help_text="How the photographs fit, where that is worth a word."
    )
    suggestions = SuggestionSerializer(many=True, read_only=True)
    dismissed = serializers.ListField(
        child=serializers.CharField(max_length=60),
        max_length=1000,
        required=False,
        help_text="Keys of suggestions that were taken or are not wanted.",
    )

    class Meta:
        model = FacePicture
        fields = [
            *OWNED_FIELDS,
            "board",
            "face",
            "state",
            "problem",
            "stretches",
            "gaps",
            "overlaps",
            "remarks",
            "mm_per_px",
            "width_px",
            "height_px",
            "suggestions",
            "dismissed",
        ]
        read_only_fields = (
            *OWNED_READ_ONLY,
            "board",
            "face",
            "state",
            "problem",
            "mm_per_px",
            "width_px",
            "height_px",
        )


class FacePictureViewSet(WorkedOnViewSet):
    """The picture of each face, made by the service; only which suggestions are dismissed is the maker's to say."""

    model = FacePicture
    kind = "face_picture"
    serializer_class = FacePictureSerializer
    filter_by = ("board",)
    http_method_names = ["get", "patch", "head", "options"]

    @extend_schema(responses=PICTURE)
    @action(detail=True, methods=["get"])
    def picture(self, request: Request, pk: str | None = None) -> FileResponse:
        """The face as if seen straight from above: butt end left, upper edge on top; grey where no photograph is."""
        missing = "The photographs of this face are being joined."
        return picture(self.get_object().picture, "image/jpeg", missing=missing)
