"""Carrying a layout out: boards become offcuts that keep their marks, parts count as cut, and all of it undone."""

from datetime import timedelta
from typing import Any

import pytest

from shopapi.commissions.models import Commission
from shopapi.layouts.models import Layout
from shopapi.layouts.selectors import latest_done
from tests.conftest import BOARD, PART, Person
from tests.layouts.test_by_hand import by_hand, pin
from tests.layouts.test_layouts_api import worked_out

FAR_KNOT = {"type": "ellipse", "cx_mm": 2000, "cy_mm": 90, "rx_mm": 12, "ry_mm": 9}


@pytest.fixture
def rail(maker: Person, commission: dict) -> dict:
    return maker.make("parts", commission=commission["id"], **{**PART, "quantity": 3})


@pytest.fixture
def laid(maker: Person, commission: dict, board: dict, rail: dict) -> dict[str, Any]:
    """Two rails on B1 and one on B2, each at the butt end."""
    other = maker.make("boards", tag="B2", **BOARD)
    maker.make("marks", board=board["id"], face="A", kind="knot", shape=FAR_KNOT)
    return by_hand(maker, commission, [pin(board, rail), pin(board, rail, 2, y=90), pin(other, rail, 3)])


def sent(person: Person, layout: dict, action: str, expect: int = 200, **body: Any) -> dict[str, Any]:
    answer = person.client.post(f"/api/layouts/{layout['id']}/{action}/", body, format="json")
    assert answer.status_code == expect, answer.content
    return answer.json()


def boards(person: Person) -> dict[str, dict[str, Any]]:
    return {row["tag"]: row for row in person.client.get("/api/boards/").json()["results"]}


def cut_count(person: Person, part: dict) -> int:
    return person.client.get(f"/api/parts/{part['id']}/").json()["cut_count"]


def test_boards_become_offcuts_and_parts_count_as_cut(
    maker: Person, apprentice: Person, laid: dict, rail: dict
) -> None:
    done = sent(apprentice, laid, "carry-out")
    assert done["carried_out_on"]
    assert {row["board"] for row in done["carried"]} == {p["board"] for p in laid["placements"]}
    rack = boards(maker)
    assert (rack["B1"]["status"], rack["B2"]["status"]) == ("used", "used")
    (kept,) = [row for row in laid["figures"]["leftovers"] if row["board"] == rack["B1"]["id"]]
    assert (rack["B1a"]["length_mm"], rack["B1a"]["width_mm"]) == (kept["length_mm"], kept["width_mm"])
    assert rack["B1a"]["status"] == "in_rack"
    (mark,) = maker.client.get(f"/api/marks/?board={rack['B1a']['id']}").json()["results"]
    assert mark["shape"]["cx_mm"] == pytest.approx(2000 - kept["x_mm"])
    assert cut_count(maker, rail) == 3
    cuts = maker.client.get("/api/cuts/").json()["results"]
    assert {row["kind"] for row in cuts} == {"layout"}


def test_board_by_board(maker: Person, commission: dict, laid: dict, rail: dict) -> None:
    first, second = {p["board"]: None for p in laid["placements"]}
    sent(maker, laid, "carry-out", boards=[first])
    assert (cut_count(maker, rail), boards(maker)["B2"]["status"]) == (2, "in_rack")
    assert "B1 was sawn by this layout before" in sent(maker, laid, "carry-out", 409, boards=[first])["detail"]
    sent(maker, laid, "carry-out")
    assert cut_count(maker, rail) == 3
    assert "sawn already" in sent(maker, laid, "carry-out", 409)["detail"]
    assert "cut already" in worked_out(maker, commission)["problem"]
    assert second


def test_what_is_cut_is_not_laid_out_again(maker: Person, commission: dict, laid: dict, rail: dict) -> None:
    sent(maker, laid, "carry-out", boards=[laid["placements"][0]["board"]])
    again = worked_out(maker, commission)
    assert [(p["part"], p["piece"]) for p in again["placements"]] == [(rail["id"], 3)]


def test_undone_the_same_day_all_is_as_before(maker: Person, apprentice: Person, laid: dict, rail: dict) -> None:
    before = boards(maker)
    sent(maker, laid, "carry-out")
    undone = sent(apprentice, laid, "undo")
    assert (undone["carried_out_on"], undone["carried"]) == (None, [])
    assert cut_count(maker, rail) == 0
    for tag, row in boards(maker).items():
        assert {**row, "revision": 0, "updated_at": 0} == {**before[tag], "revision": 0, "updated_at": 0}
    assert "nothing to undo" in sent(maker, laid, "undo", 409)["detail"]
    sent(maker, laid, "carry-out")  # and again
    assert cut_count(maker, rail) == 3


def test_not_undone_once_an_offcut_was_worked_on(maker: Person, laid: dict, rail: dict) -> None:
    sent(maker, laid, "carry-out")
    piece = boards(maker)["B1a"]["id"]
    maker.client.patch(f"/api/boards/{piece}/", {"place": "top"}, format="json", headers={"If-Match": "*"})
    assert "B1a was worked on" in sent(maker, laid, "undo", 409)["detail"]
    assert (cut_count(maker, rail), boards(maker)["B2"]["status"]) == (3, "used")


def test_not_undone_another_day(maker: Person, laid: dict, rail: dict) -> None:
    sent(maker, laid, "carry-out")
    layout = Layout.objects.get(pk=laid["id"])
    assert layout.carried_out_on
    yesterday = (layout.carried_out_on - timedelta(days=1)).isoformat()
    layout.carried = [{**entry, "on": yesterday} for entry in layout.carried]
    layout.save()
    assert "another day" in sent(maker, laid, "undo", 409)["detail"]
    assert cut_count(maker, rail) == 3


def test_a_panel_is_cut_when_all_its_strips_are(maker: Person, commission: dict, board: dict) -> None:
    panel = maker.make("parts", commission=commission["id"], **{**PART, "width_mm": 140, "strip_count": 2})
    other = maker.make("boards", tag="B2", **BOARD)
    pins = [pin(where, panel, 1, strip=strip, width_mm=79) for strip, where in enumerate((board, other), start=1)]
    layout = by_hand(maker, commission, pins)
    sent(maker, layout, "carry-out", boards=[board["id"]])
    assert cut_count(maker, panel) == 0
    sent(maker, layout, "carry-out")
    assert cut_count(maker, panel) == 1


@pytest.mark.parametrize(
    ("field", "value", "words"),
    [
        ("status", "gone", "not in the rack any more"),
        ("length_mm", 2200, "measured anew"),
    ],
)
def test_a_board_that_changed_since_is_not_sawn(
    field: str, value: Any, words: str, maker: Person, laid: dict, rail: dict
) -> None:
    key = laid["placements"][-1]["board"]
    maker.client.patch(f"/api/boards/{key}/", {field: value}, format="json", headers={"If-Match": "*"})
    assert words in sent(maker, laid, "carry-out", 409)["detail"]
    assert cut_count(maker, rail) == 0
    assert set(boards(maker)) == {"B1", "B2"}


def test_strangers_and_layouts_that_are_not_done_saw_nothing(
    maker: Person, stranger: Person, commission: dict, laid: dict
) -> None:
    for action in ("carry-out", "undo"):
        assert stranger.client.post(f"/api/layouts/{laid['id']}/{action}/").status_code == 404
    waiting = maker.make("layouts", commission=commission["id"])
    assert "not done yet" in sent(maker, waiting, "carry-out", 409)["detail"]
    spare = maker.make("boards", tag="B3", **BOARD)
    assert "carry nothing" in sent(maker, laid, "carry-out", 409, boards=[spare["id"]])["detail"]


def test_offcuts_carry_their_share_of_the_price(maker: Person, commission: dict, rail: dict) -> None:
    board = maker.make("boards", tag="P", price="48", **BOARD)
    layout = by_hand(maker, commission, [pin(board, rail)])
    sent(maker, layout, "carry-out")
    left = [row for row in boards(maker).values() if row["status"] == "in_rack"]
    assert left
    for row in left:
        assert float(row["price"]) == pytest.approx(48 * row["length_mm"] * row["width_mm"] / (2400 * 200), abs=0.01)


def test_a_board_with_nothing_worth_keeping_is_used_up(
    maker: Person, commission: dict, board: dict, rail: dict
) -> None:
    maker.client.patch("/api/workshop/", {"least_offcut_length_mm": 5000}, format="json")
    layout = by_hand(maker, commission, [pin(board, rail)])
    sent(maker, layout, "carry-out")
    assert {tag: row["status"] for tag, row in boards(maker).items()} == {"B1": "used"}
    sent(maker, layout, "undo")
    assert boards(maker)["B1"]["status"] == "in_rack"


def test_the_papers_follow_the_layout_that_was_sawn(maker: Person, commission: dict, laid: dict, rail: dict) -> None:
    row = Commission.objects.get(pk=commission["id"])
    later = by_hand(maker, commission, laid["placements"][:1])
    assert str(latest_done(row).pk) == later["id"]
    sent(maker, laid, "carry-out", boards=[laid["placements"][0]["board"]])
    assert str(latest_done(row).pk) == laid["id"]
