"""Workings by touch: worked out in the shop's units, kept with a part, and at hand with no signal."""

import re
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, Page, expect

from shopapi.craft.measures import format_length
from tests.e2e.conftest import close_shop, free_port, open_shop
from tests.e2e.test_first_commission import fill, wait_for
from tests.e2e.test_no_signal import ask, entered
from tests.e2e.touch import Touch, place

# Table 13-5 of the Wood Handbook: 0.00365 a point; 6 to 11 % on 400.05 mm, with shank and play.
SLOT_MM = 400.05 * 0.00365 * 5 + 25.4 * (3 / 16 + 1 / 16)
SLOT = format_length(SLOT_MM, "inch", 64)


def open_working(page: Page, touch: Touch, search: str, title: str) -> None:
    touch.tap(place(page, "Shop"))
    touch.tap(page.get_by_role("link", name="Workings"))
    field = page.get_by_label("Find a working")
    touch.tap(field)
    field.fill(search)
    touch.tap(page.get_by_role("link", name=title))
    expect(page.get_by_role("heading", name=title)).to_be_visible()


def work_out(page: Page, touch: Touch) -> None:
    touch.tap(page.get_by_role("button", name="Work it out"))


def keep(page: Page, touch: Touch, button: str, name: str, part: str = "") -> None:
    touch.tap(page.get_by_role("button", name=button))
    sheet = page.get_by_role("dialog", name="Keep it with")
    sheet.get_by_label("Commission").select_option(label="Hall bench")
    if part:
        sheet.get_by_label("Part").select_option(label=part)
    sheet.get_by_label("Name").fill(name)
    touch.tap(sheet.get_by_role("button", name="Keep", exact=True))
    expect(sheet).to_be_hidden()


def main_mm(row: dict[str, Any]) -> float:
    return next(line["value"] for line in row["answer"]["lines"] if line["main"])


def test_slot_is_worked_out_kept_and_there_with_no_signal(browser: Browser, chromium: str, tmp_path: Path) -> None:
    port = free_port()
    shop = open_shop(tmp_path / "data", "--bare", port=port)
    page, touch = entered(browser, shop)
    errors: list[str] = []
    page.on("pageerror", lambda error: errors.append(str(error)))

    touch.tap(place(page, "Commissions"))
    touch.tap(page.get_by_role("link", name="New commission"))
    fill(page, touch, Title="Hall bench")
    touch.tap(page.get_by_role("button", name="Start the commission"))
    touch.tap(page.get_by_role("link", name="Add a part"))
    fill(page, touch, Name="Seat", Length="4'", Width="15 3/4", Thickness="3/4", Wood="white oak", How_many="1")
    touch.tap(page.get_by_role("button", name="Add the part"))

    # Worked out by the shop, in inches, with all that belongs beside it.
    open_working(page, touch, "slot", "Slot for a screw or bolt")
    fill(page, touch, Wood="wight oak", From_where_it_is_fixed="15 3/4")
    work_out(page, touch)
    expect(page.get_by_text('"wight oak" is not in the table of woods')).to_be_visible()
    fill(page, touch, Wood="white oak", **{"Ring angle (degrees)": "95"})
    work_out(page, touch)
    expect(page.get_by_text("At most 90 degrees.")).to_be_visible()
    fill(page, touch, **{"Ring angle (degrees)": "0"})
    work_out(page, touch)
    answer = page.get_by_role("region", name="Answer")
    expect(answer).to_contain_text(SLOT)
    expect(answer).not_to_contain_text("From before")
    expect(answer.get_by_role("list", name="Cautions")).to_contain_text("single boards differ by 15 to 20 %")
    for word in ("Formula", "Wood handbook", "Holds for", "fibre saturation"):
        expect(answer).to_contain_text(word)
    page.screenshot(path=tmp_path / "answer.png")

    # Kept with a part of the commission, with its inputs.
    keep(page, touch, "Keep with a commission or part", "Slots under the seat", "Seat")
    (row,) = wait_for(page, lambda: ask(page, shop, "workings/")["results"], 1)
    (part,) = ask(page, shop, "parts/")["results"]
    assert (row["title"], row["part"], row["inputs"]["species"]) == ("Slots under the seat", part["id"], "white oak")
    assert main_mm(row) == pytest.approx(SLOT_MM)

    # What the shop refuses is said at its field, in the shop's words.
    open_working(page, touch, "taper", "Taper of a leg")
    fill(page, touch, Length_of_the_taper="20", Thick_where_it_starts="1", Thick_at_the_end="1 3/4")
    work_out(page, touch)
    expect(page.get_by_text("A taper gets thinner").first).to_be_visible()

    close_shop(shop)  # no server at all
    page.goto(shop.url, wait_until="commit")
    expect(page.get_by_role("heading", name="Bench")).to_be_visible()
    open_working(page, touch, "slot", "Slot for a screw or bolt")
    expect(answer).to_contain_text("From before: worked out")
    expect(answer).to_contain_text(SLOT)
    work_out(page, touch)  # the same numbers: answered from the device
    expect(answer).to_contain_text("From before: worked out")
    fill(page, touch, From_where_it_is_fixed="10")
    work_out(page, touch)
    expect(page.get_by_text("these numbers were not worked out before")).to_be_visible()
    expect(answer).to_contain_text("For other numbers")
    page.screenshot(path=tmp_path / "no_signal.png")
    keep(page, touch, "Keep these numbers, the answer follows", "Slots nearer in")
    touch.tap(place(page, "Commissions"))
    touch.tap(page.get_by_role("link", name="Hall bench"))
    kept = page.get_by_role("listitem").filter(has_text="Slots nearer in")
    expect(kept).to_contain_text("Worked out when it reaches the shop")
    page.screenshot(path=tmp_path / "kept.png")

    again = open_shop(tmp_path / "data", port=port)
    page.reload()
    rows = wait_for(page, lambda: ask(page, again, "workings/")["results"], 2)
    assert main_mm(rows[1]) == pytest.approx(254 * 0.00365 * 5 + 25.4 / 4)
    expect(kept).to_contain_text(re.compile(r"Slot, across the grain\s+\d+/\d+"))
    touch.tap(kept.get_by_text("Slots nearer in"))
    expect(kept).to_contain_text("From where it is fixed")
    touch.tap(kept.get_by_role("link", name="Start from these numbers"))
    expect(page.get_by_label("From where it is fixed")).to_have_value("10")
    close_shop(again)
    assert not errors, errors
    page.context.close()
