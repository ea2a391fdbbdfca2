"""Ways in: one-time links, passwords, tokens."""

from datetime import timedelta
from typing import Any

import pytest
from django.core.cache import cache
from django.test import Client
from django.utils import timezone
from rest_framework.test import APIClient

from shopapi.workshops import services
from shopapi.workshops.models import SignInLink
from tests.conftest import Person


@pytest.fixture(autouse=True)
def _fresh_throttle() -> None:
    cache.clear()


@pytest.fixture
def phone() -> Client:
    """A browser that has not signed in and whose CSRF checks are on."""
    return Client(enforce_csrf_checks=True)


def test_link_signs_in_once(maker: Person, phone: Client) -> None:
    secret = services.link_create(member=maker.member)
    answer = phone.post("/api/session/link/", {"token": secret}, content_type="application/json")
    assert answer.status_code == 200
    assert answer.json()["member"]["role"] == "owner"
    assert phone.get("/api/session/").json()["workshop"]["name"] == maker.workshop.name
    again = Client().post("/api/session/link/", {"token": secret}, content_type="application/json")
    assert again.status_code == 400
    assert "used before" in again.json()["detail"]


def test_link_runs_out(maker: Person, phone: Client) -> None:
    secret = services.link_create(member=maker.member)
    SignInLink.objects.update(expires_at=timezone.now() - timedelta(seconds=1))
    assert phone.post("/api/session/link/", {"token": secret}, content_type="application/json").status_code == 400


def test_secrets_are_not_kept(maker: Person) -> None:
    secret = services.link_create(member=maker.member)
    token, bearer = services.token_create(member=maker.member, name="scales")
    assert secret not in str(SignInLink.objects.values())
    assert bearer not in str(type(token).objects.values())


def test_password_and_csrf(maker: Person, phone: Client) -> None:
    answer = maker.client.post("/api/session/password/", {"password": "chisel-plane-saw"}, format="json")
    assert answer.status_code == 204
    signed_in = phone.post(
        "/api/session/",
        {"username": maker.member.user.username, "password": "chisel-plane-saw"},
        content_type="application/json",
    )
    assert signed_in.status_code == 200
    body = {"title": "Without the CSRF header"}
    assert phone.post("/api/commissions/", body, content_type="application/json").status_code == 403
    token = phone.cookies["csrftoken"].value
    sent = phone.post("/api/commissions/", body, content_type="application/json", headers={"X-CSRFToken": token})
    assert sent.status_code == 201


def test_wrong_password_is_refused_and_slowed_down(maker: Person, phone: Client) -> None:
    tries = [
        phone.post("/api/session/", {"username": "x", "password": str(i)}, content_type="application/json")
        for i in range(25)
    ]
    assert tries[0].status_code == 400
    assert tries[-1].status_code == 429


def test_weak_password_is_refused(maker: Person) -> None:
    answer = maker.client.post("/api/session/password/", {"password": "short"}, format="json")
    assert answer.status_code == 400
    assert "10 characters" in answer.json()["errors"]["password"][0]


def test_token_acts_as_its_member_only(maker: Person, stranger: Person, board: dict[str, Any]) -> None:
    made = maker.client.post("/api/tokens/", {"name": "scales"}, format="json").json()
    program = APIClient(headers={"authorization": f"Bearer {made['secret']}"})
    assert program.get(f"/api/boards/{board['id']}/").status_code == 200
    foreign = stranger.client.post("/api/tokens/", {"name": "theirs"}, format="json").json()["secret"]
    outsider = APIClient(headers={"authorization": f"Bearer {foreign}"})
    assert outsider.get(f"/api/boards/{board['id']}/").status_code == 404
    assert maker.client.delete(f"/api/tokens/{made['id']}/").status_code == 204
    assert program.get("/api/boards/").status_code == 401


def test_owner_lets_a_helper_in_and_out(maker: Person, phone: Client) -> None:
    made = maker.client.post("/api/members/", {"name": "Jo", "username": "jo", "role": "helper"}, format="json").json()
    link = maker.client.post(f"/api/members/{made['id']}/link/").json()
    assert link["qr_svg"].startswith("<svg")
    secret = link["link"].rpartition("/")[2]
    assert phone.post("/api/session/link/", {"token": secret}, content_type="application/json").status_code == 200
    assert phone.get("/api/boards/").status_code == 200
    maker.client.patch(f"/api/members/{made['id']}/", {"active": False}, format="json")
    assert phone.get("/api/boards/").status_code == 401


def test_owner_cannot_shut_themselves_out(maker: Person) -> None:
    answer = maker.client.patch(f"/api/members/{maker.member.pk}/", {"role": "helper"}, format="json")
    assert answer.status_code == 409


def test_taken_name_is_refused(maker: Person) -> None:
    body = {"name": "Jo", "username": maker.member.user.username.upper(), "role": "helper"}
    answer = maker.client.post("/api/members/", body, format="json")
    assert answer.status_code == 400
    assert "username" in answer.json()["errors"]


def test_settings_are_the_owners_to_change(maker: Person) -> None:
    answer = maker.client.patch("/api/workshop/", {"kerf_mm": '1/8"', "units": "inch"}, format="json")
    assert answer.json()["kerf_mm"] == pytest.approx(3.175)
    assert maker.client.patch("/api/workshop/", {"kerf_mm": -1}, format="json").status_code == 400
    assert maker.client.patch("/api/workshop/", {"kerf_mm": 0}, format="json").json()["kerf_mm"] == 0
