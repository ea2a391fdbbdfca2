"""Routes: boards and their moisture readings."""

from typing import Any

from rest_framework import serializers

from shopapi.boards import services
from shopapi.boards.models import Board, Reading
from shopapi.workshops.routes import OWNED_FIELDS, OWNED_READ_ONLY, WorkshopSerializer, WorkshopViewSet
from shopapi.workshops.species_field import SpeciesField


class BoardSerializer(WorkshopSerializer):
    owner_fields = ("price",)

    species = SpeciesField()

    class Meta:
        model = Board
        fields = [
            *OWNED_FIELDS,
            "tag",
            "species",
            "length_mm",
            "width_mm",
            "thickness_mm",
            "thickness_quarters",
            "price",
            "source",
            "place",
            "flitch",
            "notes",
            "status",
            "parent",
            "origin_x_mm",
            "origin_y_mm",
        ]
        read_only_fields = (*OWNED_READ_ONLY, "parent", "origin_x_mm", "origin_y_mm")

    def validate(self, attrs: dict[str, Any]) -> dict[str, Any]:
        attrs = super().validate(attrs)
        tag = attrs.get("tag")
        if tag and self.member:
            others = Board.objects.for_workshop(self.member.workshop_id).filter(tag=tag)
            if self.instance is not None:
                others = others.exclude(pk=self.instance.pk)
            if others.exists():
                raise serializers.ValidationError(
                    {"tag": f"Another board in the rack carries {tag}; chalk a different tag."}
                )
        return attrs

    def update(self, instance: Board, validated_data: dict[str, Any]) -> Board:
        return services.board_update(board=instance, **validated_data)


class BoardViewSet(WorkshopViewSet):
    """Boards: tag, species, tape sizes, thickness, where they lie."""

    model = Board
    kind = "board"
    serializer_class = BoardSerializer


class ReadingSerializer(WorkshopSerializer):
    fixed_fields = ("board",)

    class Meta:
        model = Reading
        fields = [*OWNED_FIELDS, "board", "mc_pct", "read_on", "meter", "place", "temp_c", "note"]
        read_only_fields = OWNED_READ_ONLY


class ReadingViewSet(WorkshopViewSet):
    """Moisture readings of boards."""

    model = Reading
    kind = "reading"
    serializer_class = ReadingSerializer
    filter_by = ("board",)
