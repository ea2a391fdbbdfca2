"""A layout while it runs: progress that phones hear of, "stop", boards kept out, and the figures of the answer."""

from collections.abc import Callable, Iterator
from itertools import pairwise
from typing import Any

import pytest
from django.db.models.signals import post_save

from shopapi.layouts import services
from shopapi.layouts.models import Layout
from shopapi.layouts.watching import Watch
from tests.conftest import BOARD, PART, Person
from tests.layouts.test_layouts_api import worked_out

Watcher = Callable[[Layout], None]


@pytest.fixture
def on_save() -> Iterator[list[Watcher]]:
    """Whoever is in the list is told of each layout as it is saved."""
    watchers: list[Watcher] = []

    def tell(sender: type, instance: Layout, **_: Any) -> None:
        for watcher in watchers:
            watcher(instance)

    post_save.connect(tell, sender=Layout)
    yield watchers
    post_save.disconnect(tell, sender=Layout)


@pytest.fixture
def scarce(maker: Person, commission: dict) -> dict:
    """Boards that cannot hold all: the search has no early end."""
    for number in range(12):
        board = maker.make("boards", tag=f"W{number}", **{**BOARD, "width_mm": 150 + 7 * number})
        for at in range(3):
            shape = {"type": "ellipse", "cx_mm": 400 + 650 * at + 31 * number, "cy_mm": 70, "rx_mm": 25, "ry_mm": 20}
            maker.make("marks", board=board["id"], face="A", kind="knot", shape=shape)
    for number in range(14):
        size = {"length_mm": 290 + 67 * number, "width_mm": 45 + 9 * (number % 6), "quantity": 6}
        maker.make("parts", commission=commission["id"], **{**PART, "name": f"P{number}", **size})
    return commission


def test_progress_comes_by_the_change_feed(maker: Person, scarce: dict, on_save: list[Watcher]) -> None:
    seen: list[dict[str, Any]] = []

    def look(layout: Layout) -> None:
        entries = maker.client.get("/api/changes/?since=60").json()["entries"]
        rows = [entry["row"] for entry in entries if entry["kind"] == "layout"]
        if rows and rows[-1]["state"] == "running" and rows[-1]["progress"]:
            seen.append(rows[-1]["progress"])

    on_save.append(look)
    made = maker.make("layouts", commission=scarce["id"], seconds=4)
    services.layout_work_out(layout=Layout.objects.get(pk=made["id"]))
    assert seen
    assert all(later["value"] >= sooner["value"] for sooner, later in pairwise(seen))
    assert all(later["seconds"] - sooner["seconds"] > 0.9 for sooner, later in pairwise(seen))
    layout = maker.client.get(f"/api/layouts/{made['id']}/").json()
    assert (layout["state"], layout["progress"]) == ("done", None)
    assert layout["value"] >= seen[-1]["value"]
    assert all(one["bound"] is None or one["bound"] >= layout["value"] for one in seen)
    assert layout["bound_covers"]


def test_progress_is_kept_at_most_once_a_second(maker: Person, scarce: dict) -> None:
    made = maker.make("layouts", commission=scarce["id"])
    layout = Layout.objects.get(pk=made["id"])
    watch = Watch(layout)
    watch.say(10, 20)
    watch.say(15, 20)
    layout.refresh_from_db()
    assert {**layout.progress, "seconds": 0} == {"value": 10, "bound": 20, "gap_pct": 50.0, "seconds": 0}
    assert layout.revision == made["revision"] + 1


def test_stop_keeps_the_best_so_far(maker: Person, apprentice: Person, scarce: dict, on_save: list[Watcher]) -> None:
    made = maker.make("layouts", commission=scarce["id"], seconds=120)

    def stop(layout: Layout) -> None:
        if layout.progress and not on_save_done:
            on_save_done.append(True)
            answer = apprentice.client.post(f"/api/layouts/{made['id']}/stop/")
            assert (answer.status_code, answer.json()["state"]) == (200, "running")

    on_save_done: list[bool] = []
    on_save.append(stop)
    services.layout_work_out(layout=Layout.objects.get(pk=made["id"]))
    layout = maker.client.get(f"/api/layouts/{made['id']}/").json()
    assert on_save_done
    assert (layout["state"], layout["problem"]) == ("done", "")
    assert layout["placements"]
    again = maker.client.post(f"/api/layouts/{made['id']}/stop/")
    assert again.json()["revision"] == layout["revision"]


def test_a_layout_stopped_before_it_began_says_so(maker: Person, stranger: Person, scarce: dict) -> None:
    made = maker.make("layouts", commission=scarce["id"])
    assert stranger.client.post(f"/api/layouts/{made['id']}/stop/").status_code == 404
    answer = maker.client.post(f"/api/layouts/{made['id']}/stop/").json()
    assert answer["state"] == "failed"
    assert "before it had begun" in answer["problem"]


def test_boards_kept_out_are_not_touched(maker: Person, commission: dict, board: dict) -> None:
    other = maker.make("boards", tag="B2", **{**BOARD, "width_mm": 100})
    maker.make("parts", commission=commission["id"], **PART)
    first = worked_out(maker, commission, excluded=[other["id"]])
    assert {p["board"] for p in first["placements"]} == {board["id"]}
    second = worked_out(maker, commission, excluded=[board["id"]], based_on=first["id"])
    assert {p["board"] for p in second["placements"]} == {other["id"]}
    assert (second["based_on"], second["made"]) == (first["id"], "solved")
    none = worked_out(maker, commission, excluded=[board["id"], other["id"]])
    assert (none["state"], none["problem"]) == (
        "failed",
        "Every board of white oak is kept out of this layout. Let one of them in again.",
    )


@pytest.mark.parametrize("field", ["excluded", "based_on"])
def test_what_belongs_elsewhere_is_refused(
    field: str, maker: Person, stranger: Person, commission: dict, board: dict
) -> None:
    theirs = stranger.make("commissions", title="Chest")
    value = [board["id"]] if field == "excluded" else maker.make("layouts", commission=commission["id"])["id"]
    body = {"commission": theirs["id"], field: value}
    answer = stranger.client.post("/api/layouts/", body, format="json")
    assert answer.status_code == 400
    assert any(name.startswith(field) for name in answer.json()["errors"])
    if field == "based_on":
        another = maker.make("commissions", title="Chest")
        answer = maker.client.post("/api/layouts/", {"commission": another["id"], field: value}, format="json")
        assert "another commission" in answer.json()["detail"]


def test_figures_add_up(maker: Person, commission: dict, board: dict) -> None:
    """Counted here from the placements and the cut tree alone: the clear rest of the board is one leftover."""
    maker.make("parts", commission=commission["id"], **{**PART, "quantity": 3})
    maker.make("parts", commission=commission["id"], **{**PART, "name": "Too wide", "width_mm": 900})
    layout = worked_out(maker, commission)
    figures = layout["figures"]
    whole = 2400 * 200
    assert (figures["pieces"], figures["unplaced"], figures["boards_used"]) == (3, 1, 1)
    assert (figures["board_mm2"], figures["parts_mm2"]) == (whole, 3 * 625 * 86)
    left = sum(row["length_mm"] * row["width_mm"] for row in figures["leftovers"])
    assert figures["wood_used_mm2"] == pytest.approx(whole - left)
    assert 0 < left < whole - figures["parts_mm2"]
    for row in figures["leftovers"]:
        assert row["length_mm"] >= 400
        assert row["width_mm"] >= 60
        for placed in layout["placements"]:
            beside = row["x_mm"] >= placed["x_mm"] + 625 or row["x_mm"] + row["length_mm"] <= placed["x_mm"]
            over = row["y_mm"] >= placed["y_mm"] + 86 or row["y_mm"] + row["width_mm"] <= placed["y_mm"]
            assert beside or over


def test_the_workshop_says_which_offcuts_are_worth_keeping(maker: Person, commission: dict, board: dict) -> None:
    maker.make("parts", commission=commission["id"], **PART)
    changed = maker.client.patch("/api/workshop/", {"least_offcut_length_mm": 3000}, format="json")
    assert (changed.status_code, changed.json()["least_offcut_width_mm"]) == (200, 60)
    layout = worked_out(maker, commission)
    assert layout["figures"]["leftovers"] == []
    assert layout["figures"]["wood_used_mm2"] == layout["figures"]["board_mm2"]
