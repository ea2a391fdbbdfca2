"""Route: whether a board is dry enough for a commission."""

from uuid import UUID

from django.shortcuts import get_object_or_404
from drf_spectacular.types import OpenApiTypes
from drf_spectacular.utils import OpenApiParameter, extend_schema
from rest_framework import serializers
from rest_framework.request import Request
from rest_framework.response import Response
from rest_framework.views import APIView

from shopapi.boards.models import Board
from shopapi.commissions.models import Commission
from shopapi.dryness import selectors
from shopapi.workshops.scoping import asking_member


class DrynessSerializer(serializers.Serializer):
    mc_pct = serializers.FloatField(allow_null=True, help_text="As the meter showed it; null without a reading.")
    wood_mc_pct = serializers.FloatField(allow_null=True, help_text="Corrected for the wood's temperature.")
    reading = serializers.UUIDField(allow_null=True, help_text="The reading that counts: the newest.")
    target_low_pct = serializers.FloatField(help_text="What the home's driest air holds wood at.")
    target_high_pct = serializers.FloatField(help_text="What its dampest air holds wood at.")
    shop_pct = serializers.FloatField(
        allow_null=True, help_text="What the shop's air holds wood at, by the bench log; null where none was noted."
    )
    ready = serializers.BooleanField()
    days = serializers.FloatField(
        allow_null=True, help_text="How long yet; 0: measure again; null: it will not get there, or nobody can say."
    )
    words = serializers.CharField()
    cautions = serializers.ListField(child=serializers.CharField())


class _AskedSerializer(serializers.Serializer):
    commission = serializers.UUIDField(
        error_messages={"required": "Say which commission the wood is for.", "invalid": "This is no commission's id."}
    )


class DrynessView(APIView):
    """Ready for the client's home, or how many days yet in the shop's air."""

    @extend_schema(
        parameters=[OpenApiParameter("commission", OpenApiTypes.UUID, required=True)],
        responses=DrynessSerializer,
        operation_id="boards_dryness",
    )
    def get(self, request: Request, pk: UUID) -> Response:
        workshop = asking_member(request).workshop
        board = get_object_or_404(Board.objects.for_workshop(workshop), pk=pk)
        asked = _AskedSerializer(data=request.query_params)
        asked.is_valid(raise_exception=True)
        rows = Commission.objects.for_workshop(workshop)
        answer, reading = selectors.dryness_of(board, get_object_or_404(rows, pk=asked.validated_data["commission"]))
        body = {
            **vars(answer),
            "mc_pct": reading.mc_pct if reading else None,
            "wood_mc_pct": answer.mc_pct,
            "reading": reading.pk if reading else None,
        }
        return Response(DrynessSerializer(body).data)
