"""Board tags through the API: which boards, on which sheet, and who gets them."""

import uuid
from typing import Any

import pytest

from shopapi.craft.packet import SHEETS
from shopapi.labels import selectors
from tests.conftest import BOARD, Person
from tests.printing.reading import Printed
from tests.printing.test_board_labels import decoded


@pytest.fixture
def boards(maker: Person) -> list[dict[str, Any]]:
    return [maker.make("boards", tag=f"B{number}", price="88.00", **BOARD) for number in range(3)]


def _ids(boards: list[dict[str, Any]]) -> str:
    return ",".join(board["id"] for board in boards)


def test_tags_open_the_boards_that_were_asked_for(maker: Person, boards: list[dict[str, Any]]) -> None:
    answer = maker.client.get("/api/labels/", {"boards": _ids(boards[::-1]), "sheet": "a4-3x7", "start": 3})
    assert (answer.status_code, answer["Content-Type"]) == (200, "application/pdf")
    document = Printed(answer.content)
    codes = decoded(document, SHEETS["a4-3x7"])
    places = [(0, 0, 2), (0, 1, 0), (0, 1, 1)]
    wanted = [f"http://testserver/#/rack/{board['id']}" for board in boards[::-1]]
    assert codes == dict(zip(places, wanted, strict=True))
    assert "88.00" not in document.text


def test_the_usual_sheet_and_measures_of_ones_own(maker: Person, boards: list[dict[str, Any]]) -> None:
    usual = Printed(maker.client.get("/api/labels/", {"boards": _ids(boards)}).content)
    assert [float(side) for side in usual.pypdf.pages[0].mediabox[2:]] == [612, 792]
    own = {"sheet": "letter-3x10", "columns": 1, "rows": 2, "width_mm": "10 cm", "height_mm": 60, "down_mm": "70"}
    answer = maker.client.get("/api/labels/", {"boards": _ids(boards), **own})
    assert Printed(answer.content).pages == 2


@pytest.mark.parametrize(
    ("asked", "field", "words"),
    [
        ({"boards": ""}, "boards", "at least one"),
        ({"boards": None}, "boards", "Choose the boards"),
        ({"boards": "B1"}, "boards", "commas between"),
        ({"sheet": "gold"}, "sheet", "Known: letter-3x10"),
        ({"sheet": "a4-3x7", "start": 22}, "start", "has 21 labels"),
        ({"start": 0}, "start", ""),
        ({"columns": 9}, "sheet", "the paper has"),
        ({"height_mm": 16, "down_mm": 16}, "sheet", "too small to scan"),
        ({"width_mm": "wide"}, "width_mm", "not a length"),
    ],
)
def test_what_cannot_be_printed_is_refused_in_words(
    asked: dict[str, Any], field: str, words: str, maker: Person, boards: list[dict[str, Any]]
) -> None:
    query = {key: value for key, value in ({"boards": _ids(boards)} | asked).items() if value is not None}
    answer = maker.client.get("/api/labels/", query)
    assert answer.status_code == 400, answer.content
    assert field in answer.json()["errors"]
    assert words in answer.json()["detail"]


def test_a_board_that_is_gone_is_said(maker: Person, boards: list[dict[str, Any]]) -> None:
    maker.client.delete(f"/api/boards/{boards[0]['id']}/", headers={"If-Match": "*"})
    answer = maker.client.get("/api/labels/", {"boards": _ids(boards)})
    assert answer.status_code == 404
    assert "removed meanwhile" in answer.json()["detail"]
    many = ",".join(str(uuid.uuid4()) for _ in range(501))
    assert "fewer boards" in maker.client.get("/api/labels/", {"boards": many}).json()["detail"]


def test_an_apprentice_prints_and_a_stranger_does_not(
    apprentice: Person, stranger: Person, boards: list[dict[str, Any]]
) -> None:
    assert apprentice.client.get("/api/labels/", {"boards": _ids(boards)}).status_code == 200
    assert stranger.client.get("/api/labels/", {"boards": _ids(boards)}).status_code == 404


def test_sheets_of_the_workshops_paper_come_first(maker: Person) -> None:
    maker.client.patch("/api/workshop/", {"paper": "a4"}, format="json")
    sheets = maker.client.get("/api/labels/sheets/").json()
    assert {sheet["key"] for sheet in sheets} == set(SHEETS)
    assert [sheet["paper"] for sheet in sheets] == ["a4"] * 3 + ["letter"] * 2
    assert sheets[0]["key"] == "a4-3x7"


@pytest.mark.parametrize("host", ["localhost:8000", "127.0.0.1:8000"])
def test_tags_printed_at_the_machine_itself_still_open_on_a_phone(host: str, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(selectors, "network_address", lambda: "192.0.2.7")
    assert selectors.reachable(f"http://{host}/") == "http://192.0.2.7:8000"
    assert selectors.reachable("https://shop.example/") == "https://shop.example"
    monkeypatch.setattr(selectors, "network_address", lambda: None)
    assert selectors.reachable(f"http://{host}/") == f"http://{host}"
