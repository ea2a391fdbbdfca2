"""Route: marks on board faces."""

from typing import Any

from drf_spectacular.utils import extend_schema_field
from rest_framework import serializers

from shopapi.craft.marks import MarkError, check_inside, parse_shape, shape_to_dict
from shopapi.marks.models import Mark
from shopapi.workshops.routes import OWNED_FIELDS, OWNED_READ_ONLY, WorkshopSerializer, WorkshopViewSet

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
