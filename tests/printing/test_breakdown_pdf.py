"""Breakdown sheets, read back: distances, order, sizes of type, the 100 mm ruler."""

from dataclasses import replace

import pytest

from shopapi.craft.measures import parse_length
from shopapi.craft.packet import (
    BoardBreakdown,
    BreakdownData,
    FromPiece,
    LeftOut,
    Measures,
    Piece,
    Setup,
    from_json,
    ordered_cuts,
    to_json,
)
from shopapi.printing.documents.breakdown import build_breakdown
from tests.craft.packet.scenario import MARKS, breakdown, node
from tests.printing.reading import PT_PER_MM, Printed, lengths_near, picture, printed

METRIC = Measures("metric")
READABLE_PT = 18


@pytest.fixture(scope="module")
def sheet() -> Printed:
    return printed(build_breakdown, replace(breakdown(), measures=METRIC, paper="a4"))


def with_board(**changes: object) -> BreakdownData:
    data = breakdown()
    return replace(data, boards=(replace(data.boards[0], **changes),))


@pytest.mark.parametrize(("paper", "size"), [("a4", (841.89, 595.28)), ("letter", (792, 612))])
def test_paper_lies_sideways(paper, size):
    document = printed(build_breakdown, replace(breakdown(), paper=paper))
    page = document.pypdf.pages[0]
    assert (float(page.mediabox.width), float(page.mediabox.height)) == pytest.approx(size, abs=0.01)


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_the_ruler_is_100_mm_long(paper):
    document = printed(build_breakdown, replace(breakdown(), paper=paper))
    assert lengths_near(document, 100 * PT_PER_MM) == 1
    assert "100 mm when printed at full size" in document.text


def test_every_cut_stands_in_the_drawing_and_in_the_list(sheet):
    for cut in breakdown().boards[0].cuts:
        assert sheet.text.count(f"{cut.at_mm:.0f} mm") >= 2


def test_cuts_are_listed_in_order_with_what_they_free(sheet):
    said = [
        "Crosscut the board: frees A, leaves Left side",
        "Rip A: frees Desk top strip",
        "Rip A: frees A1, leaves offcut",
        "Crosscut A1: frees Rail",
        "Crosscut A1: frees Rail, leaves offcut",
    ]
    places = [sheet.text.index(words) for words in said]
    assert places == sorted(places)


def test_distances_in_inches_are_those_of_a_tape():
    document = printed(build_breakdown, breakdown())
    # 1500, 100, 163, 700, 1403 mm to the nearest 1/16 inch of 25.4 mm.
    for words in ('59 1/16"', '3 15/16"', '6 7/16"', '27 9/16"', '55 1/4"'):
        assert document.text.count(words) >= 2


def test_pieces_with_rough_sizes(sheet):
    for words in ("1500 × 100 mm", "700 × 60 mm", "897 × 200 mm", "Desk top strip", "Left side"):
        assert words in sheet.text


def test_board_kerf_trim_and_what_did_not_fit(sheet):
    for words in (
        "W7",
        "2400 × 200 × 27 mm",
        "white oak",
        "upper rack",
        "the kerf is 3 mm",
        "trimmed by 25 mm",
        "1 × Back panel: No board of white oak is wide enough: 40 mm too wide.",
        "riving knife",
    ):
        assert words in sheet.text


def test_measurements_can_be_read_from_a_step_away(sheet):
    """Whatever is measured by is set in 18 points or more: cut distances, rough sizes."""
    distances = {f"{cut.at_mm:.0f}" for cut in breakdown().boards[0].cuts} | {"897"}
    # The tape's own figures are smaller; they only help the eye.
    # So do the words under the 100 mm ruler.
    aside = {str(n) for n in range(0, 2401, 500)} | {"100"}
    sizes = sheet.sizes_of(lambda word: word in distances - aside)
    assert len(sizes) >= 8
    assert min(sizes) >= READABLE_PT


def test_the_board_is_true_to_scale(sheet):
    """Length and width of the drawing have the ratio of the board, whichever stretch is measured."""
    page = sheet.plumber.pages[sheet.page_with("butt end")]
    edges = [
        line for line in page.lines if abs(line["linewidth"] - 1) < 0.01 and abs(line["top"] - line["bottom"]) < 0.01
    ]
    lower, upper = sorted(edges, key=lambda line: -line["top"])[-2:]
    long = lower["x1"] - lower["x0"]
    high = abs(lower["top"] - upper["top"])
    shown_mm = 2400 / round(2400 / (long / (high / 200)))
    assert long / high == pytest.approx(shown_mm / 200, rel=0.001)


def test_a_board_without_a_picture_is_drawn_all_the_same(sheet):
    assert sheet.images() == []
    pictured = printed(build_breakdown, with_board(picture=picture(2400, 200)))
    assert len(pictured.images()) >= 1
    assert pictured.text == printed(build_breakdown, with_board(picture=None)).text


def test_marks_have_a_letter_and_a_legend(sheet):
    for words in ("knot: no part", "check: no part", "sapwood: no seen face"):
        assert words in sheet.text
    behind = printed(build_breakdown, with_board(marks=(replace(MARKS[0], face="B"),)))
    assert "knot on face B: no part" in behind.text


@pytest.mark.parametrize("kind", ["knot", "wane", "figure", "worm_holes", "a kind made up later"])
@pytest.mark.parametrize("blocks", ["all", "show", "none"])
def test_every_kind_of_mark_can_be_drawn(kind, blocks):
    assert printed(build_breakdown, with_board(marks=(replace(MARKS[0], kind=kind, blocks=blocks),))).pages


def many_cuts(count: int) -> BoardBreakdown:
    pieces = [node(n * 63, 0, 60, 200, part="rail") for n in range(count)]
    tree = node(0, 0, count * 63 + 50, 200, cut="crosscut", pieces=pieces)
    placed = tuple(Piece(f"Very small drawer divider number {n}", n * 63, 0, 60, 200) for n in range(count))
    return replace(
        breakdown().boards[0],
        length_mm=float(count * 63 + 50),
        pieces=placed,
        cuts=ordered_cuts(tree, {}, 3),
        sections=(),
    )


def test_fifty_cuts_on_one_board_all_have_their_distance():
    data = replace(breakdown(), boards=(many_cuts(50),), measures=METRIC)
    document = printed(build_breakdown, data)
    for cut in data.boards[0].cuts:
        assert document.text.count(f"{cut.at_mm:.0f} mm") >= 2
    for page in document.plumber.pages:
        assert max(c["x1"] for c in page.chars) < page.width
        assert min(c["x0"] for c in page.chars) > 0


def test_distances_below_a_board_do_not_cover_each_other():
    document = printed(build_breakdown, replace(breakdown(), boards=(many_cuts(12),), measures=METRIC))
    page = document.plumber.pages[document.page_with("butt end")]
    words = [word for word in page.extract_words(extra_attrs=["size"], keep_blank_chars=True) if word["size"] > 19]
    words = [word for word in words if word["text"].endswith(" mm") and "×" not in word["text"]]
    for n, one in enumerate(words):
        for other in words[n + 1 :]:
            apart = one["x1"] <= other["x0"] or other["x1"] <= one["x0"]
            assert apart or one["bottom"] <= other["top"] + 4 or other["bottom"] <= one["top"] + 4


def test_many_boards_and_long_names():
    boards = tuple(
        replace(breakdown().boards[0], tag=f"Upper rack, bay {n}, white oak of 2024", place="behind the stove " * 5)
        for n in range(20)
    )
    document = printed(
        build_breakdown, replace(breakdown(), boards=boards, commission="Schreibtisch mit Geheimfach " * 4)
    )
    titles = [title for title, _ in document.outline()]
    assert len([title for title in titles if title.startswith("Board Upper rack")]) == 20
    for number in range(document.pages):
        assert f"Page {number + 1} of {document.pages}" in document.page_text(number)


def test_roundings_of_chalk_lines_do_not_add_up():
    """Ninety cuts of 1 7/32 inch and a kerf: the last line is as near to its true place as the first."""
    board = many_cuts(90)
    document = printed(build_breakdown, replace(breakdown(), boards=(board,), measures=Measures("inch", 16)))
    for cut in board.cuts:
        said = Measures("inch", 16).length(cut.at_mm)
        assert abs(parse_length(said, "inch") - cut.at_mm) <= 25.4 / 32 + 1e-6
        assert cut.at_mm == 60 + 63 * (cut.number - 1)
        assert said.split()[0].rstrip('"') in document.text


def test_cuts_stand_once_more_by_machine_set_up():
    found = (
        Setup(2, "rip", 90, (FromPiece("W7", "A", (("Rail", 2),)), FromPiece("W8", "board", (("Side", 1),)))),
        Setup(3, "crosscut", 610, (FromPiece("W7", "A1", (("Rail", 1),)),)),
    )
    document = printed(build_breakdown, replace(breakdown(), measures=METRIC, setups=found))
    page = document.page_text(document.page_with("By machine set-up"))
    places = [
        page.index(words) for words in ("by fence setting", "90 mm", "W7 A: 2 × Rail; W8: Side", "by stop", "610 mm")
    ]
    assert places == sorted(places)
    assert "First the boards are crosscut" not in page
    sizes = document.sizes_of(lambda word: word in {"90", "610"})
    assert min(sizes) >= READABLE_PT


def test_a_layout_that_uses_no_board():
    data = replace(breakdown(), boards=(), left_out=(LeftOut("Top", 1, "No white oak among these boards."),))
    document = printed(build_breakdown, data)
    assert document.pages == 1
    assert "No board is cut in this layout." in document.text
    assert "1 × Top: No white oak among these boards." in document.text


def test_the_same_frozen_data_prints_the_same_words(sheet):
    data = replace(breakdown(), measures=METRIC, paper="a4")
    assert printed(build_breakdown, from_json(BreakdownData, to_json(data))).text == sheet.text
