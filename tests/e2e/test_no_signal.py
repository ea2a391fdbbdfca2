"""No signal: the app opens from the phone, and what is photographed and marked arrives later, once."""

import time
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, Page, expect

from tests.e2e.board_photo import BoardPhoto, board_photo
from tests.e2e.conftest import Shop, close_shop, free_port, new_phone, open_shop
from tests.e2e.test_first_commission import fill, mark_knot, place_corners, wait_for
from tests.e2e.touch import Touch, place


@pytest.fixture(scope="module")
def photo() -> BoardPhoto:
    return board_photo()


def entered(browser: Browser, shop: Shop) -> tuple[Page, Touch]:
    """A signed-in phone whose app is installed: the worker has taken over."""
    page = new_phone(browser).new_page()
    page.goto(shop.way_in)
    expect(page.get_by_role("heading", name="Bench")).to_be_visible()
    page.evaluate("navigator.serviceWorker.ready.then(() => true)")
    page.wait_for_timeout(1500)
    page.goto(shop.url)
    expect(page.get_by_role("heading", name="Bench")).to_be_visible()
    return page, Touch(page)


def ask(page: Page, shop: Shop, path: str) -> Any:
    return page.request.get(f"{shop.url}api/{path}").json()


def test_board_is_photographed_and_marked_with_no_signal(
    browser: Browser, chromium: str, photo: BoardPhoto, tmp_path: Path
) -> None:
    port = free_port()
    shop = open_shop(tmp_path / "data", "--bare", port=port)
    page, touch = entered(browser, shop)
    errors: list[str] = []
    page.on("pageerror", lambda error: errors.append(str(error)))

    close_shop(shop)  # no server at all: as far away as a phone can be
    started = time.monotonic()
    page.goto(shop.url, wait_until="commit")
    expect(page.get_by_role("heading", name="Bench")).to_be_visible()
    seconds = time.monotonic() - started
    print(f"shown {seconds:.2f} s after it was opened, with no signal")  # read by people; machines differ

    touch.tap(place(page, "Rack"))
    touch.tap(page.get_by_role("link", name="Add a board"))
    fill(page, touch, Tag="OFF-1", Wood="white oak", Thickness="28 mm")
    fill(page, touch, Length=f"{photo.length_mm:g} mm", Width=f"{photo.width_mm:g} mm")
    touch.tap(page.get_by_role("button", name="Add to the rack"))
    page.get_by_label("Choose a picture of face A").set_input_files(
        {"name": "board.jpg", "mimeType": "image/jpeg", "buffer": photo.jpeg}
    )
    expect(page.get_by_test_id("corner-words")).to_be_visible()
    place_corners(page, touch, photo)
    touch.tap(page.get_by_role("button", name="Save"))
    touch.tap(page.get_by_role("link", name="Mark the wood"))
    mark_knot(page, touch, photo)
    page.screenshot(path=tmp_path / "marked.png")
    touch.tap(page.get_by_role("button", name="Next mark"))
    touch.tap(page.get_by_role("button", name="Done"))
    expect(page.get_by_role("heading", name="OFF-1")).to_be_visible()
    page.reload()  # the app was closed and opened again before there was a signal
    expect(page.get_by_role("heading", name="OFF-1")).to_be_visible()
    page.goto(f"{shop.url}#/shop/waiting")
    expect(page.get_by_text("OFF-1").first).to_be_visible()
    page.screenshot(path=tmp_path / "waiting.png")

    again = open_shop(tmp_path / "data", port=port)
    page.goto(f"{shop.url}#/rack")
    wait_for(page, lambda: ask(page, again, "marks/")["results"], 1)
    (board,) = ask(page, again, "boards/")["results"]
    (shot,) = wait_for(page, lambda: [s for s in ask(page, again, "shots/")["results"] if s["state"] == "squared"], 1)
    (mark,) = ask(page, again, "marks/")["results"]
    assert board["tag"] == "OFF-1"
    assert (shot["board"], mark["board"]) == (board["id"], board["id"])
    assert (mark["shape"]["cx_mm"], mark["shape"]["cy_mm"]) == pytest.approx(photo.knot_mm, abs=4)
    page.wait_for_timeout(1500)
    assert [len(ask(page, again, f"{kind}/")["results"]) for kind in ("boards", "shots", "marks")] == [1, 1, 1]
    page.goto(f"{shop.url}#/shop")
    expect(page.get_by_text("Everything has reached the shop")).to_be_visible()
    close_shop(again)
    assert not errors, errors
    page.context.close()


def test_reply_that_is_lost_does_not_double_the_write(browser: Browser, shop: Shop) -> None:
    """The server saves the board, but the phone never hears of it; it sends again and nothing is doubled."""
    page, touch = entered(browser, shop)
    lost: list[str] = []

    def lose(route: Any) -> None:
        if route.request.method == "POST" and not lost:
            route.fetch()
            lost.append(route.request.headers.get("idempotency-key", ""))
            route.abort()
        else:
            route.continue_()

    page.route("**/api/boards/", lose)
    touch.tap(place(page, "Rack"))
    touch.tap(page.get_by_role("link", name="Add a board"))
    fill(page, touch, Tag="LOST-1", Wood="white oak", Length="2 m", Width="200 mm", Thickness="28 mm")
    touch.tap(page.get_by_role("button", name="Add to the rack"))
    expect(page.get_by_role("heading", name="LOST-1")).to_be_visible()
    page.goto(f"{shop.url}#/shop")
    expect(page.get_by_text("Everything has reached the shop")).to_be_visible(timeout=60_000)
    assert lost
    assert lost[0]
    assert [board["tag"] for board in ask(page, shop, "boards/")["results"]].count("LOST-1") == 1
    page.context.close()
