"""Many requests at the same moment against the real server: exactly once, in order, nothing lost."""

import json
import urllib.error
import urllib.request
import uuid
from concurrent.futures import ThreadPoolExecutor
from typing import Any

import pytest

from tests.conftest import BOARD
from tests.e2e.conftest import Shop

_TOKEN = (
    "from shopapi.workshops.models import Member; from shopapi.workshops.services import token_create; "
    "print(token_create(member=Member.objects.get(), name='test')[1])"
)


@pytest.fixture(scope="module")
def send(shop: Shop) -> Any:
    token = shop.manage("shell", "-v0", "-c", _TOKEN).strip()

    def call(method: str, path: str, body: dict[str, Any] | None = None, **headers: str) -> tuple[int, dict[str, Any]]:
        request = urllib.request.Request(  # noqa: S310 - our own server
            f"{shop.url}api/{path}",
            data=None if body is None else json.dumps(body).encode(),
            method=method,
            headers={"Authorization": f"Bearer {token}", "Content-Type": "application/json", **headers},
        )
        try:
            with urllib.request.urlopen(request, timeout=30) as answer:  # noqa: S310
                return answer.status, json.loads(answer.read())
        except urllib.error.HTTPError as error:
            return error.code, json.loads(error.read())

    return call


def test_the_same_write_eight_times_at_once(send: Any) -> None:
    body = {"id": str(uuid.uuid4()), "tag": "ONCE", **BOARD}
    with ThreadPoolExecutor(8) as pool:
        answers = list(pool.map(lambda _: send("POST", "boards/", body, **{"Idempotency-Key": "once"}), range(8)))
    assert {status for status, _ in answers} == {201}
    assert len({json.dumps(row) for _, row in answers}) == 1
    assert sum(row["tag"] == "ONCE" for row in send("GET", "boards/")[1]["results"]) == 1


def test_only_one_of_many_editors_wins(send: Any) -> None:
    _, board = send("POST", "boards/", {"tag": "EDIT", **BOARD})
    with ThreadPoolExecutor(8) as pool:
        answers = list(
            pool.map(
                lambda n: send("PATCH", f"boards/{board['id']}/", {"place": f"p{n}"}, **{"If-Match": '"1"'}), range(8)
            )
        )
    assert sorted(status for status, _ in answers) == [200, *[412] * 7]


def test_feed_numbers_stay_in_order_under_load(send: Any) -> None:
    before = send("GET", "changes/")[1]["next"]
    with ThreadPoolExecutor(8) as pool:
        made = list(pool.map(lambda n: send("POST", "boards/", {"tag": f"L{n}", **BOARD}), range(24)))
    assert {status for status, _ in made} == {201}
    entries = send("GET", f"changes/?since={before}")[1]["entries"]
    assert len({entry["seq"] for entry in entries}) == 24
    assert {entry["id"] for entry in entries} == {row["id"] for _, row in made}
