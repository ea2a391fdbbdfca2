"""Several tapered or curved pieces out of one blank: laid out, named, sawn and undone by the blank."""

from typing import Any

import pytest

from shopapi.layouts.breakdown import breakdown_data
from shopapi.layouts.labels import labels_data, sheet_for
from shopapi.layouts.models import Layout
from tests.conftest import BOARD, PART, Person
from tests.layouts.test_by_hand import by_hand, pin, refused
from tests.layouts.test_carrying_out import cut_count, sent
from tests.layouts.test_layouts_api import worked_out

# As sawn, 645 x 126 mm: the blank with 25 mm of length and 6 mm of width more.
LEG = {**PART, "name": "Leg", "quantity": 5, "blank_holds": 2, "blank_length_mm": 620, "blank_width_mm": 120}
SAWN = {"length_mm": 645, "width_mm": 126}


@pytest.fixture
def leg(maker: Person, commission: dict) -> dict[str, Any]:
    return maker.make("parts", commission=commission["id"], **LEG)


@pytest.fixture
def laid(maker: Person, commission: dict, board: dict, leg: dict) -> dict[str, Any]:
    """Two blanks on B1, the third on B2."""
    other = maker.make("boards", tag="B2", **BOARD)
    pins = [pin(board, leg, **SAWN), pin(board, leg, 2, x=700, **SAWN), pin(other, leg, 3, **SAWN)]
    return by_hand(maker, commission, pins)


def test_blanks_are_laid_out_instead_of_pieces(maker: Person, commission: dict, board: dict, leg: dict) -> None:
    layout = worked_out(maker, commission)
    assert sorted((p["piece"], p["length_mm"], p["width_mm"]) for p in layout["placements"]) == [
        (1, 645, 126),
        (2, 645, 126),
        (3, 645, 126),
    ]
    assert layout["unplaced"] == []


def test_blanks_that_find_no_place_are_counted_and_bought(maker: Person, commission: dict, leg: dict) -> None:
    maker.make("boards", tag="S", **{**BOARD, "length_mm": 750})
    layout = worked_out(maker, commission)
    (left,) = layout["unplaced"]
    assert (len(layout["placements"]), left["count"]) == (1, 2)
    assert left["purchase"]["least_clear_width_mm"] == 126
    row = Layout.objects.get(pk=layout["id"])
    assert [(each.part, each.count) for each in breakdown_data(row).left_out] == [("Leg blank", 2)]


def test_a_blank_whose_grain_runs_across(maker: Person, commission: dict, board: dict) -> None:
    across = {"quantity": 2, "grain": "width", "length_mm": 100, "width_mm": 500}
    blank = {"blank_length_mm": 150, "blank_width_mm": 520}
    maker.make("parts", commission=commission["id"], **{**LEG, **across, **blank})
    (placed,) = worked_out(maker, commission)["placements"]
    assert (placed["length_mm"], placed["width_mm"]) == (545, 156)


def test_sheets_and_labels_name_the_blanks(laid: dict) -> None:
    layout = Layout.objects.get(pk=laid["id"])
    data = breakdown_data(layout)
    assert [piece.part for board in data.boards for piece in board.pieces] == [
        "Leg, blank 1 of 3 (2 pieces)",
        "Leg, blank 2 of 3 (2 pieces)",
        "Leg, blank 3 of 3 (2 pieces)",
    ]
    assert any("Leg blank" in cut.frees for cut in data.boards[0].cuts)
    labels = labels_data(layout, sheet_for(layout.workshop)).labels
    assert [(each.part, each.which, each.rough_mm) for each in labels] == [
        ("Leg", f"blank {number} of 3 (2 pieces)", (645, 126)) for number in (1, 2, 3)
    ]


def test_carried_out_and_undone_by_the_blank(maker: Person, commission: dict, laid: dict, leg: dict) -> None:
    first, _, last = (p["board"] for p in laid["placements"])
    sent(maker, laid, "carry-out", boards=[first])
    assert cut_count(maker, leg) == 4
    again = worked_out(maker, commission)
    assert [p["piece"] for p in again["placements"]] == [3]
    sent(maker, laid, "carry-out", boards=[last])
    assert cut_count(maker, leg) == 5  # the third blank holds one more than is wanted
    assert "cut already" in worked_out(maker, commission)["problem"]
    sent(maker, laid, "undo")
    assert cut_count(maker, leg) == 0


def test_the_odd_blank_first_leaves_the_others_to_be_cut(
    maker: Person, commission: dict, laid: dict, leg: dict
) -> None:
    sent(maker, laid, "carry-out", boards=[laid["placements"][2]["board"]])
    assert cut_count(maker, leg) == 2
    assert sorted(p["piece"] for p in worked_out(maker, commission)["placements"]) == [2, 3]
    sent(maker, laid, "carry-out")
    assert cut_count(maker, leg) == 5
    sent(maker, laid, "undo")
    assert cut_count(maker, leg) == 0


def test_a_blank_that_is_not_there_is_refused(maker: Person, commission: dict, board: dict, leg: dict) -> None:
    errors = refused(maker, commission, [pin(board, leg, 4, **SAWN)])
    assert "Leg has blanks 1 to 3 to be cut; there is no blank 4." in str(errors)
    assert "Leg, blank 1 on B1" in str(refused(maker, commission, [pin(board, leg)]))  # of the size of one piece


def test_a_larger_blank_for_each_piece_is_named_as_the_piece(maker: Person, commission: dict, board: dict) -> None:
    maker.make("parts", commission=commission["id"], **{**LEG, "quantity": 2, "blank_holds": 1})
    layout = worked_out(maker, commission)
    assert [(p["length_mm"], p["width_mm"]) for p in layout["placements"]] == [(645, 126)] * 2
    row = Layout.objects.get(pk=layout["id"])
    named = [piece.part for each in breakdown_data(row).boards for piece in each.pieces]
    assert sorted(named) == ["Leg 1", "Leg 2"]
