"""Route: cuts that make smaller boards of one."""

from itertools import combinations
from typing import Any

from rest_framework import serializers

from shopapi.boards.models import Board
from shopapi.craft.measures import Unit, format_length
from shopapi.cuts import services
from shopapi.cuts.models import Cut
from shopapi.rest import Refusal
from shopapi.workshops.lengths import LengthField
from shopapi.workshops.routes import OWNED_FIELDS, OWNED_READ_ONLY, WorkshopSerializer, WorkshopViewSet
from shopapi.workshops.scoping import WorkshopOwned

_SLACK_MM = 0.5  # a tape is not read finer


class CutPieceSerializer(serializers.Serializer):
    id = serializers.UUIDField(help_text="Of the board that this piece becomes; made by the client.")
    tag = serializers.CharField(max_length=20)
    x_mm = LengthField(zero_ok=True)
    y_mm = LengthField(zero_ok=True)
    length_mm = LengthField()
    width_mm = LengthField()

    @property
    def member(self) -> Any:
        return getattr(self.root, "member", None)  # a length typed without a unit is in the workshop's


class CutSerializer(WorkshopSerializer):
    pieces = serializers.ListField(child=CutPieceSerializer(), min_length=1, max_length=200)

    class Meta:
        model = Cut
        fields = [*OWNED_FIELDS, "board", "kind", "at_mm", "kerf_mm", "pieces"]
        read_only_fields = OWNED_READ_ONLY

    def validate(self, attrs: dict[str, Any]) -> dict[str, Any]:
        attrs = super().validate(attrs)
        pieces, board = attrs["pieces"], attrs["board"]
        self._check_places(pieces, board)
        if attrs["kind"] != Cut.Kind.LAYOUT:
            self._check_saw(attrs)
        self._check_names(pieces)
        for piece in pieces:
            piece["id"] = str(piece["id"])
        return attrs

    def _check_places(self, pieces: list[dict[str, Any]], board: Board) -> None:
        for piece in pieces:
            ends = piece["x_mm"] + piece["length_mm"], piece["y_mm"] + piece["width_mm"]
            if ends[0] > board.length_mm + _SLACK_MM or ends[1] > board.width_mm + _SLACK_MM:
                size = f"{self._words(board.length_mm)} by {self._words(board.width_mm)}"
                raise serializers.ValidationError(
                    {"pieces": f"{piece['tag']} reaches beyond {board.tag}, which is {size}. Make it smaller."}
                )
        for one, other in combinations(pieces, 2):
            if _overlap(one, other):
                raise serializers.ValidationError(
                    {"pieces": f"{one['tag']} and {other['tag']} lie on the same wood. Move the cut."}
                )

    def _check_saw(self, attrs: dict[str, Any]) -> None:
        at_mm, kerf_mm = attrs.get("at_mm"), attrs.get("kerf_mm", 0)
        if at_mm is None:
            raise serializers.ValidationError({"at_mm": "Say where the saw goes through."})
        low, size = ("x_mm", "length_mm") if attrs["kind"] == Cut.Kind.CROSSCUT else ("y_mm", "width_mm")
        for piece in attrs["pieces"]:
            below = piece[low] + piece[size] <= at_mm + _SLACK_MM
            above = piece[low] >= at_mm + kerf_mm - _SLACK_MM
            if not (below or above):
                raise serializers.ValidationError(
                    {"pieces": f"The saw would go through {piece['tag']}. Pieces end before the cut or begin after it."}
                )

    def _check_names(self, pieces: list[dict[str, Any]]) -> None:
        tags = [piece["tag"] for piece in pieces]
        ids = [piece["id"] for piece in pieces]
        double = sorted({tag for tag in tags if tags.count(tag) > 1})
        rack = Board.objects.for_workshop(self.asker.workshop_id)
        taken = sorted(rack.filter(tag__in=tags).exclude(pk__in=ids).values_list("tag", flat=True))
        if double or taken:
            name = (double or taken)[0]
            whose = "Two of the pieces carry" if double else "Another board in the rack carries"
            raise serializers.ValidationError({"pieces": f"{whose} {name}; chalk a different tag."})
        if len(set(ids)) < len(ids) or Board.objects.filter(pk__in=ids).exists():
            raise Refusal("A board with one of these ids was saved before.", kind="exists")

    def _words(self, mm: float) -> str:
        workshop = self.asker.workshop
        unit: Unit = "inch" if workshop.units == "inch" else "metric"
        return format_length(mm, unit, workshop.inch_denominator)

    def create(self, validated_data: dict[str, Any]) -> Cut:
        try:
            return services.cut_create(**validated_data)
        except services.BoardNotHereError as error:
            raise Refusal(str(error), kind="not-in-rack") from error


def _overlap(one: dict[str, Any], other: dict[str, Any]) -> bool:
    return all(
        min(one[low] + one[size], other[low] + other[size]) - max(one[low], other[low]) > _SLACK_MM
        for low, size in (("x_mm", "length_mm"), ("y_mm", "width_mm"))
    )


class CutViewSet(WorkshopViewSet):
    """Boards cut into smaller ones, which keep their stretch of the picture, their marks and their readings.

    Removing a cut undoes it, as long as nothing was done to the pieces.
    """

    model = Cut
    kind = "cut"
    serializer_class = CutSerializer
    related = ("board",)
    filter_by = ("board",)
    http_method_names = ["get", "post", "delete", "head", "options"]

    def remove(self, row: WorkshopOwned) -> None:
        assert isinstance(row, Cut)  # noqa: S101 - tells the type checker
        try:
            services.cut_undo(cut=row)
        except services.PiecesTouchedError as error:
            raise Refusal(str(error), kind="pieces-touched") from error
