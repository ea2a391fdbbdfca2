"""Who is asking: a browser with a session, or a program with a token. Both end in `request.member`."""

from datetime import timedelta

from django.utils import timezone
from rest_framework import authentication, exceptions
from rest_framework.request import Request

from shopapi.workshops import selectors
from shopapi.workshops.models import ApiToken


class Session(authentication.SessionAuthentication):
    def authenticate_header(self, request: Request) -> str:
        return "Session"  # makes "signed out" a 401 rather than a 403

    def authenticate(self, request: Request):  # type: ignore[no-untyped-def]
        user = getattr(request._request, "user", None)
        if not user or not user.is_active or selectors.member_of(user) is None:
            return None
        self.enforce_csrf(request)
        return user, None

    def enforce_csrf(self, request: Request) -> None:
        try:
            super().enforce_csrf(request)
        except exceptions.PermissionDenied as error:
            raise exceptions.PermissionDenied("This page is out of date. Reload it and try again.") from error


class BearerToken(authentication.BaseAuthentication):
    def authenticate_header(self, request: Request) -> str:
        return "Bearer"

    def authenticate(self, request: Request):  # type: ignore[no-untyped-def]
        kind, _, secret = request.headers.get("Authorization", "").partition(" ")
        if kind.lower() != "bearer":
            return None
        token = selectors.token_for(secret.strip())
        if token is None:
            raise exceptions.AuthenticationFailed("This token is not known here, or was withdrawn.")
        now = timezone.now()
        if token.last_used_at is None or now - token.last_used_at > timedelta(minutes=5):
            ApiToken.objects.filter(pk=token.pk).update(last_used_at=now)
        return token.member.user, token
