"""Writes about workshops, members, links and tokens."""

import secrets
from datetime import timedelta
from typing import Any

from django.contrib.auth import get_user_model
from django.db import transaction
from django.utils import timezone

from shopapi.workshops.models import ApiToken, Member, SignInLink, Workshop
from shopapi.workshops.selectors import digest_of

LINK_LIFETIME = timedelta(hours=1)


@transaction.atomic
def workshop_create(*, name: str, owner_name: str, username: str, **settings: Any) -> Member:
    """A new workshop with its owner, who signs in by link until a password is set."""
    workshop = Workshop(name=name, maker_name=settings.pop("maker_name", owner_name), **settings)
    workshop.full_clean()
    workshop.save()
    return member_create(workshop=workshop, name=owner_name, username=username, role=Member.Role.OWNER)


@transaction.atomic
def member_create(*, workshop: Workshop, name: str, username: str, role: str = Member.Role.HELPER) -> Member:
    user = get_user_model().objects.create_user(username=username)
    user.set_unusable_password()
    user.save()
    member = Member(user=user, workshop=workshop, name=name, role=role)
    member.full_clean()
    member.save()
    return member


@transaction.atomic
def member_set_password(*, member: Member, password: str) -> None:
    from django.contrib.auth.password_validation import validate_password

    validate_password(password, member.user)
    member.user.set_password(password)
    member.user.save(update_fields=["password"])


@transaction.atomic
def link_create(*, member: Member, lifetime: timedelta = LINK_LIFETIME) -> str:
    """The secret of a new one-time link; links of this member that were never used and have run out are swept away."""
    member.links.filter(expires_at__lt=timezone.now()).delete()
    secret = secrets.token_urlsafe(24)
    SignInLink.objects.create(member=member, digest=digest_of(secret), expires_at=timezone.now() + lifetime)
    return secret


@transaction.atomic
def link_use(*, link: SignInLink) -> bool:
    """True for the first who uses it."""
    return bool(SignInLink.objects.filter(pk=link.pk, used_at=None).update(used_at=timezone.now()))


@transaction.atomic
def token_create(*, member: Member, name: str) -> tuple[ApiToken, str]:
    secret = secrets.token_urlsafe(32)
    return ApiToken.objects.create(member=member, name=name, digest=digest_of(secret)), secret
