"""Routes: trips to the dealer, boards seen there."""

from typing import Any

from rest_framework import serializers

from shopapi.buying import services
from shopapi.buying.models import BuyingTrip, Offer
from shopapi.workshops.routes import OWNED_FIELDS, OWNED_READ_ONLY, WorkshopSerializer, WorkshopViewSet
from shopapi.workshops.species_field import SpeciesField


class BuyingTripSerializer(WorkshopSerializer):
    class Meta:
        model = BuyingTrip
        fields = [*OWNED_FIELDS, "commission", "dealer", "opened_on", "note", "closed_at"]
        read_only_fields = OWNED_READ_ONLY


class BuyingTripViewSet(WorkshopViewSet):
    """Visits to a dealer to buy wood for a commission."""

    model = BuyingTrip
    kind = "buying_trip"
    serializer_class = BuyingTripSerializer
    filter_by = ("commission",)


class OfferSerializer(WorkshopSerializer):
    owner_fields = ("price",)
    fixed_fields = ("trip",)

    species = SpeciesField()

    class Meta:
        model = Offer
        fields = [
            *OWNED_FIELDS,
            "trip",
            "tag",
            "species",
            "length_mm",
            "width_mm",
            "thickness_mm",
            "thickness_quarters",
            "price",
            "note",
            "bought",
            "board",
        ]
        read_only_fields = OWNED_READ_ONLY

    def create(self, validated_data: dict[str, Any]) -> Offer:
        try:
            return services.offer_create(**validated_data)
        except services.OfferError as error:
            raise serializers.ValidationError({error.field: str(error)}) from error

    def update(self, instance: Offer, validated_data: dict[str, Any]) -> Offer:
        try:
            return services.offer_update(offer=instance, **validated_data)
        except services.OfferError as error:
            raise serializers.ValidationError({error.field: str(error)}) from error


class OfferViewSet(WorkshopViewSet):
    """Boards seen at the dealer's.

    Setting `bought` makes a board of the rack, or takes the one that the client made and names in `board`. Clearing it
    lets go of the board, which stays in the rack until it is removed.
    """

    model = Offer
    kind = "offer"
    serializer_class = OfferSerializer
    related = ("trip", "board")
    filter_by = ("trip",)
