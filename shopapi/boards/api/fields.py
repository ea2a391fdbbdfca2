"""What photographs are measured by, as JSON."""

import json
from typing import Any

from drf_spectacular.utils import extend_schema_field
from rest_framework import serializers

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


class ReferencePointSerializer(serializers.Serializer):
    """A place in the photo and on the board, to square it by."""

    px = serializers.ListField(
        child=serializers.FloatField(), min_length=2, max_length=2, help_text="Pixels of the upright photo."
    )
    mm = serializers.ListField(
        child=serializers.FloatField(),
        min_length=2,
        max_length=2,
        help_text="From the butt end, and from the lower edge as the face is seen.",
    )

    def validate(self, attrs: dict[str, Any]) -> dict[str, Any]:
        if set(attrs) != {"px", "mm"}:  # changing a row asks for no field of its own accord
            raise serializers.ValidationError(
                "A point needs both: px, where it lies in the photo, and mm, on the board."
            )
        return attrs


class ProposalSerializer(serializers.Serializer):
    """Corners found in the photo, for the maker to nudge; with scale cards, the board's size too."""

    corners = CornersField()
    sure = serializers.FloatField(help_text="0, a guess, to 1.")
    length_mm = serializers.FloatField(allow_null=True, help_text="As two scale cards measured it.")
    width_mm = serializers.FloatField(allow_null=True, help_text="As two scale cards measured it.")

    def get_fields(self) -> dict[str, Any]:
        source = serializers.ChoiceField(["outline", "cards"], help_text="What it rests on.")
        return super().get_fields() | {"from": source}  # a word of the language, so no attribute can be called that
