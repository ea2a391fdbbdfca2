"""Route of the change feed."""

from drf_spectacular.utils import OpenApiParameter, extend_schema
from rest_framework import serializers
from rest_framework.request import Request
from rest_framework.response import Response
from rest_framework.views import APIView

from shopapi.sync import selectors
from shopapi.workshops.scoping import asking_member

_MOST = 1000


class ChangeSerializer(serializers.Serializer):
    seq = serializers.IntegerField()
    kind = serializers.CharField()
    id = serializers.UUIDField()
    gone = serializers.BooleanField()
    row = serializers.DictField(allow_null=True)


class ChangesSerializer(serializers.Serializer):
    entries = ChangeSerializer(many=True)
    next = serializers.IntegerField(help_text="Send this as `since` next time.")
    more = serializers.BooleanField()


class AskSerializer(serializers.Serializer):
    since = serializers.IntegerField(min_value=0, default=0)
    limit = serializers.IntegerField(min_value=1, max_value=_MOST, default=500)


class ChangesView(APIView):
    """Everything the member may see, in the order in which it last changed."""

    @extend_schema(
        parameters=[OpenApiParameter("since", int), OpenApiParameter("limit", int)],
        responses=ChangesSerializer,
        operation_id="changes_list",
    )
    def get(self, request: Request) -> Response:
        asked = AskSerializer(data=request.query_params)
        asked.is_valid(raise_exception=True)
        changes = selectors.changes_since(
            member=asking_member(request), context={"request": request}, **asked.validated_data
        )
        return Response({"entries": changes.entries, "next": changes.next, "more": changes.more})
