"""Layouts by hand and pinned pieces: what is kept, what is refused and in what words."""

from itertools import combinations
from typing import Any

import pytest

from shopapi.layouts import services
from shopapi.layouts.breakdown import breakdown_data
from shopapi.layouts.models import Layout
from tests.conftest import BOARD, PART, Person
from tests.layouts.test_layouts_api import apart, worked_out

KNOT = {"type": "ellipse", "cx_mm": 1400, "cy_mm": 40, "rx_mm": 20, "ry_mm": 15}


@pytest.fixture
def rail(maker: Person, commission: dict) -> dict:
    return maker.make("parts", commission=commission["id"], **{**PART, "quantity": 3})


def pin(board: dict, part: dict, piece: int = 1, x: float = 25, y: float = 0, **changes: Any) -> dict[str, Any]:
    """A rail's blank: 600 and 80 mm with the workshop's allowances."""
    size = {"length_mm": 625, "width_mm": 86}
    return {"board": board["id"], "part": part["id"], "piece": piece, "x_mm": x, "y_mm": y, **size, **changes}


def by_hand(person: Person, commission: dict, pins: list[dict], **body: Any) -> dict[str, Any]:
    return person.make("layouts", commission=commission["id"], made="by_hand", pinned=pins, **body)


def refused(person: Person, commission: dict, pins: list[dict], **body: Any) -> dict[str, list[str]]:
    whole = {"commission": commission["id"], "made": "by_hand", "pinned": pins, **body}
    answer = person.client.post("/api/layouts/", whole, format="json")
    assert answer.status_code == 400, answer.content
    assert person.client.get("/api/layouts/").json()["count"] == 0
    return answer.json()["errors"]


def test_a_layout_by_hand_is_done_at_once(
    maker: Person, apprentice: Person, commission: dict, board: dict, rail: dict
) -> None:
    pins = [pin(board, rail), pin(board, rail, 2, y=90, turned=True, pinned=False)]
    layout = by_hand(apprentice, commission, pins)
    assert (layout["state"], layout["made"], layout["bound"], layout["proved_best"]) == ("done", "by_hand", None, False)
    assert [(p["x_mm"], p["y_mm"], p["turned"], p["pinned"]) for p in layout["placements"]] == [
        (25, 0, False, True),
        (25, 90, True, False),
    ]
    assert [(row["part"], row["count"]) for row in layout["unplaced"]] == [(rail["id"], 1)]
    assert layout["value"] > 0
    assert layout["figures"]["pieces"] == 2
    assert layout["figures"]["leftovers"][-1]["length_mm"] >= 1700
    (sheet,) = breakdown_data(Layout.objects.get(pk=layout["id"])).boards
    assert [cut.at_mm for cut in sheet.cuts if cut.kind == "rip"] == [86, 176]
    assert maker.client.get(f"/api/layouts/{layout['id']}/breakdown/").status_code == 200


def test_nothing_laid_out_yet_is_a_layout_too(maker: Person, commission: dict, board: dict, rail: dict) -> None:
    layout = by_hand(maker, commission, [])
    assert (layout["state"], layout["placements"], layout["unplaced"][0]["count"]) == ("done", [], 3)


@pytest.mark.parametrize(
    ("changes", "words"),
    [
        ({"x_mm": -10}, "Rail 1 on B1: It reaches 35 mm over the butt end"),
        ({"x_mm": 1760}, "into the 25 mm trimmed off the far end"),
        ({"y_mm": 120}, "6 mm over the upper edge"),
        ({"x_mm": 900}, "on a mark that no part may hold"),
        ({"width_mm": 80}, "this part is cut 625 mm × 86 mm"),
        ({"piece": 4}, "Rail has pieces 1 to 3 to be cut; there is no piece 4"),
        ({"strip": 2}, "Rail is not glued from strips"),
    ],
)
def test_a_piece_that_cannot_be_cut_there_says_why(
    changes: dict, words: str, maker: Person, commission: dict, board: dict, rail: dict
) -> None:
    maker.make("marks", board=board["id"], face="A", kind="knot", shape=KNOT)
    other = maker.make("boards", tag="B2", **BOARD)
    errors = refused(maker, commission, [pin(other, rail, 2), {**pin(board, rail), **changes}])
    assert list(errors) == ["pinned.1"]
    assert words in errors["pinned.1"][0]


def test_pieces_that_clash_say_so(maker: Person, commission: dict, board: dict, rail: dict) -> None:
    errors = refused(maker, commission, [pin(board, rail), pin(board, rail, 2, x=300)])
    assert errors["pinned.0"] == ["Rail 1 on B1: It lies over another piece."]
    assert errors["pinned.1"] == ["Rail 2 on B1: It lies over another piece."]
    (near,) = refused(maker, commission, [pin(board, rail), pin(board, rail, 2, x=652)])["pinned.1"]
    assert "Only 2 mm to the piece beside it" in near
    twice = refused(maker, commission, [pin(board, rail), pin(board, rail, x=900)])
    assert twice == {"pinned.1": ["Rail 1 is pinned in two places. Take one of them away."]}


def test_what_no_saw_can_part_is_refused(maker: Person, commission: dict, board: dict) -> None:
    """Four pieces around a hole, each in the way of every cut from edge to edge."""
    any_way = maker.make("parts", commission=commission["id"], **{**PART, "quantity": 4, "grain": "any"})
    wheel = maker.make("boards", tag="W", **{**BOARD, "length_mm": 1500, "width_mm": 720})
    places = [(25, 0, 625, 86), (654, 0, 86, 625), (115, 629, 625, 86), (25, 90, 86, 625)]
    pins = [
        pin(wheel, any_way, n, x, y, length_mm=length, width_mm=width)
        for n, (x, y, length, width) in enumerate(places, start=1)
    ]
    errors = refused(maker, commission, pins)
    assert any("No cut from edge to edge" in words for texts in errors.values() for words in texts)


def test_the_wrong_wood_is_refused(maker: Person, commission: dict, board: dict, rail: dict) -> None:
    thin = maker.make("boards", tag="T", **{**BOARD, "thickness_mm": 20})
    maple = maker.make("boards", tag="M", **{**BOARD, "species": "hard maple"})
    assert (
        "cannot come from T. The thickest white oak here is 20 mm"
        in refused(maker, commission, [pin(thin, rail)])["pinned.0"][0]
    )
    assert "No white oak among these boards" in refused(maker, commission, [pin(maple, rail)])["pinned.0"][0]
    kept_out = refused(maker, commission, [pin(board, rail)], excluded=[board["id"]])
    assert "which is kept out" in kept_out["pinned.0"][0]
    maker.client.patch(f"/api/boards/{board['id']}/", {"status": "gone"}, format="json", headers={"If-Match": "*"})
    assert "not in the rack any more" in refused(maker, commission, [pin(board, rail)])["pinned.0"][0]


def test_a_stranger_cannot_pin_to_anothers_board(stranger: Person, board: dict) -> None:
    theirs = stranger.make("commissions", title="Desk")
    stranger.make("boards", tag="S", **BOARD)
    part = stranger.make("parts", commission=theirs["id"], **PART)
    errors = refused(stranger, theirs, [pin(board, part)])
    assert "not in the rack" in errors["pinned.0"][0]


@pytest.mark.parametrize("value", ["nan", 1e9, "far out", None])
def test_a_place_that_is_none_is_refused(value: Any, maker: Person, commission: dict, board: dict, rail: dict) -> None:
    assert list(refused(maker, commission, [pin(board, rail, x=value)])) == ["pinned.0.x_mm"]


def test_pinned_pieces_stay_when_the_rest_is_solved(maker: Person, commission: dict, board: dict, rail: dict) -> None:
    """On a thicker board and in the middle of one: where no solver would put them by itself."""
    thick = maker.make("boards", tag="T", **{**BOARD, "thickness_mm": 52})
    leg = maker.make("parts", commission=commission["id"], **{**PART, "name": "Leg", "thickness_mm": 45})
    pins = [pin(board, rail, 2, x=903, y=57, turned=True), pin(thick, rail, 1, x=1100, y=3)]
    layout = worked_out(maker, commission, pinned=pins, excluded=[])
    assert (layout["state"], layout["unplaced"]) == ("done", [])
    kept = {
        (p["board"], p["part"], p["piece"], p["x_mm"], p["y_mm"], p["turned"])
        for p in layout["placements"]
        if p["pinned"]
    }
    assert kept == {
        (board["id"], rail["id"], 2, 903, 57, True),
        (thick["id"], rail["id"], 1, 1100, 3, False),
    }
    rest = [(p["part"], p["piece"]) for p in layout["placements"] if not p["pinned"]]
    assert sorted(rest) == sorted([(rail["id"], 3), (leg["id"], 1)])
    assert all(apart(a, b, kerf=3.2) for a, b in combinations(layout["placements"], 2))
    sheets = breakdown_data(Layout.objects.get(pk=layout["id"])).boards
    assert [sheet.tag for sheet in sheets] == ["B1", "T"]


def test_contradictory_pins_are_refused_before_solving(
    maker: Person, commission: dict, board: dict, rail: dict
) -> None:
    errors = refused(maker, commission, [pin(board, rail), pin(board, rail, 2, x=400)], made="solved")
    assert "over another piece" in errors["pinned.0"][0]


def test_a_pin_that_became_impossible_meanwhile_is_named(
    maker: Person, commission: dict, board: dict, rail: dict
) -> None:
    maker.make("boards", tag="B2", **BOARD)
    made = maker.make("layouts", commission=commission["id"], pinned=[pin(board, rail)], seconds=0.5)
    maker.make("marks", board=board["id"], face="A", kind="knot", shape={**KNOT, "cx_mm": 300})
    services.layout_work_out(layout=Layout.objects.get(pk=made["id"]))
    layout = maker.client.get(f"/api/layouts/{made['id']}/").json()
    assert layout["state"] == "failed"
    assert layout["problem"] == "Rail 1 on B1: It lies on a mark that no part may hold."
