"""The rack with 10,000 boards in a phone-sized Chromium slowed down four times: how long it takes to open, whether it
scrolls without hitches, how long a search takes. Run by hand: python -m tests.benchmarks.bench_rack_scroll
"""

import json
import os
import re
import shutil
import sys
import tempfile
from pathlib import Path
from typing import Any

import django
from playwright.sync_api import Page, sync_playwright

os.environ.setdefault("DJANGO_SETTINGS_MODULE", "shopapi.settings")  # the browser tests' own set-up asks for it
django.setup()

from tests.e2e.conftest import CHROMIUM_OPTIONS, close_shop, new_phone, open_shop  # noqa: E402 - needs the set-up

BOARDS = 10_000
SLOWDOWN = 4
FILL = """async ([count]) => {
  const [{ name }] = (await indexedDB.databases()).filter((one) => one.name.startsWith('flitchbook-'));
  const db = await new Promise((done, fail) => {
    const asked = indexedDB.open(name);
    asked.onsuccess = () => done(asked.result);
    asked.onerror = () => fail(asked.error);
  });
  const random = (() => { let s = 7; return () => (s = (s * 16807) % 2147483647) / 2147483647; })();
  const woods = ['white oak', 'hard maple', 'black walnut', 'black cherry', 'Douglas-fir, interior north'];
  const hex = (n, digits) => n.toString(16).padStart(digits, '0');
  const id = (kind, n) => `${hex(Math.floor(random() * 2 ** 32), 8)}-${hex(kind, 4)}-4000-8000-${hex(n, 12)}`;
  const change = db.transaction(['board', 'mark', 'reading'], 'readwrite');
  const common = { revision: 1, created_at: '2027-01-01T08:00:00Z', updated_at: '2027-01-01T08:00:00Z' };
  let marks = 0;
  for (let n = 0; n < count; n += 1) {
    const board = id(1, n);
    const length_mm = 900 + random() * 3200, width_mm = 90 + random() * 260;
    change.objectStore('board').put({
      ...common, id: board, tag: `${'WMBCD'[n % 5]}-${n}`, species: woods[n % 5], length_mm, width_mm,
      thickness_mm: 25.4 + (n % 4) * 6.35, thickness_quarters: 4 + (n % 4), price: null, source: 'A mill',
      place: `Bay ${n % 40}, shelf ${n % 7}`, flitch: `F${n % 900}`, notes: '', status: 'in_rack',
    });
    change.objectStore('reading').put({
      ...common, id: id(2, n), board, mc_pct: 6 + (n % 80) / 10, read_on: '2027-01-01', meter: '', note: '',
    });
    for (let m = Math.floor(random() * 7); m > 0; m -= 1, marks += 1) {
      const [cx_mm, cy_mm] = [random() * length_mm, random() * width_mm];
      change.objectStore('mark').put({
        ...common, id: id(3, marks), board, face: 'A', kind: 'knot', through: true, blocks: 'all', note: '',
        shape: { type: 'ellipse', cx_mm, cy_mm, rx_mm: 15, ry_mm: 12 },
      });
    }
  }
  await new Promise((done) => (change.oncomplete = done));
  db.close();
  return { boards: count, marks };
}"""
WATCH = """() => {
  window.watched = { frames: [], tasks: [] };
  const observer = new PerformanceObserver((list) => {
    for (const one of list.getEntries()) watched.tasks.push(Math.round(one.duration));
  });
  observer.observe({ entryTypes: ['longtask'] });
  let last = performance.now();
  const tick = (now) => { watched.frames.push(now - last); last = now; requestAnimationFrame(tick); };
  requestAnimationFrame(tick);
}"""


def start_watching(page: Page) -> None:
    page.evaluate("() => { watched.frames.length = 0; watched.tasks.length = 0; }")


def report(page: Page, name: str) -> dict[str, Any]:
    seen = page.evaluate("() => ({ frames: watched.frames.slice(1), tasks: watched.tasks })")
    frames = sorted(seen["frames"])
    told = {
        "what": name,
        "frames": len(frames),
        "median_ms": round(frames[len(frames) // 2], 1),
        "p99_ms": round(frames[int(len(frames) * 0.99)], 1),
        "longest_ms": round(frames[-1], 1),
        "tasks_over_50_ms": sorted(seen["tasks"], reverse=True)[:8],
    }
    print(json.dumps(told))
    return told


def main() -> None:
    chromium = next(found for name in ("chromium", "google-chrome", "chrome") if (found := shutil.which(name)))
    data = Path(tempfile.mkdtemp())
    shop = open_shop(data / "shop", "--bare")
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=chromium, args=CHROMIUM_OPTIONS)
        page = new_phone(browser).new_page()
        page.goto(shop.way_in)
        page.get_by_role("heading", name="Bench").wait_for()
        print(json.dumps(page.evaluate(FILL, [BOARDS])), file=sys.stderr)
        page.reload()
        page.get_by_role("heading", name="Bench").wait_for()
        page.wait_for_timeout(1500)
        devtools = page.context.new_cdp_session(page)
        devtools.send("Emulation.setCPUThrottlingRate", {"rate": SLOWDOWN})
        page.evaluate(WATCH)

        start_watching(page)
        opened = page.evaluate("() => performance.now()")
        page.evaluate("() => { location.hash = '/rack'; }")
        page.get_by_role("list", name="Boards").get_by_role("listitem").first.wait_for()
        print(json.dumps({"opened_ms": round(page.evaluate("() => performance.now()") - opened)}))
        report(page, "opening, everything read from the device")

        page.wait_for_timeout(500)
        start_watching(page)
        for _ in range(12):
            devtools.send(
                "Input.synthesizeScrollGesture",
                {"x": 195, "y": 500, "yDistance": -1500, "speed": 2500, "gestureSourceType": "touch"},
            )
        report(page, "flings of 1500 px at 2500 px/s")
        start_watching(page)
        page.evaluate(
            "() => new Promise((done) => { let n = 0; const step = () => { scrollBy(0, 900); "
            "if (++n < 240) requestAnimationFrame(step); else done(); }; step(); })"
        )
        report(page, "a whole screen more in every frame")

        field = page.get_by_label("Find a board")
        start_watching(page)
        field.press_sequentially("oak shelf 3", delay=90)
        page.wait_for_timeout(400)
        report(page, "typing a search")
        page.get_by_role("button", name="Narrow down").tap()
        page.get_by_label("Clear length needed").fill("1200 mm")
        page.get_by_label("Clear width needed").fill("150 mm")
        start_watching(page)
        page.get_by_role("button", name=re.compile("Show [0-9]+")).tap()
        page.wait_for_timeout(600)
        report(page, "clear 1200 x 150 wanted")
        print(page.get_by_text("boards of").inner_text())
        start_watching(page)
        page.get_by_label("Sorted by").select_option("longest")
        page.wait_for_timeout(400)
        report(page, "sorted by length")
        page.screenshot(path=data / "rack.png")
        print(data / "rack.png", file=sys.stderr)
        browser.close()
    close_shop(shop)


if __name__ == "__main__":
    main()
