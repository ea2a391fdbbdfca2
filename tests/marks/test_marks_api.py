"""Marks through the API."""

from typing import Any

import pytest

from tests.conftest import Person

KNOT = {"type": "ellipse", "cx_mm": 300, "cy_mm": 90, "rx_mm": 12, "ry_mm": 9}


@pytest.mark.parametrize(
    "shape",
    [
        KNOT,
        {"type": "line", "points": [[0, 20], [180, 24]], "width_mm": 3},
        {"type": "outline", "points": [[0, 0], [2400, 0], [2400, 14]]},
    ],
)
def test_shapes_are_kept_as_drawn(shape: dict, maker: Person, board: dict) -> None:
    mark = maker.make("marks", board=board["id"], face="B", kind="other", shape=shape, through=True, blocks="show")
    assert mark["shape"] == shape
    assert (mark["face"], mark["through"], mark["blocks"]) == ("B", True, "show")


@pytest.mark.parametrize(
    "shape",
    [
        {**KNOT, "cx_mm": 2600},
        {**KNOT, "cy_mm": -60},
        {**KNOT, "rx_mm": 0},
        {**KNOT, "rx_mm": "wide"},
        {"type": "line", "points": [[0, 20]], "width_mm": 3},
        {"type": "outline", "points": [[0, 0], [10, 10], [20, 20]]},
        {"type": "cloud"},
        [],
        None,
    ],
)
def test_what_cannot_be_on_the_board_is_refused(shape: Any, maker: Person, board: dict) -> None:
    body = {"board": board["id"], "face": "A", "kind": "knot", "shape": shape}
    answer = maker.client.post("/api/marks/", body, format="json")
    assert answer.status_code == 400
    assert "shape" in answer.json()["errors"]
    assert maker.client.get("/api/marks/").json()["count"] == 0


def test_unknown_kind_is_refused(maker: Person, board: dict) -> None:
    body = {"board": board["id"], "face": "A", "kind": "dent", "shape": KNOT}
    assert "kind" in maker.client.post("/api/marks/", body, format="json").json()["errors"]


def test_mark_is_moved_and_removed(maker: Person, board: dict) -> None:
    mark = maker.make("marks", board=board["id"], face="A", kind="knot", shape=KNOT)
    moved = maker.client.patch(
        f"/api/marks/{mark['id']}/", {"shape": {**KNOT, "cx_mm": 500}}, format="json", headers={"If-Match": '"1"'}
    )
    assert moved.json()["shape"]["cx_mm"] == 500
    assert maker.client.delete(f"/api/marks/{mark['id']}/", headers={"If-Match": '"2"'}).status_code == 204
