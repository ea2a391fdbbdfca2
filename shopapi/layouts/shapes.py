"""What the route of layouts reads and writes inside a row: placements, pins, figures, label sheets."""

from typing import Any

from drf_spectacular.utils import extend_schema_field
from rest_framework import serializers

from shopapi.boards.models import Face
from shopapi.workshops.lengths import LONGEST_MM, LengthField
from shopapi.workshops.models import Member
from shopapi.workshops.scoping import asking_member


class PlacementSerializer(serializers.Serializer):
    board = serializers.UUIDField()
    part = serializers.UUIDField()
    piece = serializers.IntegerField(help_text="The how-manieth of its kind.")
    strip = serializers.IntegerField(help_text="The how-manieth strip of a panel; 0: not a strip.")
    x_mm = serializers.FloatField()
    y_mm = serializers.FloatField()
    length_mm = serializers.FloatField()
    width_mm = serializers.FloatField()
    face = serializers.CharField()
    turned = serializers.BooleanField(default=False, help_text="Laid the other way round, end for end.")
    pinned = serializers.BooleanField(default=False, help_text="Stays where it is when the rest is solved again.")


class PlaceField(serializers.FloatField):
    """A place or size on a board, brought to whole mm; also off the board, so that it can be said how far."""

    def to_internal_value(self, data: Any) -> int:
        value = super().to_internal_value(data)
        if not abs(value) <= LONGEST_MM:
            raise serializers.ValidationError("That is no place on a board.")
        return round(value)


class PinSerializer(serializers.Serializer):
    """A piece laid by hand."""

    board = serializers.UUIDField()
    part = serializers.UUIDField()
    piece = serializers.IntegerField(min_value=1)
    strip = serializers.IntegerField(min_value=0, default=0)
    x_mm = PlaceField()
    y_mm = PlaceField()
    length_mm = PlaceField(min_value=1)
    width_mm = PlaceField(min_value=1)
    face = serializers.ChoiceField(choices=Face.choices, default=Face.A)
    turned = serializers.BooleanField(default=False)
    pinned = serializers.BooleanField(default=True)

    def to_internal_value(self, data: Any) -> dict[str, Any]:
        pin = super().to_internal_value(data)
        return {**pin, "board": str(pin["board"]), "part": str(pin["part"])}


class PurchaseSerializer(serializers.Serializer):
    board_feet = serializers.FloatField()
    m3 = serializers.FloatField()
    least_clear_length_mm = serializers.FloatField()
    least_clear_width_mm = serializers.FloatField()
    thickness_mm = serializers.FloatField(help_text="As rough lumber, at least.")
    species = serializers.CharField()
    waste_pct = serializers.FloatField(help_text="Reckoned in; what this workshop noted, else common practice.")
    waste_words = serializers.CharField()


class UnplacedSerializer(serializers.Serializer):
    part = serializers.UUIDField()
    count = serializers.IntegerField()
    reason = serializers.CharField()
    purchase = PurchaseSerializer(allow_null=True, default=None, help_text="The smallest that would place them.")


class ProgressSerializer(serializers.Serializer):
    value = serializers.FloatField()
    bound = serializers.FloatField(allow_null=True, help_text="No layout can be worth more; null: not known yet.")
    gap_pct = serializers.FloatField(allow_null=True)
    seconds = serializers.FloatField()


class LeftoverSerializer(serializers.Serializer):
    board = serializers.UUIDField()
    x_mm = serializers.FloatField()
    y_mm = serializers.FloatField()
    length_mm = serializers.FloatField()
    width_mm = serializers.FloatField()


class FiguresSerializer(serializers.Serializer):
    pieces = serializers.IntegerField()
    unplaced = serializers.IntegerField()
    boards_used = serializers.IntegerField()
    parts_mm2 = serializers.FloatField(help_text="Rough pieces together.")
    wood_used_mm2 = serializers.FloatField(help_text="The boards that are cut, without the leftovers worth keeping.")
    board_mm2 = serializers.FloatField(help_text="The boards that are cut, whole.")
    looks = serializers.FloatField(default=None, allow_null=True, help_text="0 to 1: margins, matching, tone, figure.")
    leftovers = LeftoverSerializer(many=True)


class KeptTogetherSerializer(serializers.Serializer):
    group = serializers.CharField()
    level = serializers.ChoiceField(
        choices=["board", "flitch", "tone", "apart"], help_text="One board, one log, like colour, or none of these."
    )
    stocks = serializers.ListField(child=serializers.UUIDField(), help_text="The boards its pieces come from.")


class CarriedSerializer(serializers.Serializer):
    board = serializers.UUIDField()
    cut = serializers.UUIDField()
    on = serializers.DateField()


class CarryOutSerializer(serializers.Serializer):
    boards = serializers.ListField(
        child=serializers.UUIDField(), required=False, max_length=2000, help_text="Left out: all that are not sawn yet."
    )


class LabelSheetSerializer(serializers.Serializer):
    """A sheet of labels by its measures; what is left out is as on the usual sheet of the workshop's paper."""

    columns = serializers.IntegerField(required=False, min_value=1)
    rows = serializers.IntegerField(required=False, min_value=1)
    width_mm = LengthField(required=False)
    height_mm = LengthField(required=False)
    left_mm = LengthField(required=False, zero_ok=True)
    top_mm = LengthField(required=False, zero_ok=True)
    across_mm = LengthField(required=False, help_text="From the edge of a label to the same edge of the next.")
    down_mm = LengthField(required=False)
    used = serializers.IntegerField(default=0, min_value=0, help_text="Labels that are gone from the first sheet.")

    @property
    def member(self) -> Member:
        return asking_member(self.context["request"])  # a length typed without a unit is in the workshop's


class BoardSizeSerializer(serializers.Serializer):
    tag = serializers.CharField()
    length_mm = serializers.FloatField()
    width_mm = serializers.FloatField()


@extend_schema_field({"type": "object", "additionalProperties": True})
class CutsField(serializers.JSONField):
    """A cut tree per board."""
