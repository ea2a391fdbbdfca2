"""Layouts on a phone: pieces moved by hand on the board, kept, solved again, compared, carried out."""

import json
import re
from collections.abc import Callable
from typing import Any
from uuid import uuid4

import pytest
from playwright.sync_api import Browser, Page, expect

from tests.e2e.conftest import Shop, new_phone
from tests.e2e.touch import Touch

BOARD = {"species": "white oak", "thickness_mm": 28, "place": "Wall", "status": "in_rack"}
PART = {"width_mm": 50, "thickness_mm": 20, "species": "white oak", "show_faces": "one"}
Row = dict[str, Any]


class Api:
    """The server itself, asked with the phone's session."""

    def __init__(self, phone: Page, shop: Shop) -> None:
        self.phone, self.url = phone, f"{shop.url}api/"

    def get(self, path: str) -> Any:
        return json.loads(self.phone.request.get(self.url + path).text())

    def send(self, method: str, path: str, /, **body: Any) -> Row:
        token = next(c["value"] for c in self.phone.context.cookies() if c["name"] == "csrftoken")
        headers = {"X-CSRFToken": token, "Referer": self.url}
        if method == "PATCH":
            headers["If-Match"] = f'"{self.get(path)["revision"]}"'
        answer = self.phone.request.fetch(self.url + path, method=method, data=body, headers=headers)
        assert answer.ok, answer.text()
        return answer.json()

    def make(self, kind: str, /, **fields: Any) -> Row:
        return self.send("POST", f"{kind}/", id=str(uuid4()), **fields)


@pytest.fixture(scope="module")
def known(browser: Browser, shop: Shop) -> list[Any]:
    """The way in opens once; its cookies are handed on to the phones of all tests here."""
    context = new_phone(browser)
    page = context.new_page()
    page.goto(shop.way_in)
    expect(page.get_by_role("heading", name="Bench")).to_be_visible()
    cookies = context.cookies()
    context.close()
    return cookies


@pytest.fixture
def api(phone: Page, shop: Shop, known: list[Any]) -> Api:
    phone.context.add_cookies(known)
    phone.goto(shop.url)
    expect(phone.get_by_role("heading", name="Bench")).to_be_visible()
    api = Api(phone, shop)
    api.send("PATCH", "workshop/", units="metric", kerf_mm=3, end_trim_mm=25)
    phone.reload()
    return api


def leg_at(board: Row, leg: Row, piece: int, x: int, y: int) -> Row:
    place = {"x_mm": x, "y_mm": y, "length_mm": 725, "width_mm": 56, "face": "A", "turned": False, "pinned": False}
    return {"board": board["id"], "part": leg["id"], "piece": piece, "strip": 0, **place}


@pytest.fixture
def laid(api: Api) -> dict[str, Row]:
    """Two legs laid on a board with a knot, a rail laid nowhere, and a bare board beside."""
    commission = api.make("commissions", title=f"Desk {uuid4().hex[:6]}", piece="A writing desk")
    leg = api.make("parts", commission=commission["id"], name="Leg", quantity=2, length_mm=700, **PART)
    rail = api.make("parts", commission=commission["id"], name="Rail", quantity=1, length_mm=500, **PART)
    tag = uuid4().hex[:4]
    board = api.make("boards", tag=f"W-{tag}", length_mm=2400, width_mm=180, **BOARD)
    other = api.make("boards", tag=f"X-{tag}", length_mm=1500, width_mm=150, **BOARD)
    knot = {"type": "ellipse", "cx_mm": 1000, "cy_mm": 90, "rx_mm": 20, "ry_mm": 15}
    api.make("marks", board=board["id"], face="A", kind="knot", through=True, shape=knot)
    layout = api.make(
        "layouts",
        commission=commission["id"],
        made="by_hand",
        boards=[board["id"], other["id"]],
        pinned=[leg_at(board, leg, 1, 25, 0), leg_at(board, leg, 2, 25, 60)],
    )
    assert layout["state"] == "done"
    return {"commission": commission, "leg": leg, "rail": rail, "board": board, "other": other, "layout": layout}


def open_layout(phone: Page, shop: Shop, laid: dict[str, Row]) -> None:
    phone.goto(f"{shop.url}#/commissions/{laid['commission']['id']}/layout/{laid['layout']['id']}")
    phone.reload()  # fetches what is new at once
    expect(phone.get_by_role("link", name="Work by hand")).to_be_visible(timeout=40_000)


class Stage:
    """The board on the table, by its own millimetres."""

    def __init__(self, phone: Page, width_mm: float) -> None:
        self.stage, self.width_mm = phone.get_by_test_id("table-stage"), width_mm
        expect(self.stage).to_have_attribute("data-x", re.compile(r"^-?\d"))

    def at(self, x_mm: float, y_mm: float) -> tuple[float, float]:
        box = self.stage.bounding_box()
        assert box
        scale, x, y = (float(self.stage.get_attribute(f"data-{name}") or "nan") for name in ("scale", "x", "y"))
        return box["x"] + x + x_mm * scale, box["y"] + y + (self.width_mm - y_mm) * scale


def wait_for(phone: Page, ask: Callable[[], Any]) -> Any:
    for _ in range(400):
        if found := ask():
            return found
        phone.wait_for_timeout(250)
    pytest.fail("it never came")


def newest(api: Api, laid: dict[str, Row]) -> Row | None:
    """The last layout that was based on this one, once it is done."""
    rows = [row for row in api.get("layouts/?page_size=200")["results"] if row["based_on"] == laid["layout"]["id"]]
    rows.sort(key=lambda row: row["created_at"])
    assert not rows or rows[-1]["state"] != "failed", rows[-1]["problem"]
    return rows[-1] if rows and rows[-1]["state"] == "done" else None


def test_pieces_are_moved_by_touch_kept_and_the_rest_solved_again(
    phone: Page, touch: Touch, shop: Shop, api: Api, laid: dict[str, Row]
) -> None:
    open_layout(phone, shop, laid)
    touch.tap(phone.get_by_role("link", name="Work by hand"))
    stage = Stage(phone, 180)
    dock = phone.get_by_role("dialog", name="Work on the layout by hand")

    # Choose a piece on the board, drag it over the knot: it says why not, and snaps to a legal place beside it.
    touch.tap_at(*stage.at(200, 88))
    expect(dock.get_by_text("Leg 2 of 2", exact=True).first).to_be_visible()
    start, end = stage.at(45, 88), stage.at(280, 88)
    touch.hold(start, end)
    expect(phone.get_by_test_id("held-words")).to_contain_text("Lies on a knot.")
    touch.release()
    expect(dock.get_by_text("from the butt end")).to_contain_text("249")
    expect(phone.get_by_test_id("against")).to_be_hidden()

    # Undo, nudge by a button, undo again: all without a gesture.
    touch.tap(phone.get_by_role("button", name="Undo"))
    expect(dock.get_by_text("25 mm", exact=False).first).to_be_attached()
    touch.tap(phone.get_by_role("button", name="Nudge towards the lower edge"))
    expect(phone.get_by_test_id("against")).to_be_hidden()
    touch.tap(phone.get_by_role("button", name="Nudge towards the lower edge"))
    expect(phone.get_by_test_id("against")).to_contain_text("Only 2 mm from Leg 1 of 2; the saw takes 3 mm.")
    touch.tap(phone.get_by_role("button", name="Keep this layout"))
    expect(phone.get_by_role("dialog", name="It cannot be cut like this")).to_be_visible()
    touch.tap(phone.get_by_role("button", name="Close"))
    touch.tap(phone.get_by_role("button", name="To the nearest place that works"))
    expect(phone.get_by_test_id("against")).to_be_hidden()
    touch.tap(phone.get_by_role("button", name="Turn end for end"))

    # A piece that was left over goes on the other board.
    touch.tap(phone.get_by_role("button", name="Rail", exact=True))
    touch.tap(phone.get_by_role("button", name="Put on a board"))
    touch.tap(phone.get_by_role("dialog").get_by_role("button", name=laid["other"]["tag"]))
    expect(phone.get_by_role("button", name=f"Boards: {laid['other']['tag']}")).to_be_visible()

    # The phone slept meanwhile: everything is as it was left.
    phone.reload()
    expect(phone.get_by_text("it is as you left it")).to_be_visible()
    expect(phone.get_by_text("Not on a board")).to_be_hidden()
    touch.tap(phone.get_by_role("button", name="Keep this layout"))
    kept = wait_for(phone, lambda: newest(api, laid))
    assert (kept["made"], len(kept["placements"]), kept["unplaced"]) == ("by_hand", 3, [])
    second = next(p for p in kept["placements"] if p["part"] == laid["leg"]["id"] and p["piece"] == 2)
    assert (second["turned"], second["pinned"]) == (True, True)
    assert second["y_mm"] >= 59
    rail = next(p for p in kept["placements"] if p["part"] == laid["rail"]["id"])
    assert rail["board"] == laid["other"]["id"]

    # Solve the rest again: what is pinned stays, the board kept out stays empty.
    laid["layout"] = kept
    open_layout(phone, shop, laid)
    touch.tap(phone.get_by_role("link", name="Work by hand"))
    touch.tap(phone.get_by_role("button", name="Leg 2 of 2"))
    expect(phone.get_by_role("button", name="Unpin")).to_be_visible()
    touch.tap(phone.get_by_role("button", name=f"Boards: {laid['board']['tag']}"))
    touch.tap(phone.get_by_role("switch", name=f"Keep {laid['other']['tag']} out"))
    touch.tap(phone.get_by_role("button", name="Close"))
    touch.tap(phone.get_by_role("button", name="Solve the rest again"))
    touch.tap(phone.get_by_role("radio", name="3 s"))
    touch.tap(phone.get_by_role("button", name="Solve the rest", exact=True))
    expect(phone.get_by_role("dialog").get_by_role("alert")).to_contain_text("Rail is pinned to")
    touch.tap(phone.get_by_role("button", name="Close"))
    touch.tap(phone.get_by_role("button", name="Next board"))
    touch.tap(phone.get_by_role("button", name="Rail", exact=True))
    touch.tap(phone.get_by_role("button", name="Unpin"))
    touch.tap(phone.get_by_role("button", name="Solve the rest again"))
    touch.tap(phone.get_by_role("button", name="Solve the rest", exact=True))
    solved = wait_for(phone, lambda: newest(api, laid))
    stays = next(p for p in solved["placements"] if p["part"] == laid["leg"]["id"] and p["piece"] == 2)
    assert (stays["x_mm"], stays["y_mm"], stays["pinned"]) == (second["x_mm"], second["y_mm"], True)
    assert {p["board"] for p in solved["placements"]} == {laid["board"]["id"]}
    assert len(solved["placements"]) == 3

    # What became different, on one screen.
    expect(phone.get_by_role("link", name="Work by hand")).to_be_visible(timeout=40_000)
    touch.tap(phone.get_by_role("link", name="Compare with another"))
    expect(phone.get_by_role("row", name="Boards cut")).to_contain_text("1")
    expect(
        phone.get_by_text(f"from {laid['other']['tag']} to {laid['board']['tag']}").or_(
            phone.get_by_text(f"from {laid['board']['tag']} to {laid['other']['tag']}")
        )
    ).to_be_visible()


def test_boards_are_sawn_as_laid_out_noted_and_made_whole_again(
    phone: Page, touch: Touch, shop: Shop, api: Api, laid: dict[str, Row]
) -> None:
    open_layout(phone, shop, laid)
    expect(phone.get_by_text("Smallest purchase:")).to_be_visible()
    assert phone.request.get(f"{shop.url}api/layouts/{laid['layout']['id']}/labels/").ok
    touch.tap(phone.get_by_role("radio", name="By part"))
    touch.tap(phone.get_by_role("button", name=f"Leg 1 of 2 {laid['board']['tag']}"))
    expect(phone.get_by_role("heading", name=laid["board"]["tag"])).to_be_visible()

    touch.tap(phone.get_by_role("button", name="Saw as laid out"))
    sheet = phone.get_by_role("dialog", name="Which boards were cut")
    expect(sheet.get_by_text("offcut", exact=False).first).to_be_visible()
    touch.tap(sheet.get_by_role("button", name="1 board cut"))
    expect(phone.get_by_text(f"{laid['board']['tag']} sawn")).to_be_visible(timeout=40_000)
    assert api.get(f"boards/{laid['board']['id']}/")["status"] == "used"
    assert api.get(f"parts/{laid['leg']['id']}/")["cut_count"] == 2

    # One leg split at the saw: the shop's waste is learned from it.
    touch.tap(phone.get_by_role("button", name="Note what came out"))
    touch.tap(phone.get_by_role("checkbox", name="Leg 2 of 2"))
    touch.tap(phone.get_by_role("button", name="Note it"))
    expect(phone.get_by_text("Noted what came out.")).to_be_visible()
    outcome = wait_for(phone, lambda: [o for o in api.get("outcomes/")["results"] if o["board"] == laid["board"]["id"]])
    assert outcome[0]["got_mm2"] == pytest.approx(725 * 56)
    expect(phone.get_by_role("heading", name="Waste in this shop")).to_be_visible(timeout=40_000)

    touch.tap(phone.get_by_role("button", name="Undo today's sawing"))
    touch.tap(phone.get_by_role("dialog").get_by_role("button", name="Undo", exact=True))
    expect(phone.get_by_role("button", name="Saw as laid out")).to_be_visible(timeout=40_000)
    assert api.get(f"boards/{laid['board']['id']}/")["status"] == "in_rack"
    assert api.get(f"parts/{laid['leg']['id']}/")["cut_count"] == 0


def test_several_legs_are_sawn_out_of_one_blank(
    phone: Page, touch: Touch, shop: Shop, api: Api, laid: dict[str, Row]
) -> None:
    leg, board = laid["leg"], laid["board"]
    phone.goto(f"{shop.url}#/commissions/{laid['commission']['id']}/parts/{leg['id']}")
    phone.reload()
    phone.wait_for_load_state("networkidle")  # the first answers of the shop draw the form once more
    touch.tap(phone.get_by_text("Several out of one blank"))
    expect(phone.get_by_label("Pieces out of one blank")).to_be_visible()
    phone.get_by_label("Pieces out of one blank").fill("2")
    touch.tap(phone.get_by_role("button", name="Save"))
    expect(phone.get_by_text("No length given")).to_have_count(2)
    phone.get_by_label("Blank length").fill("705")
    phone.get_by_label("Blank width").fill("80")
    touch.tap(phone.get_by_role("button", name="Save"))
    kept = wait_for(phone, lambda: [p for p in api.get("parts/")["results"] if p["blank_holds"] == 2])
    assert [(p["id"], p["blank_length_mm"], p["blank_width_mm"]) for p in kept] == [(leg["id"], 705, 80)]

    blank = {**leg_at(board, leg, 1, 25, 0), "length_mm": 730, "width_mm": 86}
    layout = api.make("layouts", commission=laid["commission"]["id"], made="by_hand", pinned=[blank])
    open_layout(phone, shop, {**laid, "layout": layout})
    touch.tap(phone.get_by_role("radio", name="By part"))
    expect(phone.get_by_role("button", name="Leg, blank 1 of 1 (2 pieces)")).to_be_visible()


def test_a_running_layout_tells_how_far_it_is_and_can_be_stopped(
    phone: Page, touch: Touch, shop: Shop, api: Api, laid: dict[str, Row]
) -> None:
    """Many parts on few boards, so that the best is not proved at once."""
    commission = laid["commission"]["id"]
    for number, length in enumerate((613, 487, 391, 353, 277, 251, 223, 199)):
        size = {"length_mm": length, "width_mm": 40 + 7 * number, "thickness_mm": 20, "species": "white oak"}
        api.make("parts", commission=commission, name=f"Slat {number}", quantity=5, show_faces="none", **size)
    for number in range(3):
        api.make("boards", tag=f"{laid['board']['tag']}{number}", length_mm=2300 + number, width_mm=210, **BOARD)
    layout = api.make("layouts", commission=commission, seconds=120)
    phone.goto(f"{shop.url}#/commissions/{commission}/layout/{layout['id']}")
    phone.reload()
    progress = phone.get_by_test_id("layout-progress")
    expect(progress).to_contain_text("Best so far", timeout=90_000)
    expect(progress).to_contain_text("Gap")

    # It can be left and come back to.
    touch.tap(phone.get_by_role("link", name="Parts", exact=True))
    touch.tap(phone.get_by_role("link", name="Layout", exact=True))
    touch.tap(phone.get_by_role("button", name="Stop, keep the best so far"))
    expect(phone.get_by_role("link", name="Work by hand")).to_be_visible(timeout=40_000)
    stopped = api.get(f"layouts/{layout['id']}/")
    assert stopped["state"] == "done"
    assert stopped["placements"]
