"""Routes: who am I, the workshop's settings, its members, their links and tokens."""

from typing import Any

import segno
from django.contrib.auth import authenticate, login, logout
from django.core.exceptions import ValidationError as ModelValidationError
from django.db import models, transaction
from django.middleware.csrf import get_token
from drf_spectacular.utils import OpenApiResponse, extend_schema
from rest_framework import mixins, permissions, serializers, status, viewsets
from rest_framework.decorators import action
from rest_framework.exceptions import NotAuthenticated
from rest_framework.request import Request
from rest_framework.response import Response
from rest_framework.throttling import ScopedRateThrottle
from rest_framework.views import APIView

from shopapi.rest import Refusal
from shopapi.workshops import selectors, services
from shopapi.workshops.models import ApiToken, Member, Workshop
from shopapi.workshops.routes import WorkshopSerializer
from shopapi.workshops.scoping import asking_member, member_of_request


class WorkshopSettingsSerializer(WorkshopSerializer):
    class Meta:
        model = Workshop
        exclude = ["change_seq"]
        read_only_fields = ["id", "revision", "created_at", "updated_at"]


class MemberSerializer(serializers.ModelSerializer):
    username = serializers.CharField(source="user.username", max_length=150)

    class Meta:
        model = Member
        fields = ["id", "name", "role", "username", "active", "created_at"]
        read_only_fields = ["id", "created_at"]


class WhoSerializer(serializers.Serializer):
    member = MemberSerializer()
    workshop = WorkshopSettingsSerializer()


class CredentialsSerializer(serializers.Serializer):
    username = serializers.CharField()
    password = serializers.CharField(trim_whitespace=False)


class LinkSecretSerializer(serializers.Serializer):
    token = serializers.CharField()


def _who(request: Request, member: Member) -> Response:
    get_token(request._request)  # sets the CSRF cookie
    body = {"member": member, "workshop": member.workshop}
    return Response(WhoSerializer(body, context={"request": request, "member": member}).data)


class NewPasswordSerializer(serializers.Serializer):
    password = serializers.CharField(trim_whitespace=False)


class _SignIn(APIView):
    permission_classes = [permissions.AllowAny]
    throttle_classes = [ScopedRateThrottle]

    def get_throttles(self) -> list[Any]:
        self.throttle_scope = "sign_in" if self.request.method == "POST" else None
        return super().get_throttles()


class SessionView(_SignIn):
    """Who is signed in; sign in with name and password; sign out."""

    @extend_schema(responses=WhoSerializer, operation_id="session_read")
    def get(self, request: Request) -> Response:
        member = member_of_request(request)
        if member is None:
            get_token(request._request)
            raise NotAuthenticated("Sign in first.")
        return _who(request, member)

    @extend_schema(request=CredentialsSerializer, responses=WhoSerializer, operation_id="session_open")
    def post(self, request: Request) -> Response:
        given = CredentialsSerializer(data=request.data)
        given.is_valid(raise_exception=True)
        user = authenticate(request._request, **given.validated_data)
        member = selectors.member_of(user)
        if member is None:
            raise Refusal("Name and password do not belong together.", status_code=400, kind="not-signed-in")
        login(request._request, user)
        return _who(request, member)

    @extend_schema(request=None, responses={204: None}, operation_id="session_close")
    def delete(self, request: Request) -> Response:
        logout(request._request)
        return Response(status=status.HTTP_204_NO_CONTENT)


class SessionLinkView(_SignIn):
    """Sign in with a one-time link."""

    @extend_schema(request=LinkSecretSerializer, responses=WhoSerializer, operation_id="session_open_by_link")
    def post(self, request: Request) -> Response:
        given = LinkSecretSerializer(data=request.data)
        given.is_valid(raise_exception=True)
        link = selectors.open_link(given.validated_data["token"])
        if link is None or not services.link_use(link=link):
            raise Refusal(
                "This link was used before or has run out. Ask for a new one in Shop, or start the service again.",
                status_code=400,
                kind="link-spent",
            )
        login(request._request, link.member.user, backend="django.contrib.auth.backends.ModelBackend")
        return _who(request, selectors.member_of(link.member.user) or link.member)


class PasswordView(APIView):
    """Sets one's own password, so that name and password work beside links."""

    @extend_schema(
        request=NewPasswordSerializer,
        responses={204: None},
        operation_id="session_password",
    )
    def post(self, request: Request) -> Response:
        member = asking_member(request)
        given = NewPasswordSerializer(data=request.data)
        given.is_valid(raise_exception=True)
        try:
            services.member_set_password(member=member, password=given.validated_data["password"])
        except ModelValidationError as error:
            raise serializers.ValidationError({"password": error.messages}) from error
        if request.auth is None:  # a changed password ends sessions; this one goes on
            login(request._request, member.user, backend="django.contrib.auth.backends.ModelBackend")
        return Response(status=status.HTTP_204_NO_CONTENT)


class WorkshopView(APIView):
    """The workshop's own settings."""

    owner_writes = True

    @extend_schema(responses=WorkshopSettingsSerializer)
    def get(self, request: Request) -> Response:
        workshop = asking_member(request).workshop
        return Response(
            WorkshopSettingsSerializer(workshop, context={"request": request}).data,
            headers={"ETag": f'"{workshop.revision}"'},
        )

    @extend_schema(request=WorkshopSettingsSerializer(partial=True), responses=WorkshopSettingsSerializer)
    def patch(self, request: Request) -> Response:
        with transaction.atomic():
            member = asking_member(request)
            workshop = Workshop.objects.select_for_update().get(pk=member.workshop_id)
            serializer = WorkshopSettingsSerializer(
                workshop, data=request.data, partial=True, context={"request": request}
            )
            given = request.headers.get("If-Match", "").strip('"')
            if given and given not in {"*", str(workshop.revision)}:
                raise Refusal(
                    "Somebody changed the settings meanwhile.",
                    status_code=412,
                    kind="changed-meanwhile",
                    current=serializer.data,
                )
            serializer.is_valid(raise_exception=True)
            serializer.save(revision=workshop.revision + 1)
        return Response(serializer.data, headers={"ETag": f'"{workshop.revision}"'})


class LinkSerializer(serializers.Serializer):
    link = serializers.CharField(help_text="Opens the app and signs the member in, once, within the hour.")
    qr_svg = serializers.CharField(help_text="The same as a QR code, an SVG picture.")


class MemberViewSet(
    mixins.ListModelMixin,
    mixins.CreateModelMixin,
    mixins.RetrieveModelMixin,
    mixins.UpdateModelMixin,
    viewsets.GenericViewSet,
):
    """The people of the workshop; the owner adds helpers and lets them in."""

    serializer_class = MemberSerializer
    queryset = Member.objects.none()
    owner_only = True
    http_method_names = ["get", "post", "patch", "head", "options"]

    def get_queryset(self) -> models.QuerySet[Member]:
        if getattr(self, "swagger_fake_view", False):
            return Member.objects.none()
        workshop = asking_member(self.request).workshop
        return workshop.members.select_related("user").order_by("created_at")

    def perform_create(self, serializer: serializers.BaseSerializer) -> None:
        given = serializer.validated_data
        username = given["user"]["username"]
        if selectors.username_taken(username):
            raise serializers.ValidationError({"username": ["Somebody signs in by this name already; take another."]})
        serializer.instance = services.member_create(
            workshop=asking_member(self.request).workshop,
            name=given["name"],
            username=username,
            role=given.get("role", Member.Role.HELPER),
        )

    def perform_update(self, serializer: serializers.BaseSerializer) -> None:
        given = serializer.validated_data
        member = self.get_object()
        me = asking_member(self.request)
        if member.pk == me.pk and (given.get("active") is False or given.get("role") == Member.Role.HELPER):
            raise Refusal("You cannot shut yourself out of your own workshop.")
        given.pop("user", None)  # a sign-in name stays
        serializer.save()

    @extend_schema(request=None, responses=LinkSerializer)
    @action(detail=True, methods=["post"])
    def link(self, request: Request, pk: str | None = None) -> Response:
        secret = services.link_create(member=self.get_object())
        url = request.build_absolute_uri(f"/#/enter/{secret}")
        picture = segno.make(url, micro=False).svg_inline(scale=6, border=3, dark="#1f1d1a", light="#fff")
        return Response({"link": url, "qr_svg": picture})


class TokenSerializer(serializers.ModelSerializer):
    secret = serializers.CharField(read_only=True, help_text="Shown once, when the token is made.")

    class Meta:
        model = ApiToken
        fields = ["id", "name", "created_at", "last_used_at", "secret"]
        read_only_fields = ["id", "created_at", "last_used_at"]


class TokenViewSet(mixins.ListModelMixin, mixins.CreateModelMixin, mixins.DestroyModelMixin, viewsets.GenericViewSet):
    """Tokens by which other programs act as this member."""

    serializer_class = TokenSerializer
    queryset = ApiToken.objects.none()

    def get_queryset(self) -> models.QuerySet[ApiToken]:
        if getattr(self, "swagger_fake_view", False):
            return ApiToken.objects.none()
        return asking_member(self.request).tokens.order_by("created_at")

    @extend_schema(responses={201: OpenApiResponse(TokenSerializer)})
    def create(self, request: Request, *args: Any, **kwargs: Any) -> Response:
        serializer = self.get_serializer(data=request.data)
        serializer.is_valid(raise_exception=True)
        token, secret = services.token_create(member=asking_member(request), name=serializer.validated_data["name"])
        return Response({**self.get_serializer(token).data, "secret": secret}, status=status.HTTP_201_CREATED)
