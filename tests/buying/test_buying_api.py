"""Buying wood through the API: boards seen, what was bought stands in the rack, who sees the price."""

import uuid
from typing import Any

import pytest

from tests.conftest import BOARD, Person

SEEN = {"tag": "D-1", "price": "62.50", "thickness_quarters": 4, "note": "wild grain", **BOARD}


@pytest.fixture
def trip(maker: Person, commission: dict[str, Any]) -> dict[str, Any]:
    return maker.make("buying-trips", commission=commission["id"], dealer="The yard", opened_on="2026-03-02")


@pytest.fixture
def offer(maker: Person, trip: dict[str, Any]) -> dict[str, Any]:
    return maker.make("offers", trip=trip["id"], **SEEN)


def _change(person: Person, offer: dict[str, Any], expect: int = 200, **fields: Any) -> dict[str, Any]:
    answer = person.client.patch(f"/api/offers/{offer['id']}/", fields, format="json", headers={"If-Match": "*"})
    assert answer.status_code == expect, answer.content
    return answer.json()


def _rack(person: Person) -> list[dict[str, Any]]:
    return person.client.get("/api/boards/").json()["results"]


def test_a_trip_lists_the_boards_seen(maker: Person, trip: dict, offer: dict, commission: dict) -> None:
    assert (trip["dealer"], trip["closed_at"], offer["bought"], offer["board"]) == ("The yard", None, False, None)
    other = maker.make("buying-trips", commission=commission["id"], opened_on="2026-03-03")
    maker.make("offers", trip=other["id"], **{**SEEN, "tag": ""})
    listed = maker.client.get(f"/api/offers/?trip={trip['id']}").json()["results"]
    assert [row["id"] for row in listed] == [offer["id"]]
    assert len(maker.client.get(f"/api/buying-trips/?commission={commission['id']}").json()["results"]) == 2
    assert _rack(maker) == []


def test_what_was_bought_is_a_board_of_the_rack(maker: Person, offer: dict) -> None:
    bought = _change(maker, offer, bought=True)
    (board,) = _rack(maker)
    assert bought["board"] == board["id"]
    for name, value in SEEN.items():
        if name != "note":
            assert board[name] == value, name
    assert (board["source"], board["notes"], board["status"]) == ("The yard", "wild grain", "in_rack")
    _change(maker, offer, bought=True, note="still wild")  # the same board, not another
    assert len(_rack(maker)) == 1
    kinds = [entry["kind"] for entry in maker.client.get("/api/changes/").json()["entries"]]
    assert {"buying_trip", "offer", "board"} <= set(kinds)


def test_the_phones_own_board_is_taken(maker: Person, offer: dict) -> None:
    """With no signal the phone makes the board itself, then says which it is."""
    board = maker.make("boards", tag="D-1", **BOARD)
    assert _change(maker, offer, bought=True, board=board["id"])["board"] == board["id"]
    assert len(_rack(maker)) == 1


def test_what_was_not_bought_after_all_lets_go_of_the_board(maker: Person, offer: dict) -> None:
    bought = _change(maker, offer, bought=True)
    back = _change(maker, offer, bought=False)
    assert (back["bought"], back["board"]) == (False, None)
    assert [board["id"] for board in _rack(maker)] == [bought["board"]]
    maker.client.delete(f"/api/boards/{bought['board']}/", headers={"If-Match": "*"})
    assert _change(maker, offer, bought=True)["board"] != bought["board"]


def test_bought_boards_stay_when_the_trip_goes(maker: Person, trip: dict, offer: dict) -> None:
    _change(maker, offer, bought=True)
    assert maker.client.delete(f"/api/buying-trips/{trip['id']}/", headers={"If-Match": "*"}).status_code == 204
    assert maker.client.get("/api/offers/").json()["results"] == []
    assert len(_rack(maker)) == 1


@pytest.mark.parametrize(
    ("fields", "field", "words"),
    [
        ({"species": "ironwod"}, "species", ""),
        ({"length_mm": 0}, "length_mm", "more than nothing"),
        ({"width_mm": "wide"}, "width_mm", "not a length"),
        ({"thickness_quarters": 1}, "thickness_quarters", ""),
        ({"price": "-3"}, "price", ""),
        ({"price": "cheap"}, "price", ""),
        ({"tag": "", "bought": True}, "tag", "tag first"),
        ({"trip": str(uuid.uuid4())}, "trip", "removed meanwhile"),
    ],
)
def test_bad_offers_are_refused_in_words(
    fields: dict[str, Any], field: str, words: str, maker: Person, trip: dict
) -> None:
    answer = maker.client.post("/api/offers/", {"trip": trip["id"], **SEEN, **fields}, format="json")
    assert answer.status_code == 400, answer.content
    assert field in answer.json()["errors"]
    assert words in answer.json()["detail"]
    assert _rack(maker) == []


def test_a_tag_of_the_rack_is_not_chalked_twice(maker: Person, offer: dict) -> None:
    maker.make("boards", tag="D-1", **BOARD)
    refused = _change(maker, offer, expect=400, bought=True)
    assert "chalk a different tag" in refused["errors"]["tag"][0]
    assert len(_rack(maker)) == 1
    assert _change(maker, offer, bought=True, tag="D-2")["bought"]


def test_one_board_is_bought_once(maker: Person, trip: dict, offer: dict) -> None:
    board = _change(maker, offer, bought=True)["board"]
    other = maker.make("offers", trip=trip["id"], **{**SEEN, "tag": "D-2"})
    assert "another board of the list" in _change(maker, other, expect=400, bought=True, board=board)["detail"]
    assert "say that it was bought" in _change(maker, other, expect=400, board=board)["detail"]


def test_an_apprentice_buys_without_seeing_money(maker: Person, apprentice: Person, offer: dict) -> None:
    """Their phone makes the board without a price; the shop knows what it cost."""
    assert "price" not in apprentice.client.get(f"/api/offers/{offer['id']}/").json()
    board = apprentice.make("boards", tag="D-1", **BOARD)
    bought = _change(apprentice, offer, bought=True, board=board["id"], price="1.00")
    assert "price" not in bought
    assert maker.client.get(f"/api/offers/{offer['id']}/").json()["price"] == "62.50"
    assert maker.client.get(f"/api/boards/{board['id']}/").json()["price"] == "62.50"
    assert "62.50" not in apprentice.client.get("/api/changes/").content.decode()


def test_a_stranger_finds_nothing_and_hangs_nothing_on_it(
    maker: Person, stranger: Person, trip: dict, offer: dict
) -> None:
    for path in (f"buying-trips/{trip['id']}", f"offers/{offer['id']}"):
        assert stranger.client.get(f"/api/{path}/").status_code == 404
    answer = stranger.client.post("/api/offers/", {"trip": trip["id"], **SEEN}, format="json")
    assert answer.status_code == 400
    theirs = stranger.make("boards", tag="S-1", **BOARD)
    assert "board" in _change(maker, offer, expect=400, bought=True, board=theirs["id"])["errors"]


def test_an_offer_changed_meanwhile_is_shown_before_it_is_overwritten(maker: Person, offer: dict) -> None:
    _change(maker, offer, note="sold")
    answer = maker.client.patch(
        f"/api/offers/{offer['id']}/", {"bought": True}, format="json", headers={"If-Match": f'"{offer["revision"]}"'}
    )
    assert answer.status_code == 412
    assert answer.json()["current"]["note"] == "sold"
    assert _rack(maker) == []


def test_waste_is_the_workshops_own_figure(maker: Person) -> None:
    assert maker.client.get("/api/workshop/").json()["waste_pct"] == 25
    assert maker.client.patch("/api/workshop/", {"waste_pct": 35}, format="json").json()["waste_pct"] == 35
    refused = maker.client.patch("/api/workshop/", {"waste_pct": -5}, format="json")
    assert "waste_pct" in refused.json()["errors"]


def test_lists_ask_the_database_a_fixed_number_of_times(
    maker: Person, trip: dict, django_assert_max_num_queries: Any
) -> None:
    for number in range(12):
        maker.make("offers", trip=trip["id"], **{**SEEN, "tag": f"D-{number}", "bought": number % 2 == 0})
    with django_assert_max_num_queries(6):
        maker.client.get("/api/offers/")
