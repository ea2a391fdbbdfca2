"""The door for user text: nothing dangerous passes, nothing is lost, fractions read back as written."""

from io import BytesIO

import pytest
from hypothesis import example, given
from hypothesis import strategies as st
from pypdf import PdfReader
from reportlab.lib.enums import TA_LEFT
from reportlab.lib.styles import ParagraphStyle
from reportlab.pdfgen.canvas import Canvas
from reportlab.platypus import Paragraph

from shopapi.printing import fonts, text


def read_back(words: str, face: str = fonts.TEXT) -> str:
    fonts.register()
    out = BytesIO()
    canvas = Canvas(out, initialFontName=fonts.TEXT)
    text.draw(canvas, 40, 700, words, 12, face)
    canvas.save()
    return " ".join(PdfReader(BytesIO(out.getvalue())).pages[0].extract_text().split())


@pytest.mark.parametrize(
    ("typed", "cleaned"),
    [
        ("two\r\nlines\rand\u2028more", "two\nlines\nand\nmore"),
        ("bell\x07 and\x00 null", "bell and null"),
        ("e\u0301tage\u0300re", "étagère"),
        ("zero\u200bwidth\ufeff", "zerowidth"),
        ("  spaces   between  ", "spaces between"),
        ("29¾ and ½", "29 3/4 and 1/2"),
        ("five ft 2\u2033", 'five ft 2"'),
        (None, "None"),
        ("", ""),
    ],
)
def test_cleaned(typed, cleaned):
    assert text.clean(typed) == cleaned


@given(st.text())
def test_cleaning_what_is_clean_changes_nothing(words):
    assert text.clean(text.clean(words)) == text.clean(words)


@example("\U000109d2\U00018cd6")  # a right-to-left letter beside one that no table knows
@given(st.text(max_size=60))
def test_any_text_can_be_set_in_a_paragraph(words):
    fonts.register()
    style = ParagraphStyle("any", fontName=fonts.TEXT, alignment=TA_LEFT)
    assert Paragraph(text.markup(words), style).wrap(200, 10_000)[1] >= 0


def test_markup_signs_are_only_letters():
    style = ParagraphStyle("any", fontName=fonts.TEXT)
    words = "<b>Tom & Jerry</b> <img src='x'/> &lt;"
    assert Paragraph(text.markup(words), style).getPlainText() == words
    assert read_back("5 < 6 & 7 > 3") == "5 < 6 & 7 > 3"


@pytest.mark.parametrize("face", [fonts.TEXT, fonts.STRONG, fonts.ITALIC])
@pytest.mark.parametrize("words", ['29 3/4"', "13/16", "8/4 stock", "1/32 and 5/64", "on 3/17/2026", "0/8", "1/3 cup"])
def test_fractions_read_back_as_they_were_written(words, face):
    assert read_back(words, face) == words


def test_fractions_are_set_as_one():
    """Small figures, narrower than the same text in full-size ones, and nothing between that could break a line."""
    set_as_one = text.with_fractions("29 3/4")
    assert set_as_one != "29 3/4"
    assert not any(c.isspace() for c in set_as_one)
    assert text.width("29 3/4", 20) < text.width("29 3x4", 20) * 0.85


@pytest.mark.parametrize("untouched", ["8/4", "5/4", "1/3", "3/4/5", "12.3/4", "24/7", "2026/11/25", "0/4"])
def test_what_is_no_fraction_of_an_inch_stays(untouched):
    assert text.with_fractions(untouched) == untouched


def test_a_number_keeps_to_its_unit():
    assert text.clean("8.2 % and 7 mm, 21 °C, 5 metres") == "8.2\u00a0% and 7\u00a0mm, 21\u00a0°C, 5 metres"


@pytest.mark.parametrize("name", ["Łukasz Žižka", "Алексей Иванов", "Ωμέγα", "田中 裕子", "김민수", "Åsa Þórsdóttir"])
def test_names_of_many_scripts_have_letters(name):
    assert read_back(name).replace(" ", "") == name.replace(" ", "")
    assert "U+" not in "".join(part for _, part in text.runs(name))


def test_right_to_left_names_stand_in_reading_order():
    assert "".join(part for _, part in text.runs("דוד")) == "דוד"[::-1]
    joined = "".join(part for _, part in text.runs("محمد"))
    assert joined != "محمد"
    assert all("ARABIC" in __import__("unicodedata").name(letter) for letter in joined)
    assert text.runs(text.fitted("דוד לוי", 12, 500)[0]) == text.runs("דוד לוי")


def test_letters_no_face_has_are_spelled_out():
    shown = "".join(part for _, part in text.runs("ok \U0001f642 हिन्दी"))
    assert "[U+1F642]" in shown
    assert "U+0939" in shown


def test_a_word_keeps_to_one_face():
    assert [face for face, _ in text.runs("Ωμέγα")] == [fonts.WIDER]


def test_fitted_text_fits_and_says_that_it_was_shortened():
    line, size = text.fitted("A very long name of a drawer runner", 14, 80, least=9)
    assert text.width(line, size) <= 80.01
    assert line.endswith("…")
    assert text.fitted("short", 14, 80) == ("short", 14)
    assert text.fitted("", 14, 80) == ("", 14)
