"""Route: the sheet of scale cards."""

from io import BytesIO
from typing import cast

from django.http import HttpResponse
from drf_spectacular.types import OpenApiTypes
from drf_spectacular.utils import extend_schema
from rest_framework import serializers
from rest_framework.request import Request
from rest_framework.views import APIView

from shopapi.craft.packet import Paper
from shopapi.printing.documents.scale_card import build_scale_cards
from shopapi.workshops.models import Workshop
from shopapi.workshops.scoping import asking_member


class ScaleCardAskSerializer(serializers.Serializer):
    paper = serializers.ChoiceField(
        Workshop.Paper.choices, required=False, help_text="The workshop's own where it is missing."
    )


class ScaleCardView(APIView):
    """Two scale cards to print: laid on a board they give its size and its corners from a photograph."""

    @extend_schema(
        parameters=[ScaleCardAskSerializer],
        responses={(200, "application/pdf"): OpenApiTypes.BINARY},
        operation_id="scale_card_retrieve",
    )
    def get(self, request: Request) -> HttpResponse:
        asked = ScaleCardAskSerializer(data=request.query_params)
        asked.is_valid(raise_exception=True)
        paper = asked.validated_data.get("paper") or asking_member(request).workshop.paper
        out = BytesIO()
        build_scale_cards(out, cast(Paper, paper))
        response = HttpResponse(out.getvalue(), content_type="application/pdf")
        response["Content-Disposition"] = 'inline; filename="scale-cards.pdf"'
        return response
