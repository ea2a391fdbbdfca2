"""The client's packet, read back: every number it must say, pages, papers, outline, pictures, fonts."""

import calendar
import itertools
from dataclasses import replace
from datetime import UTC, datetime

import pytest

from shopapi.craft.movement import home_year, width_through_year
from shopapi.craft.packet import (
    FinishRecord,
    Measures,
    PacketData,
    Picture,
    care_plan,
    from_json,
    movement_year,
    to_json,
)
from shopapi.printing.documents.packet import build_packet
from shopapi.printing.wording import day
from tests.craft.packet.scenario import PARTS, bench_log, board, packet_data
from tests.printing.reading import PT_PER_MM, Printed, picture, plain, printed

METRIC, INCH = Measures("metric"), Measures("inch", 16)
YEAR = movement_year("Desk top", "white oak", 762.0, 8.2, home_year(28, 52), "Northwick")


@pytest.fixture(scope="module")
def metric() -> Printed:
    boards = tuple(
        replace(board(tag, picture()), species=wood) for tag, wood in (("W7", "white oak"), ("M2", "hard maple"))
    )
    return printed(build_packet, packet_data(boards=boards, measures=METRIC, paper="a4", movement=YEAR))


@pytest.fixture(scope="module")
def inches() -> Printed:
    return printed(build_packet, packet_data(measures=INCH, paper="letter", movement=YEAR))


# Sources: ISO 216 (A4) and ANSI Y14.1 (Letter), in points of 1/72 inch.
@pytest.mark.parametrize(("paper", "size"), [("a4", (595.28, 841.89)), ("letter", (612, 792))])
def test_paper(paper, size):
    document = printed(build_packet, packet_data(paper=paper))
    for page in document.pypdf.pages:
        assert (float(page.mediabox.width), float(page.mediabox.height)) == pytest.approx(size, abs=0.01)


def test_what_was_made_for_whom_by_whom(metric):
    for words in ("Writing desk", "Made for Rowan Ashdown", "Undershaw Joinery", "D7-41", "3 November 2025"):
        assert words in metric.page_text(0)
    last = metric.page_text(metric.pages - 1)
    for words in ("Ines Undershaw", "+1 555 0142", "ines@undershaw.example", "undershaw.example", "14 Mill Lane"):
        assert words in last


def test_boards_with_their_parts(metric):
    assert "one board of white oak and one board of hard maple" in metric.text
    for words in ("W7, white oak", "M2, hard maple", "3000 × 205 × 27 mm", "Sawmill at Harrow Bridge"):
        assert words in metric.text
    for part in ("Desk top strip W7", "Desk top strip M2", "Left side", "Drawer runner", "Apron"):
        assert part in metric.text


def test_parts_at_their_finished_sizes(metric, inches):
    assert "12 pieces" in metric.text or "Twelve pieces" in metric.text
    for part in PARTS:
        size = f"{part.length_mm:.0f} × {part.width_mm:.0f} × {part.thickness_mm:.0f} mm"
        assert f"{part.name} {part.quantity} {size}" in metric.text
    # 1500, 762 and 22 mm to the nearest 1/16 inch of 25.4 mm.
    assert '59 1/16" × 30" × 7/8"' in inches.text


def test_finish_record(metric, inches):
    for entry in bench_log():
        assert entry.what in metric.text
        assert f"{entry.done_at.day} {entry.done_at:%b} {entry.done_at.year}, {entry.done_at:%H:%M}" in metric.text
        assert f"{entry.temp_c:.1f} °C, {entry.rh_pct:.0f} %" in metric.text
        assert f"{entry.temp_c * 9 / 5 + 32:.0f} °F, {entry.rh_pct:.0f} %" in inches.text
    assert "Sooner than planned: The coat was dry to the nail test" in metric.text


def test_days_of_use(metric):
    for on in ("9 March 2026", "12 March 2026", "8 April 2026"):
        assert metric.text.count(on) >= 2


def test_without_a_last_coat_no_day_is_promised():
    document = printed(build_packet, packet_data(use=None))
    assert "so the day of full use is not known" in document.text
    assert "From 12 March" not in document.text


def test_care_and_cautions(metric):
    data = packet_data()
    for words in (*data.care.every_day, *data.care.accidents, data.care.repair):
        assert plain(words) in metric.text
    for caution in data.cautions:
        assert caution.title in metric.text
        assert plain(caution.text) in metric.text
    assert "8 April 2027" in metric.text
    assert data.warnings[0] in metric.text


def test_the_seasons_are_those_craft_reckons(metric, inches):
    """Sentences, chart and table all carry the numbers of `width_through_year`."""
    year = width_through_year(762.0, "white oak", 8.2, home_year(28, 52))
    page = metric.page_text(metric.page_with("How it moves with the seasons"))
    for month in year.months:
        assert f"{month.width_mm:.1f}" in page
        assert f"{month.mc_pct:.1f}" in page
    for month, word in ((year.narrowest, "narrowest"), (year.widest, "widest")):
        assert f"{word} in {calendar.month_name[month.month]}, about {month.width_mm:.1f} mm" in page
        assert f"{word}, {month.width_mm:.1f} mm" in page
    assert f"about {year.swing_mm:.1f} mm" in page
    assert "28 % humidity in February and 52 % in August" in page
    assert "Wood handbook" in metric.text
    assert INCH.change(year.widest.width_mm) in inches.text


def test_the_chart_is_drawn_where_its_numbers_say(metric):
    """The twelve points of the curve, measured on the page, lie on the scale of its ticks."""
    page = metric.plumber.pages[metric.page_with("How it moves with the seasons")]
    ticks = {}
    for word in page.extract_words(keep_blank_chars=True, extra_attrs=["size"]):
        number = word["text"].removesuffix(" mm")
        if word["text"].endswith(" mm") and number.isdigit() and abs(word["size"] - 8.5) < 0.01 and word["x1"] < 130:
            ticks[float(number)] = (word["top"] + word["bottom"]) / 2
    assert len(ticks) >= 3
    low, high = min(ticks), max(ticks)
    per_mm = (ticks[low] - ticks[high]) / (high - low)
    dots = sorted(
        ((c["x0"] + c["x1"]) / 2, (c["top"] + c["bottom"]) / 2)
        for c in page.curves
        if c["fill"] and abs(c["x1"] - c["x0"] - 4.4) < 0.2
    )
    assert len(dots) == 12
    # The words of a tick stand a little off its line: compare differences, not places.
    widths = [month.width_mm for month in YEAR.months]
    for (_, first), (_, second), was, then in zip(dots, dots[1:], widths, widths[1:], strict=False):
        assert (first - second) / per_mm == pytest.approx(then - was, abs=0.02)
    steps = [second[0] - first[0] for first, second in itertools.pairwise(dots)]
    assert steps == pytest.approx([steps[0]] * 11, abs=0.01)


def test_the_swing_is_drawn_at_its_true_size(metric):
    page = metric.plumber.pages[metric.page_with("at its true size")]
    across = YEAR.swing_mm * PT_PER_MM
    assert any(abs(rect["width"] - across) < 0.05 and abs(rect["height"] - 30) < 0.05 for rect in page.rects)


def test_a_year_that_does_not_fit_the_species_is_left_out():
    document = printed(
        build_packet, packet_data(movement=None, warnings=("The movement is not reckoned: unknown wood.",))
    )
    assert "How it moves" not in document.text
    assert "The movement is not reckoned" in document.text


def test_every_page_after_the_cover_is_numbered(metric):
    for number in range(1, metric.pages):
        assert f"Page {number + 1} of {metric.pages}" in metric.page_text(number)
    assert "Page 1 of" not in metric.text


def test_document_data_and_outline(metric):
    assert metric.pypdf.metadata.title == "Writing desk for Rowan Ashdown"
    assert metric.pypdf.metadata.author == "Undershaw Joinery"
    assert metric.pypdf.trailer["/Root"]["/Lang"] == "en"
    outline = dict(metric.outline())
    sections = (
        "What it is made of",
        "Its parts",
        "How it was finished",
        "When you may use it",
        "Please mind",
        "Whom to call",
    )
    for title in sections:
        assert title in metric.page_text(outline[title])


def test_every_font_is_embedded(metric):
    assert metric.fonts()
    for font in metric.fonts():
        assert "/FontFile2" in font["/FontDescriptor"]
        assert "/ToUnicode" in font


def test_pictures_are_shrunk_to_what_a_printer_shows():
    large = picture(12000, 820)
    document = printed(build_packet, packet_data(boards=(board("W7", large),)))
    assert document.images()
    for pixels, _, drawn in document.images():
        assert pixels / (drawn / 72) <= 222
    assert len(document.content) < len(large.content) + 600_000


def test_small_pictures_are_not_blown_up():
    document = printed(build_packet, packet_data(boards=(board("W7", picture(300, 20)),)))
    assert max(pixels for pixels, _, _ in document.images()) <= 300


@pytest.mark.parametrize("broken", [Picture(path="/no/such/file.jpg"), Picture(content=b"not a picture"), Picture()])
def test_a_picture_that_cannot_be_had_leaves_the_rest(broken):
    document = printed(build_packet, packet_data(boards=(board("W7", broken),)))
    assert document.images() == []
    assert "W7, white oak" in document.text


def test_a_picture_is_fetched_by_its_name():
    asked = []

    def fetch(name: str) -> bytes:
        asked.append(name)
        return picture().content

    document = printed(build_packet, packet_data(boards=(board("W7", Picture(path="w7.jpg")),)), read=fetch)
    assert document.images()
    assert set(asked) == {"w7.jpg"}


def test_long_text_flows_onto_further_pages_and_loses_nothing():
    note = "It rained, the shop was cold, and so the coat waited for the stove. " * 4
    entries = tuple(
        replace(entry, note=f"{note}Mark {turn}-{n}.") for turn in range(6) for n, entry in enumerate(bench_log())
    )
    data = packet_data(finish=FinishRecord("shellac", entries), description="A long letter of thanks. " * 60)
    document = printed(build_packet, data)
    assert document.pages > printed(build_packet, packet_data()).pages + 4
    assert all(f"Mark {turn}-{n}." in document.text for turn in range(6) for n in range(9))
    assert document.text.count("A long letter of thanks.") == 60
    assert document.text.count("When What Air By") >= 5


def test_a_note_longer_than_a_page_is_split():
    entry = replace(bench_log()[0], note="Nothing dried that day. " * 400)
    document = printed(build_packet, packet_data(finish=FinishRecord("shellac", (entry,))))
    assert [document.text.count(word) for word in ("Nothing", "dried", "day.")] == [400] * 3


LONG_NAMES = {
    "piece": "Schreibtisch mit Rollladen, sechs Schubladen und einem Geheimfach",
    "client": "Αλεξάνδρα Παπαδοπούλου-Иванова und Familie von Hohenstein",
}


def test_names_of_sixty_characters_in_other_scripts():
    document = printed(build_packet, packet_data(**LONG_NAMES))
    first = document.page_text(0)
    assert LONG_NAMES["piece"] in first
    assert "Παπαδοπούλου" in first.replace(" ", "")
    inside = document.plumber.pages[0]
    assert all(c["x0"] >= 0 and c["x1"] <= inside.width for c in inside.chars)


@pytest.mark.parametrize("count", [0, 1, 20])
def test_any_number_of_boards(count):
    boards = tuple(board(f"W{n}", picture() if n % 2 else None) for n in range(count))
    document = printed(build_packet, packet_data(boards=boards))
    assert all(f"W{n}, white oak" in document.text for n in range(count))
    if not count:
        assert "were not written down" in document.text


def test_a_packet_with_nothing_in_it_still_prints():
    bare = PacketData(packet_data().maker, "Stool", packet_data().made_on)
    document = printed(build_packet, bare)
    assert "Stool" in document.page_text(0)
    assert "Whom to call" in document.text


def test_user_text_cannot_break_the_page():
    data = packet_data(piece="<para>Desk</para> & <b>", client="]]> <!-- &#0;", description="<font size=200>big")
    document = printed(build_packet, data)
    assert "<para>Desk</para> & <b>" in document.page_text(0)
    assert "<font size=200>big" in document.page_text(0)


def test_the_same_frozen_data_prints_the_same_words(metric):
    boards = tuple(
        replace(board(tag, picture()), species=wood) for tag, wood in (("W7", "white oak"), ("M2", "hard maple"))
    )
    data = packet_data(boards=boards, measures=METRIC, paper="a4", movement=YEAR)
    again = printed(build_packet, from_json(PacketData, to_json(data)))
    assert again.text == metric.text


def test_nothing_stands_outside_the_margins(metric, inches):
    """The cover's boards run off the page on the right; words never do."""
    for document in (metric, inches):
        for page in document.plumber.pages[1:]:
            assert min(c["x0"] for c in page.chars) > 50
            assert max(c["x1"] for c in page.chars) < page.width - 50
            assert max(c["bottom"] for c in page.chars) < page.height - 25


def test_days_are_written_out():
    assert day(datetime(2026, 4, 8, tzinfo=UTC).date()) == "8 April 2026"
    assert care_plan("shellac").due[0].first_on is None
