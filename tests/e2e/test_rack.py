"""The rack by touch: boards found by the clear wood they have, cut with no signal, and the cut undone."""

import json
import re
import uuid
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Page, expect

from tests.e2e.conftest import Shop
from tests.e2e.test_first_commission import save_pdf, wait_for
from tests.e2e.test_no_signal import ask
from tests.e2e.touch import Touch, place


def post(page: Page, shop: Shop, path: str, **fields: Any) -> dict[str, Any]:
    """A row made in the shop by other means than this phone's screens."""
    cookies = {cookie["name"]: cookie["value"] for cookie in page.context.cookies()}
    headers = {"X-CSRFToken": cookies["csrftoken"], "Content-Type": "application/json", "Referer": shop.url}
    data = json.dumps({"id": str(uuid.uuid4()), **fields})
    reply = page.request.post(f"{shop.url}api/{path}/", headers=headers, data=data)
    assert reply.ok, reply.text()
    return reply.json()


def board(page: Page, shop: Shop, tag: str, **fields: Any) -> dict[str, Any]:
    given = {"species": "white oak", "length_mm": 2400, "width_mm": 200, "thickness_mm": 27, "place": "Wall"}
    return post(page, shop, "boards", **{"tag": tag, **given, **fields})


def knot(page: Page, shop: Shop, board_id: str, x_mm: float, y_mm: float) -> dict[str, Any]:
    shape = {"type": "ellipse", "cx_mm": x_mm, "cy_mm": y_mm, "rx_mm": 15, "ry_mm": 12}
    return post(page, shop, "marks", board=board_id, face="A", kind="knot", through=True, blocks="all", shape=shape)


def named(page: Page, shop: Shop) -> dict[str, dict[str, Any]]:
    return {row["tag"]: row for row in ask(page, shop, "boards/")["results"]}


def tags_shown(page: Page) -> list[str]:
    return page.get_by_role("list", name="Boards").locator("strong.tag").all_inner_texts()


@pytest.fixture(scope="module")
def cookies() -> list[Any]:
    """The one-time link works once; later phones come with what it gave."""
    return []


@pytest.fixture
def at_the_rack(phone: Page, touch: Touch, shop: Shop, cookies: list[Any]) -> Page:
    phone.context.add_cookies(cookies)
    phone.goto(shop.url if cookies else shop.way_in)
    expect(phone.get_by_role("heading", name="Bench")).to_be_visible()
    cookies[:] = phone.context.cookies()
    touch.tap(place(phone, "Rack"))
    return phone


def test_board_is_found_by_the_clear_wood_it_has(at_the_rack: Page, touch: Touch, shop: Shop) -> None:
    page = at_the_rack
    knotty = board(page, shop, "W-2", flitch="F1")
    knot(page, shop, knotty["id"], 1200, 100)
    board(page, shop, "W-10", thickness_mm=52, place="Loft")
    board(page, shop, "M-1", species="hard maple", length_mm=1500)
    page.reload()
    expect(page.get_by_text("3 boards")).to_be_visible()
    assert tags_shown(page) == ["M-1", "W-2", "W-10"]

    touch.tap(page.get_by_role("button", name="Narrow down"))
    sheet = page.get_by_role("dialog", name="Narrow the rack down")
    sheet.get_by_label("Clear length needed").fill("1250 mm")
    sheet.get_by_label("Clear width needed").fill("150 mm")
    touch.tap(sheet.get_by_role("button", name="Show 2 boards"))
    expect(page.get_by_text("2 boards of 3")).to_be_visible()
    assert tags_shown(page) == ["M-1", "W-10"]

    field = page.get_by_label("Find a board")
    touch.tap(field)
    field.fill("oak loft")
    expect(page.get_by_text("1 board of 3")).to_be_visible()
    # A board is looked at, and the rack is found as it was left.
    touch.tap(page.get_by_role("list", name="Boards").get_by_role("link"))
    expect(page.get_by_role("heading", name="W-10")).to_be_visible()
    touch.tap(page.get_by_role("link", name="Back"))
    expect(page.get_by_text("1 board of 3")).to_be_visible()
    field.fill("oak")
    touch.tap(page.get_by_role("button", name='Leave out: 49 3/16" × 5 7/8" clear'))
    assert tags_shown(page) == ["W-2", "W-10"]
    page.get_by_label("Sorted by").select_option(label="Thickest first")
    expect(page.get_by_role("list", name="Boards").get_by_role("link").first).to_contain_text("W-10")
    field.fill("no such wood")
    expect(page.get_by_text("No board fits all of that.")).to_be_visible()
    touch.tap(page.get_by_role("button", name="Show the whole rack"))
    expect(page.get_by_text("3 boards")).to_be_visible()


def test_wood_for_a_part_is_asked_by_its_rough_size(at_the_rack: Page, touch: Touch, shop: Shop) -> None:
    page = at_the_rack
    desk = post(page, shop, "commissions", title="Writing desk", piece="desk")
    sizes = {"length_mm": 1500, "width_mm": 120, "thickness_mm": 20}
    post(page, shop, "parts", commission=desk["id"], name="Front rail", species="ash", quantity=1, **sizes)
    board(page, shop, "P-1", species="ash", length_mm=1500, thickness_mm=40)
    board(page, shop, "P-2", species="ash", thickness_mm=40)
    board(page, shop, "P-3", species="ash", thickness_mm=21)
    page.reload()
    touch.tap(page.get_by_role("button", name="Narrow down"))
    sheet = page.get_by_role("dialog", name="Narrow the rack down")
    sheet.get_by_label("Wood for a part").select_option(label="Front rail, Writing desk")
    touch.tap(sheet.get_by_role("button", name="Show 1 board"))
    expect(page.get_by_role("list", name="Boards").get_by_role("link")).to_have_count(1)
    assert tags_shown(page) == ["P-2"]


def test_board_is_cut_with_no_signal_and_made_whole_again(at_the_rack: Page, touch: Touch, shop: Shop) -> None:
    page = at_the_rack
    whole = board(page, shop, "C-1")
    knot(page, shop, whole["id"], 300, 100)
    post(page, shop, "readings", board=whole["id"], mc_pct=8.5, read_on="2027-01-05", meter="Pin meter")
    page.reload()
    touch.tap(page.get_by_role("link", name="C-1"))
    touch.tap(page.get_by_role("link", name="Cut this board"))
    expect(page.get_by_role("heading", name="Cut C-1")).to_be_visible()
    page.context.set_offline(True)

    # By finger on the drawing, then to the very mark of the tape.
    box = page.get_by_test_id("cut-whole").bounding_box()
    assert box
    middle = box["y"] + box["height"] / 2
    touch.drag((box["x"] + box["width"] / 2, middle), (box["x"] + box["width"] / 4, middle))
    page.wait_for_timeout(1000)  # a tap right after so quick a flick only stops it
    measured = page.get_by_label("From the butt end")
    assert 600 - 60 < 25.4 * inches(measured.input_value()) < 600 + 60
    measured.fill("600 mm")
    expect(page.get_by_label("Tag of the butt-end piece")).to_have_value("C-1A")
    page.get_by_label("Tag of the far-end piece").fill("C-9")
    touch.tap(page.get_by_role("button", name="Saw it"))
    expect(page.get_by_role("heading", name="Cut into")).to_be_visible()
    touch.tap(page.get_by_role("link", name="C-1A"))
    expect(page.get_by_text("Its marks and pictures come over once the cut has reached the shop.")).to_be_visible()

    page.context.set_offline(False)
    wait_for(page, lambda: [tag for tag in named(page, shop) if tag in {"C-1A", "C-9"}], 2)
    boards = named(page, shop)
    assert boards["C-1"]["status"] == "used"
    assert (boards["C-1A"]["length_mm"], boards["C-1A"]["parent"]) == (600, whole["id"])
    assert boards["C-9"]["origin_x_mm"] == pytest.approx(603.2)
    expect(page.get_by_text("1 mark")).to_be_visible()
    expect(page.get_by_text("8.5 %", exact=True)).to_be_visible()

    # Nothing was done to the pieces, so the board can be made whole.
    page.goto(f"{shop.url}#/rack/{whole['id']}")
    touch.tap(page.get_by_role("button", name="Undo the cut"))
    wait_for(page, lambda: [tag for tag in named(page, shop) if tag.startswith("C-")], 1)
    expect(page.get_by_role("link", name="Cut this board")).to_be_visible()
    assert named(page, shop)["C-1"]["status"] == "in_rack"


def test_cut_stays_once_a_piece_was_worked_on(at_the_rack: Page, touch: Touch, shop: Shop) -> None:
    page = at_the_rack
    whole = board(page, shop, "R-1")
    page.reload()
    page.goto(f"{shop.url}#/rack/{whole['id']}/cut")
    touch.tap(page.get_by_text("Along the grain"))
    page.get_by_label("From the lower edge").fill("80 mm")
    touch.tap(page.get_by_role("button", name="Saw it"))
    expect(page.get_by_role("heading", name="Cut into")).to_be_visible()
    wait_for(page, lambda: [tag for tag in named(page, shop) if tag.startswith("R-1")], 3)
    pieces = named(page, shop)
    assert (pieces["R-1A"]["width_mm"], pieces["R-1B"]["width_mm"]) == pytest.approx((80, 116.8))
    knot(page, shop, pieces["R-1B"]["id"], 100, 50)
    touch.tap(page.get_by_role("button", name="Undo the cut"))
    expect(page.get_by_text("R-1B was worked on since").first).to_be_visible()
    touch.tap(page.get_by_role("button", name="Leave it cut"))
    expect(page.get_by_role("link", name="R-1A")).to_be_visible()
    assert sorted(tag for tag in named(page, shop) if tag.startswith("R-1")) == ["R-1", "R-1A", "R-1B"]


def test_reading_tells_how_many_days_yet(at_the_rack: Page, touch: Touch, shop: Shop) -> None:
    page = at_the_rack
    post(page, shop, "commissions", title="Hall bench", piece="bench", home_rh_dry_pct=30, home_rh_damp_pct=50)
    wet = board(page, shop, "D-1", species="black walnut")
    page.reload()
    page.goto(f"{shop.url}#/rack/{wet['id']}")
    expect(page.get_by_text("A reading tells whether the wood may be worked yet.")).to_be_visible()
    page.context.set_offline(True)
    touch.tap(page.get_by_role("button", name="Add a reading"))
    sheet = page.get_by_role("dialog", name="Moisture reading")
    expect(sheet.get_by_label("Where it stood")).to_have_value("Wall")
    sheet.get_by_label("Moisture").fill("14")
    sheet.get_by_label("Temperature of the wood").fill("68")
    sheet.get_by_label("Meter").fill("Pin meter")
    touch.tap(sheet.get_by_role("button", name="Keep it"))
    expect(page.get_by_text("Pin meter, Wall, at 68 \u00b0F")).to_be_visible()
    expect(page.get_by_text("as soon as there is a signal")).to_be_visible()

    page.context.set_offline(False)
    wait_for(page, lambda: [row for row in ask(page, shop, "readings/")["results"] if row["board"] == wet["id"]], 1)
    page.get_by_label("Dry enough for").select_option(label="Hall bench")
    expect(page.locator("strong").filter(has_text=re.compile("^[0-9]+ days yet$"))).to_be_visible()
    expect(page.get_by_role("img", name=re.compile("^Reading 14.* %, wanted"))).to_be_visible()
    # What the shop said is known without it.
    page.context.set_offline(True)
    touch.tap(page.get_by_role("link", name="Back"))
    page.goto(f"{shop.url}#/rack/{wet['id']}")
    expect(page.locator("strong").filter(has_text=re.compile("^[0-9]+ days yet$"))).to_be_visible()
    page.context.set_offline(False)


def test_wood_is_bought_with_no_signal(at_the_rack: Page, touch: Touch, shop: Shop) -> None:
    page = at_the_rack
    case = post(page, shop, "commissions", title="Bookcase", piece="bookcase")
    sizes = {"length_mm": 900, "width_mm": 250, "thickness_mm": 20}
    post(page, shop, "parts", commission=case["id"], name="Shelf", species="red oak", quantity=4, **sizes)
    page.reload()
    touch.tap(page.get_by_role("link", name="At the dealer"))
    touch.tap(page.get_by_role("link", name="Start a buying trip"))
    page.context.set_offline(True)
    page.get_by_label("For the commission").select_option(label="Bookcase")
    page.get_by_label("Dealer").fill("Old Sawpit Mill")
    touch.tap(page.get_by_role("button", name="Start the trip"))
    need = page.get_by_role("list", name="Wood still needed").get_by_role("listitem")
    expect(need).to_have_count(1)
    expect(need).to_contain_text("red oak")
    before = still_needed(page)

    touch.tap(page.get_by_role("link", name="Add a board seen"))
    page.get_by_label("Length").fill("96")
    page.get_by_label("Width").fill("8 1/2")
    page.get_by_label(re.compile(r"^Price \(")).fill("47.60")
    page.get_by_label("Tag").fill("B-1")
    touch.tap(page.get_by_role("button", name="Add to the boards seen"))
    adds = page.get_by_text(re.compile("^Adds "))
    expect(adds).to_contain_text(f"of the {before} bf missing")
    touch.tap(page.get_by_role("button", name="Bought B-1: put it into the rack"))
    expect(page.get_by_text("47.60 USD for 1 board")).to_be_visible()
    # 96 by 8 1/2 inches of 4/4 are 5.7 board feet.
    assert before - still_needed(page) == pytest.approx(5.7, abs=0.11)
    touch.tap(page.get_by_role("link", name="In the rack"))
    expect(page.get_by_role("heading", name="B-1")).to_be_visible()

    page.context.set_offline(False)
    wait_for(page, lambda: [row for row in ask(page, shop, "offers/")["results"] if row["bought"]], 1)
    bought = named(page, shop)["B-1"]
    assert (bought["source"], bought["price"], bought["species"]) == ("Old Sawpit Mill", "47.60", "red oak")
    assert ask(page, shop, "offers/")["results"][0]["board"] == bought["id"]
    page.goto(f"{shop.url}#/commissions/{case['id']}/parts")
    touch.tap(page.get_by_role("link", name="Wood still to buy"))
    expect(page.get_by_role("heading", name="Old Sawpit Mill")).to_be_visible()


def test_tags_are_printed_and_open_their_boards(at_the_rack: Page, touch: Touch, shop: Shop, tmp_path: Path) -> None:
    page = at_the_rack
    made = [board(page, shop, f"T-{number}") for number in (1, 2, 3)]
    page.reload()
    touch.tap(page.get_by_role("link", name="Scan a tag"))
    # This browser reads no codes, so the tag is written.
    expect(page.get_by_text("Or write the tag.")).to_be_visible()
    page.context.set_offline(True)
    page.get_by_label("Tag").fill("t-9")
    touch.tap(page.get_by_role("button", name="Open the board"))
    expect(page.get_by_text("No board in the rack carries t-9.")).to_be_visible()
    page.get_by_label("Tag").fill("t-2")
    touch.tap(page.get_by_role("button", name="Open the board"))
    expect(page.get_by_role("heading", name="T-2")).to_be_visible()
    page.context.set_offline(False)

    touch.tap(page.get_by_role("link", name="Print its tag"))
    page.get_by_label("Find a board").fill("T-")
    expect(page.get_by_role("checkbox", name="T-2")).to_be_checked()
    touch.tap(page.get_by_role("button", name="All 3"))
    page.get_by_label("First label still on the sheet").select_option(label="4")
    link = page.get_by_role("link", name="Print 3 tags (PDF)").get_attribute("href")
    assert link
    assert link.endswith("&start=4")
    assert [row["id"] for row in made] == link.split("boards=")[1].split("&")[0].split(",")
    text = save_pdf(page, f"{shop.url}{link.lstrip('/')}", tmp_path / "tags.pdf")
    assert all(f"T-{number}" in text for number in (1, 2, 3))

    # A sheet nobody thought of, by its measures.
    touch.tap(page.get_by_role("button", name="Measure another sheet"))
    sheet = page.get_by_role("dialog", name="Measures of a label sheet")
    sheet.get_by_label("Labels across").fill("9")
    touch.tap(sheet.get_by_role("button", name="Use these measures"))
    expect(sheet.get_by_text("the paper has").first).to_be_visible()
    sheet.get_by_label("Labels across").fill("2")
    touch.tap(sheet.get_by_role("button", name="Use these measures"))
    expect(sheet).to_be_hidden()
    expect(page.get_by_label("Sheet of labels")).to_have_value("own")
    link = page.get_by_role("link", name="Print 3 tags (PDF)").get_attribute("href")
    assert link
    assert "columns=2" in link
    save_pdf(page, f"{shop.url}{link.lstrip('/')}", tmp_path / "own.pdf")


def still_needed(page: Page) -> float:
    amount = page.get_by_role("list", name="Wood still needed").locator(".amount").inner_text()
    return float(amount.removesuffix(" bf"))


def test_clear_wood_is_told_with_no_signal(at_the_rack: Page, touch: Touch, shop: Shop) -> None:
    page = at_the_rack
    knotty = board(page, shop, "K-1")
    knot(page, shop, knotty["id"], 800, 100)
    page.reload()
    touch.tap(page.get_by_role("link", name="K-1"))
    expect(page.get_by_text("1 mark")).to_be_visible()
    page.context.set_offline(True)
    touch.tap(page.get_by_role("button", name="Show clear wood and grade"))
    # Beyond the knot: 2400 - 815 mm of 200 mm.
    areas = page.get_by_role("list", name="Largest clear areas").get_by_role("listitem")
    expect(areas.first).to_contain_text("from the butt end")
    expect(page.get_by_text("99 % of face A is clear")).to_be_visible()
    drawn = page.get_by_role("img", name="Clear areas of K-1, face A")
    expect(page.get_by_text("The shop's computer grades the board as soon as there is a signal.")).to_be_visible()
    expect(drawn.locator(".placement title").first).to_have_text("1: 62 3/8\u2033 \u00d7 7 7/8\u2033")
    page.context.set_offline(False)

    # With a signal the shop grades it, and its answer stays on the phone.
    touch.tap(page.get_by_role("link", name="Back"))
    touch.tap(page.get_by_role("link", name="K-1"))
    touch.tap(page.get_by_role("button", name="Show clear wood and grade"))
    answer = ask(page, shop, f"boards/{knotty['id']}/clear/")
    expect(page.get_by_text(f"{answer['grade']}, decided by face A")).to_be_visible()
    page.context.set_offline(True)
    page.goto(f"{shop.url}#/rack")
    touch.tap(page.get_by_role("link", name="K-1"))
    touch.tap(page.get_by_role("button", name="Show clear wood and grade"))
    expect(page.get_by_text(f"{answer['grade']}, decided by face A")).to_be_visible()
    touch.tap(page.get_by_role("radio", name="Cuttings of the grade"))
    cuttings = page.get_by_role("list", name="Cuttings of the grade").get_by_role("listitem")
    expect(cuttings).to_have_count(len(answer["cuttings"]))
    page.context.set_offline(False)


def inches(written: str) -> float:
    whole, _, fraction = written.partition(" ")
    if "/" in whole:
        whole, fraction = "0", whole
    top, _, bottom = fraction.partition("/")
    return float(whole) + (float(top) / float(bottom) if bottom else 0)
