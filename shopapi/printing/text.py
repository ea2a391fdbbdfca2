"""The one door through which every word goes onto paper: cleaned, shaped, and set with true fractions."""

import re
import unicodedata
from collections.abc import Iterable
from itertools import groupby
from operator import itemgetter
from xml.sax.saxutils import escape

from arabic_reshaper import ArabicReshaper
from bidi import get_display
from reportlab.pdfbase.pdfmetrics import stringWidth
from reportlab.pdfgen.canvas import Canvas

from shopapi.printing import fonts

LINE_ENDS = re.compile(r"\r\n?|[\u2028\u2029\x0b\x0c\x85]")
INVISIBLE = re.compile(r"[\u200b\u200e\u200f\u202a-\u202e\u2060\u2066-\u2069\ufe0e\ufe0f\ufeff\u00ad]")
FRACTION = re.compile(r"(?<![\d/.,])(?:(\d+)[ -])?(\d{1,2})/(2|4|8|16|32|64)(?![\d/]|[.,]\d)")
BEFORE_UNIT = re.compile(r"(?<=\d) (?=(?:%|mm|cm|m|kg|lb|h|°[CF])(?![\w]))")
SHAPED = ArabicReshaper({"support_ligatures": True, "ARABIC LIGATURE ALLAH": False})
SAME_MEANING = str.maketrans({"\u2032": "'", "\u2033": '"', "\u202f": "\u00a0", "\u2007": "\u00a0", "\u200a": "\u2009"})


def clean(text: object) -> str:
    """Text safe to set: line ends kept, control characters out, a number never parted from its unit.

    Cleaning what is clean changes nothing.
    """
    lines = LINE_ENDS.sub("\n", str(text)).split("\n")
    return "\n".join(_clean_line(line) for line in lines).strip()


def one_line(text: object) -> str:
    """The same on a single line, for places that have no second one."""
    return re.sub(r"[ \t\n]+", " ", clean(text)).strip()


def _clean_line(line: str) -> str:
    line = unicodedata.normalize("NFC", INVISIBLE.sub("", line))
    line = "".join(_plain_fraction(line, at) for at in range(len(line))).translate(SAME_MEANING)
    line = "".join(" " if unicodedata.category(c) in ("Cc", "Cs", "Co") else c for c in line)
    line = re.sub(r" {2,}", " ", line)
    return BEFORE_UNIT.sub("\u00a0", line)


def _as_seen(line: str) -> str:
    """Right-to-left words joined and in the order in which they stand on the page; other lines as they are."""
    if any(unicodedata.bidirectional(c) in ("R", "AL") for c in line):
        return str(get_display(SHAPED.reshape(line)))
    return line


def _plain_fraction(line: str, at: int) -> str:
    """A one-character fraction as "3/4", apart from the whole number before it, so that all are set alike."""
    character = line[at]
    if "VULGAR FRACTION" not in unicodedata.name(character, ""):
        return character
    gap = " " if at and line[at - 1].isdigit() else ""
    return gap + unicodedata.normalize("NFKC", character).replace("\u2044", "/")


def with_fractions(text: str) -> str:
    """The text with "29 3/4" in the fraction figures of the face; quarters of thickness ("8/4") stay as spoken."""
    return FRACTION.sub(_set_fraction, text)


def _set_fraction(match: re.Match[str]) -> str:
    whole, over, under = match.groups()
    if int(over) >= int(under) or int(over) == 0:
        return match.group()
    figures = "".join(chr(fonts.NUMERATORS + int(digit)) for digit in over) + fonts.BAR
    figures += "".join(chr(fonts.DENOMINATORS + int(digit)) for digit in under)
    return f"{whole}{fonts.GAP}{figures}" if whole else figures


def runs(text: object, face: str = fonts.TEXT) -> list[tuple[str, str]]:
    """One line as stretches of (face, text); a word keeps to one face where any has all its letters."""
    fonts.register()
    stretches: list[tuple[str, str]] = []
    for piece in re.findall(r" +|[^ ]+", with_fractions(_as_seen(one_line(text)))):
        if piece.isspace():
            stretches.append((stretches[-1][0], piece))
        else:
            stretches += _faces_of(piece, face)
    return [(name, "".join(part for _, part in group)) for name, group in groupby(stretches, key=itemgetter(0))]


def _faces_of(word: str, face: str) -> list[tuple[str, str]]:
    whole = fonts.face_for(word, face)
    if whole:
        return [(whole, word)]
    letters = groupby(word, key=lambda letter: fonts.face_for(letter, face))
    return [(name, "".join(part)) if name else (face, _spelled_out(part)) for name, part in letters]


def _spelled_out(part: Iterable[str]) -> str:
    """What stands for letters that no face has: their code points, so that nothing is lost."""
    return "[" + " ".join(f"U+{ord(c):04X}" for c in part) + "]"


def markup(text: object, face: str = fonts.TEXT) -> str:
    """The text as paragraph markup: escaped, line ends kept, with the faces that its letters need."""
    return "<br/>".join(_markup_line(line, face) for line in clean(text).split("\n"))


def _markup_line(line: str, face: str) -> str:
    return "".join(
        escape(part) if name == face else f'<font name="{name}">{escape(part)}</font>'
        for name, part in runs(line, face)
    )


def width(text: object, size: float, face: str = fonts.TEXT) -> float:
    """How wide one line of the text comes out [points]."""
    return sum(stringWidth(part, name, size) for name, part in runs(text, face))


def draw(
    canvas: Canvas, x: float, y: float, text: object, size: float, face: str = fonts.TEXT, align: float = 0.0
) -> None:
    """Writes one line on the canvas; align 0 starts at x, 0.5 centres on it, 1 ends there."""
    x -= align * width(text, size, face)
    for name, part in runs(text, face):
        canvas.setFont(name, size)
        canvas.drawString(x, y, part)
        x += stringWidth(part, name, size)


def fitted(text: object, size: float, space: float, face: str = fonts.TEXT, least: float = 6.0) -> tuple[str, float]:
    """The line and the size at which it fits the space [points]: smaller first, then shortened with an ellipsis."""
    line = one_line(text)
    natural = width(line, size, face)
    if natural <= space:
        return line, size
    size = max(least, size * space / natural)
    if width(line, size, face) <= space + 0.01:
        return line, size
    while line and width(line + "…", size, face) > space:
        line = line[:-1].rstrip()
    return line + "…", size
