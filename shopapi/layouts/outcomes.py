"""Routes: what really came out of boards, and the waste that was learned from it."""

from typing import Any
from zoneinfo import ZoneInfo

from django.utils import timezone
from drf_spectacular.utils import extend_schema
from rest_framework import serializers
from rest_framework.request import Request
from rest_framework.response import Response
from rest_framework.views import APIView

from shopapi.layouts import waste
from shopapi.layouts.models import Layout, Outcome
from shopapi.workshops.routes import OWNED_FIELDS, OWNED_READ_ONLY, WorkshopSerializer, WorkshopViewSet
from shopapi.workshops.scoping import asking_member


class OutcomeSerializer(WorkshopSerializer):
    """Left out: species as the board's, areas as the layout has them (else the whole board), the day as today."""

    fixed_fields = ("board", "layout")

    board_mm2 = serializers.FloatField(required=False, min_value=1, max_value=1e9)
    got_mm2 = serializers.FloatField(required=False, min_value=0, max_value=1e9)
    made_on = serializers.DateField(required=False)

    class Meta:
        model = Outcome
        fields = [*OWNED_FIELDS, "board", "layout", "species", "grade", "board_mm2", "got_mm2", "made_on", "note"]
        read_only_fields = OWNED_READ_ONLY

    def validate(self, attrs: dict[str, Any]) -> dict[str, Any]:
        attrs = super().validate(attrs)
        if self.instance is None:
            if not {"board_mm2", "got_mm2"} <= set(attrs):
                attrs = {**self._as_laid_out(attrs), **attrs}
            attrs["species"] = attrs.get("species") or attrs["board"].species
            zone = ZoneInfo(self.asker.workshop.time_zone)
            attrs.setdefault("made_on", timezone.localdate(timezone=zone))
        held = self.instance or Outcome()
        board_mm2, got_mm2 = attrs.get("board_mm2", held.board_mm2), attrs.get("got_mm2", held.got_mm2)
        if got_mm2 is None:
            raise serializers.ValidationError({"got_mm2": "Say how much came out, or which layout was cut."})
        if got_mm2 > board_mm2:
            raise serializers.ValidationError({"got_mm2": "More came out than there was wood. Check both areas."})
        return attrs

    def _as_laid_out(self, attrs: dict[str, Any]) -> dict[str, float]:
        board, layout = attrs["board"], attrs.get("layout")
        whole = {"board_mm2": board.length_mm * board.width_mm}
        if layout is None:
            return whole
        key = str(board.pk)
        pieces = [row for row in layout.placements if row["board"] == key]
        if layout.state != Layout.State.DONE or not pieces:
            raise serializers.ValidationError({"layout": f"That layout cuts nothing from {board.tag}."})
        size = layout.asked["boards"][key]
        kept = [row for row in (layout.figures or {}).get("leftovers", []) if row["board"] == key]
        return {
            "board_mm2": size["length_mm"] * size["width_mm"] - sum(row["length_mm"] * row["width_mm"] for row in kept),
            "got_mm2": sum(row["length_mm"] * row["width_mm"] for row in pieces),
        }


class OutcomeViewSet(WorkshopViewSet):
    """What came out of boards: good rough pieces against the wood that was cut up for them."""

    model = Outcome
    kind = "outcome"
    serializer_class = OutcomeSerializer
    related = ("board", "layout")
    filter_by = ("board", "layout")


class WasteSerializer(serializers.Serializer):
    species = serializers.CharField()
    grade = serializers.CharField()
    waste_pct = serializers.FloatField()
    count = serializers.IntegerField(help_text="Boards that the average is of.")
    words = serializers.CharField()


class WasteView(APIView):
    """The share of boards that becomes waste, by species and grade: a plain average of what was noted."""

    @extend_schema(responses=WasteSerializer(many=True), operation_id="waste_list")
    def get(self, request: Request) -> Response:
        rows = waste.learned(asking_member(request).workshop)
        return Response(WasteSerializer(rows, many=True).data)
