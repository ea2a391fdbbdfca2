"""A write that arrives twice happens once."""

import uuid

from shopapi.boards.models import Board
from shopapi.sync.models import StoredReply
from tests.conftest import BOARD, Person


def test_second_arrival_gets_the_first_answer(maker: Person) -> None:
    body = {"id": str(uuid.uuid4()), "tag": "B7", **BOARD}
    first = maker.client.post("/api/boards/", body, format="json", headers={"Idempotency-Key": "k1"})
    second = maker.client.post("/api/boards/", body, format="json", headers={"Idempotency-Key": "k1"})
    assert (first.status_code, second.status_code) == (201, 201)
    assert first.content == second.content
    assert first["ETag"] == second["ETag"] == '"1"'
    assert second["Idempotent-Replay"] == "true"
    assert Board.objects.count() == 1


def test_same_key_with_another_body_is_refused(maker: Person) -> None:
    headers = {"Idempotency-Key": "k1"}
    maker.client.post("/api/boards/", {"tag": "B7", **BOARD}, format="json", headers=headers)
    other = maker.client.post("/api/boards/", {"tag": "B8", **BOARD}, format="json", headers=headers)
    assert other.status_code == 422
    assert Board.objects.count() == 1


def test_refused_write_keeps_no_reply(maker: Person) -> None:
    headers = {"Idempotency-Key": "k1"}
    assert maker.client.post("/api/boards/", {"tag": "B7"}, format="json", headers=headers).status_code == 400
    assert not StoredReply.objects.exists()
    mended = maker.client.post("/api/boards/", {"tag": "B7", **BOARD}, format="json", headers=headers)
    assert mended.status_code == 201


def test_a_change_is_made_once(maker: Person, board: dict) -> None:
    address, headers = f"/api/boards/{board['id']}/", {"Idempotency-Key": "k2", "If-Match": '"1"'}
    first = maker.client.patch(address, {"place": "loft"}, format="json", headers=headers)
    second = maker.client.patch(address, {"place": "loft"}, format="json", headers=headers)
    assert (first.status_code, second.status_code) == (200, 200)
    assert second.json()["revision"] == 2


def test_keys_belong_to_who_sent_them(maker: Person, stranger: Person) -> None:
    headers = {"Idempotency-Key": "k1"}
    maker.client.post("/api/boards/", {"tag": "B7", **BOARD}, format="json", headers=headers)
    theirs = stranger.client.post("/api/boards/", {"tag": "B9", **BOARD}, format="json", headers=headers)
    assert theirs.status_code == 201
    assert theirs.json()["tag"] == "B9"
