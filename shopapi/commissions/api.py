"""Routes: clients, commissions, parts."""

from typing import Any

from drf_spectacular.utils import extend_schema
from rest_framework import serializers
from rest_framework.request import Request
from rest_framework.response import Response
from rest_framework.views import APIView

from shopapi.commissions.models import Client, Commission, Part
from shopapi.craft.species import all_species
from shopapi.workshops.routes import OWNED_FIELDS, OWNED_READ_ONLY, WorkshopSerializer, WorkshopViewSet
from shopapi.workshops.species_field import SpeciesField


class ClientSerializer(WorkshopSerializer):
    class Meta:
        model = Client
        fields = [*OWNED_FIELDS, "name", "email", "phone", "address", "notes"]
        read_only_fields = OWNED_READ_ONLY


class ClientViewSet(WorkshopViewSet):
    """People who order: name and how to reach them. The owner's alone."""

    model = Client
    kind = "client"
    serializer_class = ClientSerializer
    owner_only = True


class CommissionSerializer(WorkshopSerializer):
    owner_fields = ("client", "price", "notes")

    client_name = serializers.CharField(source="client.name", read_only=True, default="")

    class Meta:
        model = Commission
        fields = [
            *OWNED_FIELDS,
            "title",
            "piece",
            "client",
            "client_name",
            "home_place",
            "home_rh_dry_pct",
            "home_rh_damp_pct",
            "home_temp_c",
            "wanted_on",
            "stage",
            "notes",
            "price",
        ]
        read_only_fields = OWNED_READ_ONLY

    def validate(self, attrs: dict) -> dict:
        attrs = super().validate(attrs)
        held = self.instance or Commission()
        dry = attrs.get("home_rh_dry_pct", held.home_rh_dry_pct)
        damp = attrs.get("home_rh_damp_pct", held.home_rh_damp_pct)
        if dry > damp:
            raise serializers.ValidationError(
                {"home_rh_dry_pct": f"The dry season ({dry:g} %) cannot be damper than the damp one ({damp:g} %)."}
            )
        return attrs


class CommissionViewSet(WorkshopViewSet):
    """Pieces made to order, from enquiry to use."""

    model = Commission
    kind = "commission"
    serializer_class = CommissionSerializer
    related = ("client",)


BLANK_FIELDS = ("length_mm", "width_mm", "strip_count", "blank_holds", "blank_length_mm", "blank_width_mm")


def _wrong_blank(part: dict[str, Any]) -> dict[str, str]:
    """What is wrong with the blank that pieces are sawn out of, by field; empty where all is well."""
    sizes = {"blank_length_mm": "long", "blank_width_mm": "wide"}
    missing = [name for name in sizes if part[name] is None]
    if len(missing) == len(sizes) and part["blank_holds"] == 1:
        return {}
    if part["strip_count"] != 1:
        return {
            "blank_holds": "A panel is glued from strips, so it has no blank. Set strips to 1, or take the blank away."
        }
    if missing:
        return {name: f"Write how {sizes[name]} the blank is that the pieces are sawn out of." for name in missing}
    return {
        name: f"The blank is less {word} than one piece. Write the size of the whole blank, at least that of one piece."
        for name, word in sizes.items()
        if part[name] < part[name.removeprefix("blank_")]
    }


class PartSerializer(WorkshopSerializer):
    fixed_fields = ("commission",)

    species = SpeciesField()

    class Meta:
        model = Part
        fields = [
            *OWNED_FIELDS,
            "commission",
            "name",
            "quantity",
            "length_mm",
            "width_mm",
            "thickness_mm",
            "species",
            "grain",
            "show_faces",
            "strip_count",
            "strip_least_mm",
            "strip_most_mm",
            "blank_holds",
            "blank_length_mm",
            "blank_width_mm",
            "together",
            "wish",
            "cut_count",
            "note",
            "position",
        ]
        read_only_fields = (*OWNED_READ_ONLY, "cut_count")

    def validate(self, attrs: dict) -> dict:
        attrs = super().validate(attrs)
        held = self.instance or Part()
        if attrs.get("strip_least_mm", held.strip_least_mm) > attrs.get("strip_most_mm", held.strip_most_mm):
            raise serializers.ValidationError(
                {"strip_most_mm": "The widest strip cannot be narrower than the narrowest."}
            )
        if wrong := _wrong_blank({name: attrs.get(name, getattr(held, name)) for name in BLANK_FIELDS}):
            raise serializers.ValidationError(wrong)
        return attrs


class PartViewSet(WorkshopViewSet):
    """Finished components and panels of a commission."""

    model = Part
    kind = "part"
    serializer_class = PartSerializer
    filter_by = ("commission",)


class SpeciesRowSerializer(serializers.Serializer):
    name = serializers.CharField()
    aliases = serializers.ListField(child=serializers.CharField())
    group = serializers.CharField()


class SpeciesView(APIView):
    """Every wood the tables know, for pickers."""

    @extend_schema(responses=SpeciesRowSerializer(many=True), operation_id="species_list")
    def get(self, request: Request) -> Response:
        return Response(SpeciesRowSerializer(all_species(), many=True).data)
