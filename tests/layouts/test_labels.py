"""Part labels through the API: one for each piece, on the sheet that was asked for."""

from typing import Any

import pytest

from shopapi.layouts.labels import labels_data, sheet_for
from shopapi.layouts.models import Layout
from tests.conftest import BOARD, PART, Person
from tests.layouts.test_by_hand import by_hand, pin
from tests.printing.reading import Printed


@pytest.fixture
def laid(maker: Person, commission: dict, board: dict) -> dict[str, Any]:
    other = maker.make("boards", tag="B10", **BOARD)
    rail = maker.make("parts", commission=commission["id"], **{**PART, "quantity": 3})
    return by_hand(maker, commission, [pin(other, rail, 3), pin(board, rail, 2, y=90, face="B"), pin(board, rail)])


def test_a_label_for_each_piece_in_the_order_of_sawing(laid: dict) -> None:
    layout = Layout.objects.get(pk=laid["id"])
    labels = labels_data(layout, sheet_for(layout.workshop)).labels
    assert [(each.board, each.which, each.note) for each in labels] == [
        ("B1", "1 of 3", ""),
        ("B1", "2 of 3", "face B shows"),
        ("B10", "3 of 3", ""),
    ]
    assert {(each.rough_mm, each.finished_mm) for each in labels} == {((625, 86), (600, 80, 20))}


def test_the_labels_come_as_a_pdf(maker: Person, apprentice: Person, stranger: Person, laid: dict) -> None:
    address = f"/api/layouts/{laid['id']}/labels/"
    answer = apprentice.client.get(address, {"columns": 2, "rows": 5, "width_mm": "9 cm", "across_mm": 95, "used": 9})
    assert (answer.status_code, answer["Content-Type"]) == (200, "application/pdf")
    document = Printed(answer.content)
    assert document.pages == 2
    assert document.text.count("Rail") == 3
    assert maker.client.get(address).status_code == 200
    assert stranger.client.get(address).status_code == 404


def test_a_sheet_that_cannot_be_is_refused_in_words(maker: Person, commission: dict, laid: dict) -> None:
    answer = maker.client.get(f"/api/layouts/{laid['id']}/labels/", {"columns": 9})
    assert answer.status_code == 400
    assert "the paper has" in answer.json()["detail"]
    assert maker.client.get(f"/api/layouts/{laid['id']}/labels/", {"width_mm": "wide"}).status_code == 400
    waiting = maker.make("layouts", commission=commission["id"])
    assert maker.client.get(f"/api/layouts/{waiting['id']}/labels/").status_code == 409
