"""What a shop may ask at its worst: nothing to cut from, boards that are all mark, very many parts and boards."""

from itertools import combinations
from typing import Any

import pytest

from shopapi.boards.models import Board
from shopapi.commissions.models import Part
from shopapi.layouts import services
from shopapi.layouts.models import Layout
from shopapi.marks.models import Mark
from tests.conftest import BOARD, PART, Person
from tests.layouts.test_layouts_api import apart, worked_out


def test_a_board_that_is_all_mark_says_so(maker: Person, commission: dict, board: dict) -> None:
    whole = {"type": "outline", "points": [[0, 0], [2400, 0], [2400, 200], [0, 200]]}
    maker.make("marks", board=board["id"], face="A", kind="pith", shape=whole)
    maker.make("parts", commission=commission["id"], **PART)
    layout = worked_out(maker, commission)
    assert (layout["state"], layout["placements"]) == ("done", [])
    assert layout["unplaced"][0]["reason"] == "No board has a clear stretch of 625 mm × 86 mm on one face"
    assert layout["figures"] | {"looks": 0} == {
        "pieces": 0, "unplaced": 1, "boards_used": 0, "parts_mm2": 0, "wood_used_mm2": 0, "board_mm2": 0, "looks": 0,
        "leftovers": [],
    }  # fmt: skip
    assert maker.client.get(f"/api/layouts/{layout['id']}/breakdown/").status_code == 200
    assert maker.client.get(f"/api/layouts/{layout['id']}/labels/").status_code == 200


@pytest.mark.parametrize("kind", ["species", "thickness"])
def test_no_board_that_will_do(kind: str, maker: Person, commission: dict) -> None:
    maker.make("parts", commission=commission["id"], **PART)
    other = {"species": "black walnut"} if kind == "species" else {"thickness_mm": 12}
    maker.make("boards", tag="X", **{**BOARD, **other})
    layout = worked_out(maker, commission)
    if kind == "species":
        assert layout["problem"] == "There is no white oak in the rack to lay these parts on. Add boards first."
    else:
        assert layout["state"] == "done"
        assert "The thickest white oak here is 12 mm" in layout["unplaced"][0]["reason"]
        assert layout["unplaced"][0]["purchase"]["thickness_mm"] == 25


def many(maker: Person, commission: dict, boards: int, parts: int, **part: Any) -> None:
    rows = [
        Board(
            workshop=maker.workshop,
            tag=f"W{n}",
            **{**BOARD, "length_mm": 2000 + 7 * (n % 90), "width_mm": 120 + n % 100},
        )
        for n in range(boards)
    ]
    Board.objects.bulk_create(rows)
    knots = [
        Mark(workshop=maker.workshop, board=row, face="A", kind="knot", blocks="all",
             shape={"type": "ellipse", "cx_mm": 300 + 37 * (n % 40), "cy_mm": 60, "rx_mm": 20, "ry_mm": 15})
        for n, row in enumerate(rows)
    ]  # fmt: skip
    Mark.objects.bulk_create(knots)
    sized = {"species": PART["species"], "thickness_mm": 20.0, **part}
    Part.objects.bulk_create(
        Part(workshop=maker.workshop, commission_id=commission["id"], name=f"P{n}", position=n,
             length_mm=200 + 13 * (n % 80), width_mm=40 + n % 90, **sized)
        for n in range(parts)
    )  # fmt: skip


def test_five_hundred_boards_and_two_thousand_parts(maker: Person, commission: dict) -> None:
    """Every part of its own: more than any piece has. A whole, valid layout comes, and what lacks has a reason."""
    many(maker, commission, boards=500, parts=2000)
    made = maker.make("layouts", commission=commission["id"], seconds=5)
    services.layout_work_out(layout=Layout.objects.get(pk=made["id"]))
    layout = maker.client.get(f"/api/layouts/{made['id']}/").json()
    assert (layout["state"], layout["problem"]) == ("done", "")
    assert len(layout["placements"]) + sum(row["count"] for row in layout["unplaced"]) == 2000
    assert all(row["reason"] and row["purchase"] for row in layout["unplaced"])
    by_board: dict[str, list[dict[str, Any]]] = {}
    for placed in layout["placements"]:
        by_board.setdefault(placed["board"], []).append(placed)
    for pieces in by_board.values():
        assert all(apart(a, b, kerf=3.2) for a, b in combinations(pieces, 2))


def test_more_pieces_than_a_layout_can_hold_is_said(maker: Person, commission: dict) -> None:
    many(maker, commission, boards=2, parts=11, quantity=2000)
    layout = worked_out(maker, commission)
    assert layout["state"] == "failed"
    assert "22000 pieces are more than one layout can hold" in layout["problem"]
