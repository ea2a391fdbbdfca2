"""A real shop (web server and worker), and a real Chromium at phone size with touch."""

import os
import re
import shutil
import signal
import socket
import subprocess
import sys
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, sync_playwright

from tests.conftest import REPOSITORY
from tests.e2e.touch import Touch

CHROMIUM_OPTIONS = [
    "--no-sandbox",
    "--disable-gpu",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--no-first-run",
]
PHONE = {"viewport": {"width": 390, "height": 844}, "has_touch": True, "is_mobile": True, "device_scale_factor": 2}


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    for item in items:
        if "e2e" in item.path.parts:
            item.add_marker(pytest.mark.browser)


@pytest.fixture(scope="session")
def chromium() -> str:
    """The machine's Chromium. Without one these tests are skipped, unless REQUIRE_BROWSER=1."""
    for name in ("chromium", "chromium-browser", "google-chrome", "chrome"):
        if found := shutil.which(name):
            return found
    said = "no Chromium on this machine (Debian: apt install chromium), so the screens go untested"
    if os.environ.get("REQUIRE_BROWSER") == "1":
        pytest.fail(said)
    pytest.skip(said)


@pytest.fixture(scope="session")
def browser(chromium: str) -> Iterator[Browser]:
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=chromium, args=CHROMIUM_OPTIONS)
        yield browser
        browser.close()


@dataclass
class Shop:
    """A running shop: its address, a way in for one person, and the process."""

    url: str
    way_in: str
    process: subprocess.Popen[str]
    data: Path
    port: int

    def manage(self, *arguments: str) -> str:
        ran = subprocess.run(
            [sys.executable, str(REPOSITORY / "manage.py"), *arguments],
            env={**os.environ, "FLITCHBOOK_DATA": str(self.data)},
            capture_output=True,
            text=True,
            check=True,
        )
        return ran.stdout


def free_port() -> int:
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return probe.getsockname()[1]


def open_shop(data: Path, *arguments: str, port: int | None = None) -> Shop:
    port = port or free_port()
    process = subprocess.Popen(
        [
            sys.executable,
            str(REPOSITORY / "manage.py"),
            "open_shop",
            "--data",
            str(data),
            "--port",
            str(port),
            *arguments,
        ],
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        text=True,
        start_new_session=True,
    )
    said = []
    assert process.stdout is not None
    for line in process.stdout:
        said.append(line)
        if found := re.search(r"(http://localhost:\d+/)#/enter/(\S+)", line):
            url, way_in = found[1], found[0]
        if line.startswith("Ctrl-C"):
            return Shop(url=url, way_in=way_in, process=process, data=data, port=port)
    pytest.fail("the shop did not open:\n" + "".join(said))


def close_shop(shop: Shop) -> int:
    """Ctrl-C, and its exit code."""
    shop.process.send_signal(signal.SIGINT)
    return shop.process.wait(timeout=30)


@pytest.fixture(scope="module")
def shop(chromium: str, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Shop]:
    """An empty shop that opens for one test module."""
    shop = open_shop(tmp_path_factory.mktemp("shop"), "--bare")
    yield shop
    close_shop(shop)


@pytest.fixture(scope="module")
def demo_shop(chromium: str, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Shop]:
    """A shop with the demo in it."""
    shop = open_shop(tmp_path_factory.mktemp("demo-shop"))
    yield shop
    close_shop(shop)


def new_phone(browser: Browser) -> BrowserContext:
    context = browser.new_context(**PHONE)
    context.set_default_timeout(15_000)
    return context


@pytest.fixture
def phone(browser: Browser, request: pytest.FixtureRequest, tmp_path: Path) -> Iterator[Page]:
    """A page on a phone; what goes wrong in it fails the test, and a picture of its end is kept."""
    context = new_phone(browser)
    page = context.new_page()
    errors: list[str] = []
    page.on("pageerror", lambda error: errors.append(str(error)))
    yield page
    page.screenshot(path=tmp_path / "end.png")
    context.close()
    assert not errors, errors


@pytest.fixture
def touch(phone: Page) -> Touch:
    return Touch(phone)
