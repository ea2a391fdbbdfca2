"""Shots of a face: corners that were found, two stretches that make one face; with and without a signal."""

import io
import json
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from PIL import Image
from playwright.sync_api import Browser, Error, Page, expect

from shopapi.craft.marks import bounds, parse_shape
from shopapi.demo.sawn import draw_board, photograph
from tests.craft.rectify.shots import Seen, dotted, shoot
from tests.e2e.conftest import Shop, new_phone
from tests.e2e.test_first_commission import fill, wait_for
from tests.e2e.touch import Touch

LENGTH, WIDTH = 2400.0, 180.0
SIZE_PX = (1600, 1200)


@pytest.fixture(scope="module")
def entered(browser: Browser, shop: Shop) -> Iterator[Page]:
    """One phone that signed in; the way in is good once."""
    context = new_phone(browser)
    page = context.new_page()
    page.goto(shop.way_in)
    expect(page.get_by_role("heading", name="Bench")).to_be_visible()
    yield page
    context.close()


@pytest.fixture
def phone(entered: Page, tmp_path: Path) -> Iterator[Page]:
    errors: list[str] = []

    def note(error: Error) -> None:
        errors.append(str(error))

    entered.on("pageerror", note)
    yield entered
    entered.screenshot(path=tmp_path / "end.png")
    entered.remove_listener("pageerror", note)
    assert not errors, errors


@pytest.fixture
def api(phone: Page, shop: Shop) -> Callable[[str], Any]:
    return lambda path: json.loads(phone.request.get(f"{shop.url}api/{path}").text())


def add_board(page: Page, touch: Touch, tag: str) -> None:
    page.goto(f"{page.url.split('#')[0]}#/rack")
    touch.tap(page.get_by_role("link", name="Add a board"))
    fill(page, touch, Tag=tag, Wood="white oak", Length=f"{LENGTH:g} mm", Width=f"{WIDTH:g} mm", Thickness="28 mm")
    touch.tap(page.get_by_role("button", name="Add to the rack"))
    expect(page.get_by_role("heading", name=tag)).to_be_visible()


def give_photo(page: Page, rgb: np.ndarray) -> None:
    out = io.BytesIO()
    Image.fromarray(rgb).save(out, "JPEG", quality=92)
    page.get_by_label("Choose a picture of face A").set_input_files(
        {"name": "board.jpg", "mimeType": "image/jpeg", "buffer": out.getvalue()}
    )
    expect(page.get_by_test_id("corner-words")).to_be_visible()


def press_points(page: Page, touch: Touch, points_px: np.ndarray) -> None:
    """Presses each point where it is seen on the whole photograph."""
    page.wait_for_timeout(600)
    box = page.get_by_test_id("photo-stage").bounding_box()
    assert box
    scale = min((box["width"] - 32) / SIZE_PX[0], (box["height"] - 32) / SIZE_PX[1])
    left = box["x"] + (box["width"] - SIZE_PX[0] * scale) / 2
    top = box["y"] + (box["height"] - SIZE_PX[1] * scale) / 2
    for x, y in points_px:
        touch.press_at(left + x * scale, top + y * scale)


def show_stretch(page: Page, touch: Touch, x0: float, x1: float) -> None:
    touch.tap(page.get_by_test_id("stretch"))
    fill(page, touch, From_the_butt_end=f"{x0:g} mm", To=f"{x1:g} mm")
    touch.tap(page.get_by_role("button", name="Use these distances"))
    touch.tap(page.get_by_role("button", name="Back to the photograph"))


def ends_of(x0: float, x1: float) -> np.ndarray:
    return np.array([(x0, 0.0), (x1, 0.0), (x1, WIDTH), (x0, WIDTH)])


def place_stretch(page: Page, touch: Touch, seen: Seen, x0: float, x1: float) -> None:
    show_stretch(page, touch, x0, x1)
    press_points(page, touch, seen.see(ends_of(x0, x1)))


def two_shots() -> list[tuple[Seen, float, float]]:
    face = dotted(LENGTH, WIDTH, 0.8, np.random.default_rng(3), [(600, 60), (1800, 120)])
    rng = np.random.default_rng(4)
    return [(shoot(face, LENGTH, WIDTH, x0, x1, rng, size=SIZE_PX), x0, x1) for x0, x1 in ((0, 1300), (1100, 2400))]


def test_corners_that_were_found_only_want_a_look(
    phone: Page, touch: Touch, api: Callable[[str], Any], tmp_path: Path
) -> None:
    add_board(phone, touch, "FOUND-1")
    taken = photograph(draw_board(31, "white oak", LENGTH, WIDTH, mm_per_px=1.0), "A", 7, size=SIZE_PX)
    give_photo(phone, taken.image)
    expect(phone.get_by_test_id("corners-found")).to_contain_text("Corners found", timeout=30_000)
    phone.screenshot(path=tmp_path / "found.png")
    touch.tap(phone.get_by_role("button", name="Save"))
    expect(phone.get_by_role("heading", name="FOUND-1")).to_be_visible()
    (shot,) = wait_for(phone, lambda: [s for s in api("shots/")["results"] if s["state"] == "squared"], 1)
    assert shot["corners"] == [pytest.approx(corner, abs=3) for corner in taken.corners_px.tolist()]


def test_a_photograph_of_something_else_is_left_to_the_maker(phone: Page, touch: Touch) -> None:
    add_board(phone, touch, "NONE-1")
    noise = np.random.default_rng(1).integers(90, 150, (SIZE_PX[1], SIZE_PX[0], 3), np.uint8)
    give_photo(phone, noise)
    expect(phone.get_by_test_id("corners-found")).to_contain_text("No board's outline was found", timeout=30_000)
    press_points(phone, touch, np.array([(200, 700), (1400, 700), (1400, 600), (200, 600)]))
    expect(phone.get_by_role("button", name="Save")).to_be_enabled()


def test_two_stretches_make_one_face(phone: Page, touch: Touch, api: Callable[[str], Any], tmp_path: Path) -> None:
    add_board(phone, touch, "TWO-1")
    for number, (seen, x0, x1) in enumerate(two_shots()):
        give_photo(phone, seen.image[:, :, ::-1])
        place_stretch(phone, touch, seen, x0, x1)
        phone.screenshot(path=tmp_path / f"stretch-{number}.png")
        touch.tap(phone.get_by_role("button", name="Save"))
        expect(phone.get_by_role("heading", name="TWO-1")).to_be_visible()
        expect(phone.get_by_test_id("stretches")).to_contain_text("Overlap" if number else "is not photographed")
    board = next(row for row in api("boards/")["results"] if row["tag"] == "TWO-1")
    squared = wait_for(
        phone, lambda: [s for s in api(f"shots/?board={board['id']}")["results"] if s["state"] == "squared"], 2
    )
    assert sorted((shot["x0_mm"], shot["x1_mm"]) for shot in squared) == [
        (pytest.approx(0, abs=2), pytest.approx(1300, abs=2)),
        (pytest.approx(1100, abs=2), pytest.approx(2400, abs=2)),
    ]
    phone.wait_for_timeout(1500)
    phone.screenshot(path=tmp_path / "face.png", full_page=True)


def test_a_fifth_and_sixth_point_tell_of_a_distance_misread(phone: Page, touch: Touch) -> None:
    add_board(phone, touch, "POINTS-1")
    seen, x0, x1 = two_shots()[0]
    give_photo(phone, seen.image[:, :, ::-1])
    place_stretch(phone, touch, seen, x0, x1)
    expect(phone.get_by_test_id("points-fit")).to_contain_text("a fifth would check them")
    for edge, y in (("Lower edge", 0.0), ("Upper edge", WIDTH)):
        touch.tap(phone.get_by_test_id("stretch"))
        fill(phone, touch, Tick_at="800 mm")
        touch.tap(phone.get_by_role("button", name=edge, exact=True))
        touch.tap(phone.get_by_role("button", name="Add point"))
        press_points(phone, touch, seen.see(np.array([(700.0, y)])))  # ticked at 700, read as 800
    expect(phone.get_by_test_id("point-off")).to_be_visible()
    touch.tap(phone.get_by_test_id("stretch"))
    for point in (5, 6):
        field = phone.get_by_label(f"Distance of point {point}")
        field.fill("700 mm")
        field.blur()
    touch.tap(phone.get_by_role("button", name="Back to the photograph"))
    expect(phone.get_by_test_id("point-off")).to_have_count(0)
    touch.tap(phone.get_by_role("button", name="Save"))
    expect(phone.get_by_role("heading", name="POINTS-1")).to_be_visible()


def test_two_stretches_with_no_signal_are_one_face_at_once(
    phone: Page, touch: Touch, api: Callable[[str], Any], tmp_path: Path
) -> None:
    add_board(phone, touch, "FAR-1")
    phone.context.set_offline(True)
    for seen, x0, x1 in two_shots():
        give_photo(phone, seen.image[:, :, ::-1])
        place_stretch(phone, touch, seen, x0, x1)
        touch.tap(phone.get_by_role("button", name="Save"))
        expect(phone.get_by_role("heading", name="FAR-1")).to_be_visible()
    expect(phone.get_by_test_id("stretches")).to_contain_text("Overlap")
    expect(phone.get_by_test_id("shot-work").first).to_contain_text("Kept on this device")
    # The face is put together on the phone: its picture shows wood from end to end.
    picture = phone.get_by_test_id("board-drawing").first.locator("image")
    expect(picture).to_have_count(1)
    phone.screenshot(path=tmp_path / "no-signal.png")
    draw_move_and_undo(phone, touch)
    phone.context.set_offline(False)
    board = next(row for row in api("boards/")["results"] if row["tag"] == "FAR-1")
    wait_for(phone, lambda: [s for s in api(f"shots/?board={board['id']}")["results"] if s["state"] == "squared"], 2)
    (mark,) = wait_for(phone, lambda: api(f"marks/?board={board['id']}")["results"], 1)
    assert mark["kind"] == "knot"
    # Opened again, the mark is where it was left.
    touch.tap(phone.get_by_role("link", name="Mark the wood"))
    expect(phone.get_by_label("Face A with 1 marks")).to_be_visible()
    touch.tap(phone.get_by_role("button", name="List of marks"))
    expect(phone.get_by_test_id("mark-row")).to_have_count(1)
    touch.tap(phone.get_by_role("button", name="Back to the board"))
    touch.tap(phone.get_by_role("button", name="Done"))


def draw_move_and_undo(phone: Page, touch: Touch) -> None:
    """Draws a knot, moves it, takes the move back, does it again; leaves the editor."""
    touch.tap(phone.get_by_role("link", name="Mark the wood"))
    stage = phone.get_by_test_id("mark-stage")
    expect(stage).to_be_visible()
    phone.wait_for_timeout(500)
    box = stage.bounding_box()
    assert box
    x, y = box["x"] + box["width"] / 2, box["y"] + box["height"] / 2
    touch.tap(phone.get_by_test_id("kind-knot"))
    touch.drag((x - 30, y - 20), (x + 30, y + 20))
    expect(phone.get_by_test_id("mark-panel")).to_be_visible()
    touch.drag((x, y), (x + 50, y))
    touch.tap(phone.get_by_role("button", name="Undo"))
    expect(phone.get_by_role("button", name="Redo")).to_be_enabled()
    touch.tap(phone.get_by_role("button", name="Redo"))
    touch.tap(phone.get_by_role("button", name="Next mark"))
    touch.tap(phone.get_by_role("button", name="Done"))
    expect(phone.get_by_role("link", name="Mark the wood")).to_be_visible()


def middle_mm(shape: dict[str, Any]) -> float:
    around = bounds(parse_shape(shape))
    return (around.x0_mm + around.x1_mm) / 2


def test_suggestions_are_accepted_dismissed_and_undone(
    phone: Page, touch: Touch, api: Callable[[str], Any], tmp_path: Path
) -> None:
    add_board(phone, touch, "HINT-1")
    drawn = draw_board(31, "sugar maple", LENGTH, WIDTH, knots=3, mm_per_px=0.7)
    taken = photograph(drawn, "A", 7, size=(3200, 2400))
    give_photo(phone, taken.image)
    expect(phone.get_by_test_id("corners-found")).to_contain_text("Corners found", timeout=30_000)
    touch.tap(phone.get_by_role("button", name="Save"))
    board = next(row for row in api("boards/")["results"] if row["tag"] == "HINT-1")
    (face,) = wait_for(
        phone, lambda: [f for f in api(f"face-pictures/?board={board['id']}")["results"] if f["suggestions"]], 1
    )
    count = len(face["suggestions"])
    touch.tap(phone.get_by_role("link", name=f"Mark the wood, {count} suggested"))
    expect(phone.get_by_test_id("suggestion-panel")).to_contain_text(f"{count} suggested")
    phone.wait_for_timeout(800)
    phone.screenshot(path=tmp_path / "suggested.png")
    assert api(f"marks/?board={board['id']}")["results"] == []

    touch.tap(phone.get_by_role("button", name="Next suggestion"))
    expect(phone.get_by_test_id("suggestion-panel")).to_contain_text(f"1 of {count}")
    phone.wait_for_timeout(500)
    phone.screenshot(path=tmp_path / "considered.png")
    touch.tap(phone.get_by_role("button", name="Accept", exact=True))
    (mark,) = wait_for(phone, lambda: api(f"marks/?board={board['id']}")["results"], 1)
    assert mark["kind"] == min(face["suggestions"], key=lambda each: middle_mm(each["shape"]))["kind"]
    if count > 1:
        touch.tap(phone.get_by_role("button", name="All", exact=True))
        touch.tap(phone.get_by_role("button", name="Dismiss all"))
        expect(phone.get_by_test_id("suggestion-panel")).to_have_count(0)
        touch.tap(phone.get_by_role("button", name="Undo"))
        expect(phone.get_by_test_id("suggestion-panel")).to_be_visible()
        touch.tap(phone.get_by_role("button", name="Redo"))
        expect(phone.get_by_test_id("suggestion-panel")).to_have_count(0)
    phone.wait_for_timeout(500)
    phone.screenshot(path=tmp_path / "answered.png")
    wait_for(phone, lambda: api(f"face-pictures/{face['id']}/")["dismissed"], count)
    assert len(api(f"marks/?board={board['id']}")["results"]) == 1
    touch.tap(phone.get_by_role("button", name="Done"))
