"""Two phones in one shop: a clash keeps both versions; a helper sees no money and no client."""

import re

from playwright.sync_api import Browser, Page, expect

from tests.e2e.conftest import Shop, new_phone
from tests.e2e.test_first_commission import fill
from tests.e2e.test_no_signal import ask
from tests.e2e.touch import Touch, place

_LINK = (
    "from shopapi.workshops.models import Member; from shopapi.workshops.services import link_create, member_create; "
    "owner = Member.objects.get(role='owner'); "
    "helper = Member.objects.filter(role='helper').first() "
    "or member_create(workshop=owner.workshop, name='Jo', username='jo'); "
)


def enter(browser: Browser, shop: Shop, who: str) -> tuple[Page, Touch]:
    secret = shop.manage("shell", "-v0", "-c", f"{_LINK} print(link_create(member={who}))").strip()
    page = new_phone(browser).new_page()
    page.goto(f"{shop.url}#/enter/{secret}")
    expect(page.get_by_role("heading", name="Bench")).to_be_visible()
    return page, Touch(page)


def open_board(page: Page, touch: Touch, tag: str) -> None:
    touch.tap(place(page, "Rack"))
    touch.tap(page.get_by_role("link").filter(has_text=tag).first)
    touch.tap(page.get_by_role("link", name="Edit"))


def test_clash_keeps_both_versions(browser: Browser, shop: Shop) -> None:
    mine, touch_mine = enter(browser, shop, "owner")
    touch_mine.tap(place(mine, "Rack"))
    touch_mine.tap(mine.get_by_role("link", name="Add a board"))
    fill(mine, touch_mine, Tag="TWO-1", Wood="white oak", Length="2 m", Width="200 mm", Thickness="28 mm")
    touch_mine.tap(mine.get_by_role("button", name="Add to the rack"))
    expect(mine.get_by_role("heading", name="TWO-1")).to_be_visible()
    theirs, touch_theirs = enter(browser, shop, "helper")
    open_board(theirs, touch_theirs, "TWO-1")

    open_board(mine, touch_mine, "TWO-1")
    mine.context.set_offline(True)
    fill(mine, touch_mine, Place_in_the_rack="Loft")
    touch_mine.tap(mine.get_by_role("button", name="Save"))
    fill(theirs, touch_theirs, Place_in_the_rack="Shed")
    touch_theirs.tap(theirs.get_by_role("button", name="Save"))
    expect(theirs.get_by_text("Shed")).to_be_visible()
    theirs.wait_for_timeout(1500)
    assert ask(theirs, shop, "boards/")["results"][-1]["place"] == "Shed"

    mine.context.set_offline(False)
    mine.goto(f"{shop.url}#/shop/waiting")
    expect(mine.get_by_text("Loft").first).to_be_visible(timeout=60_000)
    expect(mine.get_by_text("Shed").first).to_be_visible(timeout=60_000)
    touch_mine.tap(mine.get_by_role("button", name=re.compile("yours", re.IGNORECASE)).first)
    for _ in range(40):
        if ask(theirs, shop, "boards/")["results"][-1]["place"] == "Loft":
            break
        mine.wait_for_timeout(250)
    assert ask(theirs, shop, "boards/")["results"][-1]["place"] == "Loft"
    mine.context.close()
    theirs.context.close()


def test_helper_sees_no_money_and_no_client(browser: Browser, shop: Shop) -> None:
    owner, touch = enter(browser, shop, "owner")
    touch.tap(place(owner, "Commissions"))
    touch.tap(owner.get_by_role("link", name="New commission"))
    fill(owner, touch, Title="Secret desk", **{"Client's name": "C. Lient", "Phone": "555 0199", "Price (USD)": "4321"})
    touch.tap(owner.get_by_role("button", name="Start the commission"))
    expect(owner.get_by_role("heading", name="Secret desk")).to_be_visible()
    owner.wait_for_timeout(1500)
    helper, touch_helper = enter(browser, shop, "helper")
    touch_helper.tap(place(helper, "Commissions"))
    touch_helper.tap(helper.get_by_role("link").filter(has_text="Secret desk"))
    expect(helper.get_by_role("heading", name="Secret desk")).to_be_visible()
    words = helper.locator("body").inner_text()
    kept = helper.evaluate(
        """async () => {
            const names = (await indexedDB.databases()).map((one) => one.name);
            const texts = [];
            for (const name of names) {
                const db = await new Promise((done) => {
                    const ask = indexedDB.open(name);
                    ask.onsuccess = () => done(ask.result);
                });
                for (const store of db.objectStoreNames) {
                    const rows = await new Promise((done) => {
                        const ask = db.transaction(store).objectStore(store).getAll();
                        ask.onsuccess = () => done(ask.result);
                    });
                    texts.push(JSON.stringify(rows));
                }
            }
            return texts.join();
        }"""
    )
    assert "Secret desk" in kept
    for secret in ("555 0199", "4321"):
        assert secret not in words
        assert secret not in kept
    owner.context.close()
    helper.context.close()
