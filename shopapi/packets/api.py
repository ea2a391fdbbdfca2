"""Route: packets."""

from typing import Any

from django.http import FileResponse
from drf_spectacular.types import OpenApiTypes
from drf_spectacular.utils import extend_schema
from rest_framework.decorators import action
from rest_framework.request import Request

from shopapi.packets import services
from shopapi.packets.models import Packet
from shopapi.rest import Refusal
from shopapi.workshops.routes import OWNED_FIELDS, OWNED_READ_ONLY, WorkshopSerializer, WorkshopViewSet


class PacketSerializer(WorkshopSerializer):
    fixed_fields = ("commission", "paper")

    class Meta:
        model = Packet
        fields = [*OWNED_FIELDS, "commission", "paper", "state", "problem", "made_at"]
        read_only_fields = (*OWNED_READ_ONLY, "state", "problem", "made_at")

    def create(self, validated_data: dict[str, Any]) -> Packet:
        return services.packet_create(**validated_data)


class PacketViewSet(WorkshopViewSet):
    """Papers for a client, frozen when they are made. They carry the client's name, so they are the owner's."""

    model = Packet
    kind = "packet"
    serializer_class = PacketSerializer
    owner_only = True
    filter_by = ("commission",)

    @extend_schema(responses={(200, "application/pdf"): OpenApiTypes.BINARY})
    @action(detail=True, methods=["get"])
    def file(self, request: Request, pk: str | None = None) -> FileResponse:
        """The packet as a PDF."""
        packet = self.get_object()
        if not packet.document:
            raise Refusal("The packet is not printed yet.")
        return FileResponse(packet.document.open("rb"), content_type="application/pdf", filename="packet.pdf")
