"""A small commission taken through layout and bench log, ready for its papers."""

from datetime import datetime, timedelta
from typing import Any

import pytest

from shopapi.layouts import services as layout_services
from shopapi.layouts.models import Layout
from tests.conftest import BOARD, PICTURE_CORNERS, Person, work_on_photographs

FIRST_COAT = datetime.fromisoformat("2026-03-02T10:00:00+00:00")
AIR = {"temp_c": 20.0, "rh_pct": 50.0}


@pytest.fixture
def desk(maker: Person, picture_of_board: bytes) -> dict[str, Any]:
    """A desk for a client: a panel and some rails on two boards, one of them photographed and measured for moisture."""
    client = maker.make("clients", name="Rowan Ashdown")
    commission = maker.make(
        "commissions",
        title="Writing desk",
        piece="A desk in white oak.",
        client=client["id"],
        home_place="Northwick",
        home_rh_dry_pct=28,
        home_rh_damp_pct=52,
    )
    common = {"commission": commission["id"], "species": "white oak", "thickness_mm": 20}
    maker.make("parts", **common, name="Desk top", length_mm=800, width_mm=400, strip_count=4, show_faces="one")
    maker.make("parts", **common, name="Rail", length_mm=600, width_mm=80, quantity=2)
    board = maker.make("boards", tag="W10", source="Sawmill at Harrow Bridge", **BOARD)
    photographed = [board, maker.make("boards", tag="W2", **BOARD)]
    maker.make("boards", tag="W7", **BOARD)
    maker.make("readings", board=board["id"], mc_pct=8.2, read_on="2026-02-01")
    for each in photographed:
        _photograph(maker, each, picture_of_board)
    maker.make(
        "marks",
        board=board["id"],
        kind="knot",
        shape={"type": "ellipse", "cx_mm": 900, "cy_mm": 60, "rx_mm": 20, "ry_mm": 15},
    )
    return commission


def _photograph(maker: Person, board: dict, picture: bytes) -> None:
    from django.core.files.uploadedfile import SimpleUploadedFile

    photo = SimpleUploadedFile("face.jpg", picture, "image/jpeg")
    shot = maker.client.post("/api/shots/", {"board": board["id"], "face": "A", "photo": photo}, format="multipart")
    assert shot.status_code == 201, shot.content
    row = shot.json()
    squared = maker.client.patch(
        f"/api/shots/{row['id']}/",
        {"corners": PICTURE_CORNERS},
        format="json",
        headers={"If-Match": f'"{row["revision"]}"'},
    )
    assert squared.status_code == 200, squared.content
    work_on_photographs()
    assert maker.client.get(f"/api/shots/{row['id']}/").json()["state"] == "squared"


@pytest.fixture
def layout(maker: Person, desk: dict[str, Any]) -> Layout:
    made = maker.make("layouts", commission=desk["id"], seconds=3)
    found = layout_services.layout_work_out(layout=Layout.objects.get(pk=made["id"]))
    assert found.state == Layout.State.DONE
    assert found.unplaced == []
    return found


def finished(maker: Person, desk: dict[str, Any], *, leave_out_last: bool = False, **air: Any) -> list[dict[str, Any]]:
    """Every step of a shellac plan in the bench log, twelve hours apart; the last coat left out if asked."""
    plan = maker.make(
        "surface-plans", commission=desk["id"], finish_class="shellac", coats=2, start_grit=120, final_grit=220
    )
    steps = maker.client.get(f"/api/steps/?plan={plan['id']}&page_size=200").json()["results"]
    steps = [step for step in sorted(steps, key=lambda step: step["position"]) if step["kind"] != "cure"]
    last = max(step["position"] for step in steps if step["kind"] == "coat")
    entries = []
    for number, step in enumerate(steps):
        if leave_out_last and step["position"] == last:
            continue
        at = (FIRST_COAT + timedelta(hours=12 * number)).isoformat()
        entries.append(maker.make("bench-entries", step=step["id"], done_at=at, **(AIR | air)))
    return entries
