"""Part labels, read back: every word within its own label, labels where the measures say."""

from dataclasses import replace

import pytest

from shopapi.craft.packet import USUAL_SHEETS, LabelsData, LabelSheet, Measures, PartLabel, SheetError
from shopapi.printing.documents.part_labels import build_part_labels
from tests.printing.reading import PT_PER_MM, Printed, printed

LABEL = PartLabel("Drawer front, left", "2 of 4", "W7", (625, 86), (600, 80, 20), "face B shows")


def data(count: int, sheet: LabelSheet, **changes: object) -> LabelsData:
    labels = tuple(replace(LABEL, which=f"{n} of {count}") for n in range(1, count + 1))
    return replace(LabelsData("A workshop", "Writing desk", labels, sheet, Measures("metric")), **changes)


def cells(document: Printed, sheet: LabelSheet) -> set[tuple[int, int, int]]:
    """Page, row and column of each label that has words; fails where a letter lies in no label."""
    found = set()
    for number, page in enumerate(document.plumber.pages):
        for letter in page.chars:
            column = int((letter["x0"] / PT_PER_MM - sheet.left_mm) // sheet.across_mm)
            row = int((letter["top"] / PT_PER_MM - sheet.top_mm) // sheet.down_mm)
            left, top = sheet.left_mm + column * sheet.across_mm, sheet.top_mm + row * sheet.down_mm
            assert left <= letter["x0"] / PT_PER_MM
            assert letter["x1"] / PT_PER_MM <= left + sheet.width_mm
            assert top <= letter["top"] / PT_PER_MM
            assert letter["bottom"] / PT_PER_MM <= top + sheet.height_mm
            found.add((number, row, column))
    return found


@pytest.mark.parametrize("paper", ["letter", "a4"])
def test_labels_fill_the_sheet_and_go_on_with_the_next(paper):
    sheet = USUAL_SHEETS[paper]
    document = printed(build_part_labels, data(sheet.count + 2, sheet))
    expected = {(0, row, column) for row in range(sheet.rows) for column in range(sheet.columns)}
    assert cells(document, sheet) == expected | {(1, 0, 0), (1, 0, 1)}


def test_used_labels_are_left_alone():
    sheet = USUAL_SHEETS["a4"]
    document = printed(build_part_labels, data(2, sheet, used=4))
    assert cells(document, sheet) == {(0, 1, 1), (0, 1, 2)}


@pytest.mark.parametrize("size", [(30, 15), (190, 60)])
@pytest.mark.parametrize("name", ["Leg", "Drawer runner of the upper left drawer, behind the apron, quartersawn"])
def test_every_size_of_label_holds_its_words(size, name):
    sheet = LabelSheet("a4", 1, 4, *size, 10, 10, size[0], size[1])
    labels = (replace(LABEL, part=name, board="Upper rack, bay 12"),)
    document = printed(build_part_labels, data(1, sheet, labels=labels))
    assert cells(document, sheet) == {(0, 0, 0)}


def test_what_a_label_says():
    document = printed(build_part_labels, data(1, USUAL_SHEETS["a4"], measures=Measures("inch", 16)))
    for words in ("Drawer front, left", "W7", "1 of 1", "face B shows", "Writing desk", "sawn", "finished"):
        assert words in document.text
    assert document.pypdf.metadata.title == "Part labels of Writing desk"


@pytest.mark.parametrize(
    ("changes", "words"),
    [
        ({"columns": 4}, "the paper has 210 by 297 mm"),
        ({"rows": 9}, "the paper has"),
        ({"columns": 0}, "1 to 12"),
        ({"across_mm": 50}, "overlap"),
        ({"width_mm": 20}, "at least 30 by 15"),
        ({"left_mm": -3}, "off the paper"),
    ],
)
def test_measures_that_make_no_sheet_are_refused(changes, words):
    with pytest.raises(SheetError, match=words):
        replace(USUAL_SHEETS["a4"], **changes)
