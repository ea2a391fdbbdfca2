"""Layouts from the parts and boards of a workshop, checked from the outside."""

from itertools import combinations
from typing import Any

import pytest

from shopapi.layouts import services
from shopapi.layouts.models import Layout
from tests.conftest import BOARD, PART, Person


def worked_out(person: Person, commission: dict, **body: Any) -> dict[str, Any]:
    made = person.make("layouts", commission=commission["id"], seconds=0.5, **body)
    assert made["state"] == "queued"
    services.layout_work_out(layout=Layout.objects.get(pk=made["id"]))
    return person.client.get(f"/api/layouts/{made['id']}/").json()


def apart(a: dict, b: dict, kerf: float) -> bool:
    return (
        a["board"] != b["board"]
        or a["x_mm"] + a["length_mm"] + kerf <= b["x_mm"]
        or b["x_mm"] + b["length_mm"] + kerf <= a["x_mm"]
        or a["y_mm"] + a["width_mm"] + kerf <= b["y_mm"]
        or b["y_mm"] + b["width_mm"] + kerf <= a["y_mm"]
    )


def clear_of(placed: dict, rect: tuple[float, float, float, float]) -> bool:
    x0, y0, x1, y1 = rect
    return (
        placed["x_mm"] >= x1
        or placed["x_mm"] + placed["length_mm"] <= x0
        or placed["y_mm"] >= y1
        or placed["y_mm"] + placed["width_mm"] <= y0
    )


def test_parts_go_on_clear_wood_apart_by_a_kerf(maker: Person, commission: dict, board: dict) -> None:
    maker.make("parts", commission=commission["id"], **{**PART, "quantity": 4, "show_faces": "both"})
    shape = {"type": "ellipse", "cx_mm": 700, "cy_mm": 60, "rx_mm": 20, "ry_mm": 15}
    maker.make("marks", board=board["id"], face="B", kind="knot", shape=shape)
    layout = worked_out(maker, commission)
    assert (layout["state"], layout["unplaced"]) == ("done", [])
    placements = layout["placements"]
    assert len(placements) == 4
    for placed in placements:
        assert (placed["length_mm"], placed["width_mm"]) == (625, 86)
        assert clear_of(placed, (680, 45, 720, 75))
        assert 25 <= placed["x_mm"] <= 2400 - 25 - 625
        assert 0 <= placed["y_mm"] <= 200 - 86
    assert all(apart(a, b, kerf=3.2) for a, b in combinations(placements, 2))
    assert {(p["piece"], p["strip"]) for p in placements} == {(1, 0), (2, 0), (3, 0), (4, 0)}


def test_hidden_part_may_lie_on_what_would_only_be_seen(maker: Person, commission: dict, board: dict) -> None:
    """All of face A is stained: a part that shows one face turns face B up, one that shows both does not fit."""
    whole = {"type": "outline", "points": [[0, 0], [2400, 0], [2400, 200], [0, 200]]}
    maker.make("marks", board=board["id"], face="A", kind="stain", shape=whole, blocks="show")
    for faces, name in (("none", "Hidden"), ("one", "Seen"), ("both", "All round")):
        maker.make("parts", commission=commission["id"], **{**PART, "name": name, "show_faces": faces})
    layout = worked_out(maker, commission)
    names = {row["id"]: row["name"] for row in maker.client.get("/api/parts/").json()["results"]}
    assert {names[row["part"]] for row in layout["unplaced"]} == {"All round"}
    seen = next(p for p in layout["placements"] if names[p["part"]] == "Seen")
    assert seen["face"] == "B"


def test_panel_becomes_its_strips(maker: Person, commission: dict, board: dict) -> None:
    maker.make("parts", commission=commission["id"], **{**PART, "width_mm": 300, "strip_count": 3})
    layout = worked_out(maker, commission)
    assert [(p["piece"], p["strip"]) for p in layout["placements"]] == [(1, 1), (1, 2), (1, 3)]
    assert all(p["width_mm"] >= 300 / 3 + 2 * 3 for p in layout["placements"])


def test_each_thickness_from_its_own_boards(maker: Person, commission: dict, board: dict) -> None:
    thick = maker.make("boards", tag="T1", **{**BOARD, "thickness_mm": 52})
    maker.make("parts", commission=commission["id"], **{**PART, "name": "Leg", "thickness_mm": 45})
    maker.make("parts", commission=commission["id"], **PART)
    layout = worked_out(maker, commission)
    names = {row["id"]: row["name"] for row in maker.client.get("/api/parts/").json()["results"]}
    assert {names[p["part"]]: p["board"] for p in layout["placements"]} == {"Leg": thick["id"], "Rail": board["id"]}


@pytest.mark.parametrize(
    ("change", "said"),
    [
        ({"width_mm": 400}, "wid"),
        ({"length_mm": 3000}, "long"),
        ({"thickness_mm": 60}, "thick"),
        ({"species": "black walnut"}, "walnut"),
    ],
)
def test_what_does_not_fit_says_why(change: dict, said: str, maker: Person, commission: dict, board: dict) -> None:
    maker.make("parts", commission=commission["id"], **PART)
    odd = maker.make("parts", commission=commission["id"], **{**PART, **change, "quantity": 2})
    layout = worked_out(maker, commission)
    assert layout["state"] == "done"
    (left,) = layout["unplaced"]
    assert (left["part"], left["count"]) == (odd["id"], 2)
    assert said in left["reason"]


def test_reasons_are_in_the_workshops_units(stranger: Person) -> None:
    commission = stranger.make("commissions", title="Desk")
    stranger.make("boards", tag="B1", **{**BOARD, "width_mm": "7 1/2"})
    stranger.make("parts", commission=commission["id"], **{**PART, "width_mm": "8"})
    (left,) = worked_out(stranger, commission)["unplaced"]
    # 8 in and 6 mm for its edges, rounded up to 210 mm, on a board of 190 mm: 20 mm.
    assert left["reason"] == '13/16" wider than any board'


def test_nothing_to_lay_out_is_said_in_words(maker: Person, commission: dict) -> None:
    assert "no parts" in worked_out(maker, commission)["problem"]
    maker.make("parts", commission=commission["id"], **PART)
    layout = worked_out(maker, commission)
    assert layout["state"] == "failed"
    assert "white oak" in layout["problem"]


def test_only_the_chosen_boards_are_used(maker: Person, commission: dict, board: dict) -> None:
    other = maker.make("boards", tag="B2", **BOARD)
    maker.make("parts", commission=commission["id"], **PART)
    layout = worked_out(maker, commission, boards=[other["id"]])
    assert {p["board"] for p in layout["placements"]} == {other["id"]}


def test_a_strangers_board_cannot_be_chosen(stranger: Person, board: dict) -> None:
    theirs = stranger.make("commissions", title="Desk")
    answer = stranger.client.post("/api/layouts/", {"commission": theirs["id"], "boards": [board["id"]]}, format="json")
    assert answer.status_code == 400


def test_stopped_service_leaves_no_layout_hanging(maker: Person, commission: dict) -> None:
    maker.make("layouts", commission=commission["id"])
    assert services.layouts_left_behind() == 1
    assert maker.client.get("/api/layouts/").json()["results"][0]["state"] == "failed"
