"""Reads about members and their ways in."""

import hashlib
from typing import Any

from shopapi.workshops.models import ApiToken, Member, SignInLink


def digest_of(secret: str) -> str:
    # The secrets are 256 random bits, so a plain digest is enough: there is nothing to guess.
    return hashlib.sha256(secret.encode()).hexdigest()


def member_of(user: Any) -> Member | None:
    if not getattr(user, "is_authenticated", False):
        return None
    return Member.objects.select_related("workshop").filter(user=user, active=True).first()


def token_for(secret: str) -> ApiToken | None:
    return (
        ApiToken.objects.select_related("member__workshop", "member__user")
        .filter(digest=digest_of(secret), member__active=True, member__user__is_active=True)
        .first()
    )


def open_link(secret: str) -> SignInLink | None:
    link = SignInLink.objects.select_related("member__user").filter(digest=digest_of(secret)).first()
    return link if link and link.is_open and link.member.active else None


def username_taken(username: str) -> bool:
    return Member.objects.filter(user__username__iexact=username).exists()
