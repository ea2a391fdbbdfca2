"""A first commission, from the client's message to the printed packet, by touch on a phone."""

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Page, expect
from pypdf import PdfReader

from tests.e2e.board_photo import BoardPhoto, board_photo
from tests.e2e.conftest import Shop
from tests.e2e.touch import Touch, place


@pytest.fixture(scope="module")
def photo() -> BoardPhoto:
    return board_photo()


@pytest.fixture
def api(phone: Page, shop: Shop) -> Callable[[str], Any]:
    """What the server itself holds, asked with the phone's session."""
    return lambda path: json.loads(phone.request.get(f"{shop.url}api/{path}").text())


def fill(phone: Page, touch: Touch, **fields: str) -> None:
    for label, text in fields.items():
        field = phone.get_by_label(label.replace("_", " "), exact=True)
        touch.tap(field)
        field.fill(text)


def place_corners(phone: Page, touch: Touch, photo: BoardPhoto) -> None:
    """Presses each corner where it is seen on the whole photograph."""
    phone.wait_for_timeout(800)
    stage = phone.get_by_test_id("photo-stage").bounding_box()
    assert stage
    margin = 16
    scale = min((stage["width"] - 2 * margin) / photo.size_px[0], (stage["height"] - 2 * margin) / photo.size_px[1])
    left = stage["x"] + (stage["width"] - photo.size_px[0] * scale) / 2
    top = stage["y"] + (stage["height"] - photo.size_px[1] * scale) / 2
    for x, y in photo.corners_px:
        touch.press_at(left + x * scale, top + y * scale)


def test_from_first_message_to_packet(
    phone: Page, touch: Touch, shop: Shop, photo: BoardPhoto, api: Callable[[str], Any], tmp_path: Path
) -> None:
    # Sign in by the one-time link.
    phone.goto(shop.way_in)
    expect(phone.get_by_role("heading", name="Bench")).to_be_visible()

    # The commission and its client.
    touch.tap(place(phone, "Commissions"))
    touch.tap(phone.get_by_role("link", name="New commission"))
    fill(
        phone,
        touch,
        Title="Hall bench",
        Piece="A bench for a hallway",
        Where_it_will_stand="A town with cold winters",
        **{"Client's name": "A. Client", "Phone": "555 0100"},
    )
    touch.tap(phone.get_by_role("button", name="Start the commission"))
    expect(phone.get_by_role("heading", name="Hall bench")).to_be_visible()

    # Its parts, sizes as people write them; one is a panel of strips.
    for name, quantity, length, width, thickness, strips in (
        ("Seat", "1", "2'", '9"', "3/4", "3"),
        ("Rail", "2", "15 1/2", "50 mm", "3/4", "1"),
    ):
        touch.tap(phone.get_by_role("link", name="Add a part"))
        fill(phone, touch, Name=name, Length=length, Width=width, Thickness=thickness, Wood="white oak")
        fill(phone, touch, How_many=quantity, Strips=strips)
        touch.tap(phone.get_by_role("button", name="Add the part"))
        expect(phone.get_by_role("link", name=name)).to_be_visible()
    seat, rail = sorted(
        wait_for(phone, lambda: api("parts/")["results"], 2), key=lambda part: part["name"], reverse=True
    )
    assert (seat["length_mm"], seat["width_mm"], seat["strip_count"]) == pytest.approx((609.6, 228.6, 3))
    assert (rail["length_mm"], rail["width_mm"]) == pytest.approx((393.7, 50.0))

    # A board, photographed, squared up and marked.
    touch.tap(place(phone, "Rack"))
    touch.tap(phone.get_by_role("link", name="Add a board"))
    fill(phone, touch, Tag="W-1", Wood="white oak", Place_in_the_rack="Wall")
    fill(phone, touch, Length=f"{photo.length_mm:g} mm", Width=f"{photo.width_mm:g} mm", Thickness="28 mm")
    touch.tap(phone.get_by_role("button", name="Add to the rack"))
    expect(phone.get_by_role("heading", name="W-1")).to_be_visible()
    phone.get_by_label("Choose a picture of face A").set_input_files(
        {"name": "board.jpg", "mimeType": "image/jpeg", "buffer": photo.jpeg}
    )
    expect(phone.get_by_test_id("corner-words")).to_be_visible()
    place_corners(phone, touch, photo)
    expect(phone.get_by_test_id("corner-slip")).to_be_visible()
    phone.screenshot(path=tmp_path / "corners.png")
    touch.tap(phone.get_by_role("button", name="Save"))
    expect(phone.get_by_role("heading", name="W-1")).to_be_visible()
    (shot,) = wait_for(phone, lambda: [s for s in api("shots/")["results"] if s["state"] == "squared"], 1)
    # A fingertip on a whole photograph is good to about two screen pixels; nudging makes it exact.
    screen_px = photo.size_px[0] / 358
    for placed, true in zip(shot["corners"], photo.corners_px, strict=True):
        assert placed == pytest.approx(true, abs=3 * screen_px)
    assert shot["residual_mm"] < 0.01

    touch.tap(phone.get_by_role("link", name="Mark the wood"))
    mark_knot(phone, touch, photo)
    phone.screenshot(path=tmp_path / "marks.png")
    touch.tap(phone.get_by_role("button", name="Next mark"))
    touch.tap(phone.get_by_role("button", name="Done"))
    (mark,) = wait_for(phone, lambda: api("marks/")["results"], 1)
    assert (mark["kind"], mark["face"]) == ("knot", "A")
    assert (mark["shape"]["cx_mm"], mark["shape"]["cy_mm"]) == pytest.approx(photo.knot_mm, abs=4)

    # The layout: every piece on clear wood.
    open_tab(phone, touch, "Layout")
    touch.tap(
        phone.get_by_role("button", name="Lay out the parts").or_(phone.get_by_role("button", name="Lay out")).first
    )
    touch.tap(phone.get_by_role("dialog").get_by_role("button", name="Lay out", exact=True))
    expect(phone.get_by_role("link", name="Breakdown sheets (PDF)")).to_be_visible(timeout=60_000)
    layout = api("layouts/")["results"][-1]
    assert (layout["state"], layout["unplaced"]) == ("done", [])
    assert len(layout["placements"]) == 5
    assert all(off_the_knot(placed, mark["shape"]) for placed in layout["placements"])
    phone.screenshot(path=tmp_path / "layout.png")
    sheets = save_pdf(phone, f"{shop.url}api/layouts/{layout['id']}/breakdown/", tmp_path / "breakdown.pdf")
    assert "W-1" in sheets

    # The surface plan, and its first steps at the bench.
    open_tab(phone, touch, "Surface")
    touch.tap(phone.get_by_role("button", name="Make a surface plan"))
    touch.tap(phone.get_by_role("button", name="Write out the steps"))
    expect(phone.get_by_role("button", name="Change steps")).to_be_visible()
    wait_for(phone, lambda: api("steps/?page_size=200")["results"], 8, at_least=True)
    touch.tap(place(phone, "Bench"))
    steps = sorted(api("steps/?page_size=200")["results"], key=lambda step: step["position"])
    coat = next(index for index, step in enumerate(steps) if step["kind"] == "coat")
    for step in steps[: coat + 1]:
        tick(phone, touch, step["title"])
    wait_for(phone, lambda: api("bench-entries/")["results"], coat + 1)
    waiting = next(step for step in steps[coat + 1 :] if step["wait_hours"] > 0)
    expect(phone.get_by_text("Dry enough").first).to_be_visible()
    touch.tap(phone.get_by_role("button", name="Done earlier all the same").first)
    phone.screenshot(path=tmp_path / "early.png")
    touch.tap(phone.get_by_role("button", name="Done, not dry"))
    phone.wait_for_timeout(700)
    assert len(api("bench-entries/")["results"]) == coat + 1, "a coat that is not dry was ticked without a reason"
    fill(phone, touch, Why_earlier="Test piece was hard")
    touch.tap(phone.get_by_role("button", name="Done, not dry"))
    entries = wait_for(phone, lambda: api("bench-entries/")["results"], coat + 2)
    early = next(entry for entry in entries if entry["step"] == waiting["id"])
    assert early["early_reason"] == "Test piece was hard"

    # The packet.
    open_tab(phone, touch, "Packet")
    touch.tap(phone.get_by_role("button", name="Make the packet"))
    expect(phone.get_by_role("link", name="Open the packet (PDF)")).to_be_visible(timeout=60_000)
    packet = api("packets/")["results"][-1]
    text = save_pdf(phone, f"{shop.url}api/packets/{packet['id']}/file/", tmp_path / "packet.pdf")
    for words in ("Hall bench", "A. Client", "W-1", "How it moves with the seasons", "Test piece was hard"):
        assert words in text, words


def mark_knot(phone: Page, touch: Touch, photo: BoardPhoto) -> None:
    """Draws an ellipse across the knot; the stage says how board millimetres lie on the screen."""
    touch.tap(phone.get_by_test_id("kind-knot"))
    x, y = photo.knot_mm
    stage = phone.get_by_test_id("mark-stage")
    for _ in range(30):
        box = stage.bounding_box()
        assert box
        scale = float(stage.get_attribute("data-scale") or "nan")
        at_x = box["x"] + float(stage.get_attribute("data-x") or "nan") + x * scale
        if box["x"] + 40 < at_x < box["x"] + box["width"] - 40:
            break
        touch.tap(phone.get_by_role("button", name="Stretch towards the far end"))
        phone.wait_for_timeout(150)
    at_y = box["y"] + float(stage.get_attribute("data-y") or "nan") - y * scale
    touch.drag((at_x - 24, at_y - 24), (at_x + 24, at_y + 24))
    expect(phone.get_by_test_id("mark-panel")).to_be_visible()


def off_the_knot(placed: dict[str, Any], shape: dict[str, float]) -> bool:
    return (
        placed["x_mm"] >= shape["cx_mm"] + shape["rx_mm"]
        or placed["x_mm"] + placed["length_mm"] <= shape["cx_mm"] - shape["rx_mm"]
        or placed["y_mm"] >= shape["cy_mm"] + shape["ry_mm"]
        or placed["y_mm"] + placed["width_mm"] <= shape["cy_mm"] - shape["ry_mm"]
    )


def open_tab(phone: Page, touch: Touch, name: str) -> None:
    touch.tap(place(phone, "Commissions"))
    touch.tap(phone.get_by_role("link", name="Hall bench"))
    touch.tap(phone.get_by_role("link", name=name, exact=True))


def tick(phone: Page, touch: Touch, title: str) -> None:
    card = phone.get_by_role("article").filter(has_text=title).first
    touch.tap(card.get_by_role("button", name="Done"))
    sheet = phone.get_by_role("dialog")
    touch.tap(sheet.get_by_role("button", name="Done", exact=True))
    expect(sheet).to_be_hidden()


def save_pdf(phone: Page, address: str, file: Path) -> str:
    answer = phone.request.get(address)
    assert answer.headers["content-type"] == "application/pdf"
    file.write_bytes(answer.body())
    return " ".join(" ".join(page.extract_text() for page in PdfReader(file).pages).split())


def wait_for(phone: Page, ask: Callable[[], list[Any]], count: int, *, at_least: bool = False) -> list[Any]:
    """Rows reach the server when the outbox has sent them."""
    rows: list[Any] = []
    for _ in range(60):
        rows = ask()
        if len(rows) == count or (at_least and len(rows) >= count):
            return rows
        phone.wait_for_timeout(250)
    pytest.fail(f"{len(rows)} rows reached the server instead of {count}")
