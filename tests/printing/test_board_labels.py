"""Board tags, read back: codes decoded from the page at the size they are printed, words within their label."""

from dataclasses import replace
from typing import Any

import cv2
import numpy as np
import pytest

from shopapi.craft.packet import SHEETS, BoardLabel, BoardLabelsData, LabelSheet, Measures, SheetError
from shopapi.printing.documents.labels import build_board_labels
from tests.printing.reading import Printed, printed
from tests.printing.test_part_labels import cells

ADDRESS = "http://192.0.2.121:8000/#/rack/1b4e28ba-2fa1-41d2-883f-0016d3cca{:03}"
LABEL = BoardLabel("W-14", "white oak", (2438.4, 203.2, 27), ADDRESS.format(0), 4, "F7")
# A phone's 12 megapixels over a hand's breadth of paper; a code that is missed is looked at once more, closer by.
LOOKS_DPI = (300, 400)


def data(count: int, sheet: LabelSheet, **changes: Any) -> BoardLabelsData:
    labels = tuple(replace(LABEL, tag=f"W-{n}", address=ADDRESS.format(n)) for n in range(count))
    return replace(BoardLabelsData("A workshop", labels, sheet, Measures("metric")), **changes)


def decoded(document: Printed, sheet: LabelSheet) -> dict[tuple[int, int, int], str]:
    """What the code of each label says, by page, row and column; each label is looked at alone."""
    found: dict[tuple[int, int, int], str] = {}
    for dpi in LOOKS_DPI:
        for number, page in enumerate(document.plumber.pages):
            picture = np.asarray(page.to_image(resolution=dpi).original.convert("L"))
            for place in range(sheet.count):
                at = (number, *divmod(place, sheet.columns))
                label = _label_in(picture, sheet, *at[1:], dpi)
                if label.min() < 128 and not found.get(at):
                    found[at] = cv2.QRCodeDetector().detectAndDecode(label)[0]
        if all(found.values()):
            break
    return found


def _label_in(picture: np.ndarray, sheet: LabelSheet, row: int, column: int, dpi: int) -> np.ndarray:
    left, top = sheet.left_mm + column * sheet.across_mm, sheet.top_mm + row * sheet.down_mm
    sides = (left, left + sheet.width_mm, top, top + sheet.height_mm)
    x0, x1, y0, y1 = (round(side * dpi / 25.4) for side in sides)
    return picture[y0:y1, x0:x1]


@pytest.mark.parametrize("key", SHEETS)
def test_every_code_opens_its_own_board(key: str) -> None:
    sheet = SHEETS[key]
    document = printed(build_board_labels, data(sheet.count + 2, sheet))
    codes = decoded(document, sheet)
    assert list(codes.values()) == [ADDRESS.format(n) for n in range(sheet.count + 2)]
    assert cells(document, sheet) == set(codes)


def test_used_labels_are_left_alone() -> None:
    sheet = SHEETS["a4-3x7"]
    codes = decoded(printed(build_board_labels, data(2, sheet, used=4)), sheet)
    assert codes == {(0, 1, 1): ADDRESS.format(0), (0, 1, 2): ADDRESS.format(1)}


def test_what_a_tag_says() -> None:
    document = printed(build_board_labels, data(1, SHEETS["letter-2x5"], measures=Measures("inch", 16)))
    for words in ("W-0", "white oak", '96" × 8"', "4/4", "F7"):
        assert words in document.text
    assert document.pypdf.metadata.title == "Board tags"


@pytest.mark.parametrize(
    "tag", ["A", "Upper rack, bay 12W", "Größe 7/中文", "WWWWWWWWWWWWWWWWWWWW", "W W W W W W W W W W"]
)
def test_every_tag_stays_on_its_label(tag: str) -> None:
    sheet = SHEETS["letter-3x10"]
    labels = (replace(LABEL, tag=tag, species="southern yellow pine, longleaf", quarters=None, flitch="F" * 60),)
    document = printed(build_board_labels, data(1, sheet, labels=labels))
    assert cells(document, sheet) == {(0, 0, 0)}


def test_a_long_tag_stands_on_two_lines_rather_than_small() -> None:
    labels = (replace(LABEL, tag="Upper rack bay 12"),)
    document = printed(build_board_labels, data(1, SHEETS["a4-3x7"], labels=labels))
    assert document.sizes_of(lambda word: word in {"Upper", "12"}) == [pytest.approx(15, abs=3)] * 2
    assert "Upper rack bay 12" in document.text


def test_a_label_too_small_for_a_code_is_refused() -> None:
    sheet = LabelSheet("a4", 4, 10, 40, 18, 10, 10, 45, 20)
    with pytest.raises(SheetError, match=r"too small to scan\. Take labels of at least 40 by 21 mm"):
        printed(build_board_labels, data(1, sheet))
