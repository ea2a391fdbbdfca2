"""Two phones in a shop without signal: the same tag chalked twice, a board removed here and worked on there."""

import uuid
from typing import Any

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile

from tests.conftest import BOARD, Person

KNOT = {"type": "ellipse", "cx_mm": 300, "cy_mm": 90, "rx_mm": 12, "ry_mm": 9}
HERE_NO_MORE = "removed meanwhile"


def _remove(person: Person, path: str, row: dict[str, Any]) -> None:
    answer = person.client.delete(f"/api/{path}/{row['id']}/", headers={"If-Match": f'"{row["revision"]}"'})
    assert answer.status_code == 204


def _piece(tag: str) -> dict[str, Any]:
    return {"id": str(uuid.uuid4()), "tag": tag, "x_mm": 0, "y_mm": 0, "length_mm": 900, "width_mm": 90}


def test_second_board_with_a_tag_waits_for_another_tag_and_loses_nothing(maker: Person, apprentice: Person) -> None:
    maker.make("boards", tag="B1", **BOARD)
    body = {"id": str(uuid.uuid4()), "tag": " B1 ", **BOARD}
    refused = apprentice.client.post("/api/boards/", body, format="json", headers={"Idempotency-Key": "one"})
    assert refused.status_code == 400
    assert refused.json()["errors"]["tag"] == ["Another board in the rack carries B1; chalk a different tag."]
    board = apprentice.make("boards", **{**body, "tag": "B2"})  # the same board with what the maker wrote anew
    mark = apprentice.make("marks", board=board["id"], face="A", kind="knot", shape=KNOT)
    rows = maker.client.get("/api/changes/").json()["entries"]
    assert {entry["row"]["tag"] for entry in rows if entry["kind"] == "board"} == {"B1", "B2"}
    assert mark["id"] in {entry["id"] for entry in rows}


def test_board_is_not_renamed_to_a_tag_of_another(maker: Person, board: dict[str, Any]) -> None:
    other = maker.make("boards", tag="B2", **BOARD)
    headers = {"If-Match": f'"{other["revision"]}"'}
    answer = maker.client.patch(f"/api/boards/{other['id']}/", {"tag": "B1"}, format="json", headers=headers)
    assert "chalk a different tag" in answer.json()["errors"]["tag"][0]
    same = maker.client.patch(f"/api/boards/{other['id']}/", {"tag": "B2"}, format="json", headers=headers)
    assert same.status_code == 200


@pytest.mark.parametrize(
    ("path", "fields"),
    [
        ("marks", {"face": "A", "kind": "knot", "shape": KNOT}),
        ("readings", {"mc_pct": 8, "read_on": "2026-03-04"}),
        ("cuts", {"kind": "layout", "pieces": [_piece("B1a")]}),
    ],
)
def test_what_is_noted_on_a_removed_board_is_refused_in_words(
    path: str, fields: dict[str, Any], maker: Person, apprentice: Person, board: dict[str, Any]
) -> None:
    _remove(maker, "boards", board)
    answer = apprentice.client.post(f"/api/{path}/", {"board": board["id"], **fields}, format="json")
    assert answer.status_code == 400
    assert HERE_NO_MORE in answer.json()["errors"]["board"][0]
    assert maker.client.get(f"/api/{path}/").json()["results"] == []


def test_photograph_of_a_removed_board_is_refused_in_words(
    maker: Person, board: dict[str, Any], picture_of_board: bytes
) -> None:
    _remove(maker, "boards", board)
    photo = SimpleUploadedFile("b.jpg", picture_of_board)
    answer = maker.client.post("/api/shots/", {"board": board["id"], "face": "A", "photo": photo}, format="multipart")
    assert answer.status_code == 400
    assert HERE_NO_MORE in answer.json()["errors"]["board"][0]


def test_removing_wins_over_what_the_other_phone_did_before(
    maker: Person, apprentice: Person, board: dict[str, Any]
) -> None:
    """A mark made in between goes with its board, and both phones hear of both."""
    mark = apprentice.make("marks", board=board["id"], face="A", kind="knot", shape=KNOT)
    _remove(maker, "boards", board)
    gone = {entry["id"] for entry in apprentice.client.get("/api/changes/").json()["entries"] if entry["gone"]}
    assert gone == {board["id"], mark["id"]}
    for path, row, change in (("marks", mark, {"note": "loose"}), ("boards", board, {"place": "loft"})):
        headers = {"If-Match": f'"{row["revision"]}"'}
        answer = apprentice.client.patch(f"/api/{path}/{row['id']}/", change, format="json", headers=headers)
        assert answer.status_code == 404
        assert HERE_NO_MORE in answer.json()["detail"]
        assert apprentice.client.delete(f"/api/{path}/{row['id']}/", headers=headers).status_code == 404


def test_board_changed_meanwhile_is_not_removed_unseen(maker: Person, apprentice: Person, board: dict[str, Any]):
    headers = {"If-Match": f'"{board["revision"]}"'}
    changed = apprentice.client.patch(f"/api/boards/{board['id']}/", {"place": "loft"}, format="json", headers=headers)
    answer = maker.client.delete(f"/api/boards/{board['id']}/", headers=headers)
    assert answer.status_code == 412
    assert answer.json()["current"]["place"] == changed.json()["place"] == "loft"


def test_a_stranger_is_not_told_that_something_was_here(maker: Person, stranger: Person, board: dict[str, Any]) -> None:
    _remove(maker, "boards", board)
    known = maker.client.get(f"/api/boards/{board['id']}/").json()["detail"]
    other = stranger.client.get(f"/api/boards/{board['id']}/").json()["detail"]
    never = stranger.client.get(f"/api/boards/{uuid.uuid4()}/").json()["detail"]
    assert HERE_NO_MORE in known
    assert other == never
    assert HERE_NO_MORE not in other
