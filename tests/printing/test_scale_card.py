"""The sheet of scale cards, measured in the file and read back as a camera would."""

from io import BytesIO

import cv2
import numpy as np
import pytest

from shopapi.craft import rectify
from shopapi.printing.documents.scale_card import build_scale_cards
from tests.printing.reading import PT_PER_MM, Printed


@pytest.fixture(params=["letter", "a4"])
def sheet(request):
    out = BytesIO()
    assert build_scale_cards(out, request.param) == 1
    return Printed(out.getvalue())


def test_it_measures_what_it_says(sheet):
    """Markers of 60 mm, cards of 84 mm, a ruler of 100 mm, all inside the page's printable part."""
    page = sheet.plumber.pages[0]
    squares = [round(rect["width"] / PT_PER_MM, 2) for rect in page.rects if abs(rect["height"] - rect["width"]) < 0.01]
    assert squares.count(60.0) == 2
    assert squares.count(84.0) == 2
    assert any(abs(line["width"] / PT_PER_MM - 100) < 0.01 and line["height"] == 0 for line in page.lines)
    rim = 6 * PT_PER_MM
    assert all(rim < rect["x0"] and rect["x1"] < float(page.width) - rim for rect in page.rects)
    assert all(rim < rect["top"] and rect["bottom"] < float(page.height) - rim for rect in page.rects)


def test_it_says_how_it_is_used(sheet):
    assert "Print at full size" in sheet.text
    assert "100 mm when printed at full size" in sheet.text
    assert "one near each end" in sheet.text
    assert sheet.pypdf.metadata.title == "Scale cards"


def test_the_printed_markers_are_found_at_their_size(sheet):
    dpi = 150
    picture = np.asarray(sheet.plumber.pages[0].to_image(resolution=dpi).original.convert("RGB"))
    page = np.ascontiguousarray(picture[:, :, ::-1])
    # As a camera sees the page from aside, with a little blur.
    height, width = page.shape[:2]
    corners = np.array([[0, 0], [width, 0], [width, height], [0, height]], np.float32)
    seen = np.array([[90, 60], [1150, 0], [1280, 1500], [0, 1620]], np.float32)
    view = cv2.GaussianBlur(
        cv2.warpPerspective(page, cv2.getPerspectiveTransform(corners, seen), (1300, 1650)), (0, 0), 1.2
    )
    cards = rectify.find_cards(view)
    assert cards is not None
    assert cards.corners_px is None
    to_page = cv2.getPerspectiveTransform(seen, corners)
    middles_mm = [cv2.perspectiveTransform(card[None], to_page)[0].mean(axis=0) / dpi * 25.4 for card in cards.cards_px]
    apart = float(np.hypot(*(middles_mm[1] - middles_mm[0])))
    assert apart == pytest.approx(88, abs=0.2)
    places = rectify.apply_homography(cards.homography, [card.mean(axis=0) for card in cards.cards_px])
    assert float(np.hypot(*(places[1] - places[0]))) == pytest.approx(apart, abs=0.4)
