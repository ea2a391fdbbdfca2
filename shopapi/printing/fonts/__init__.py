"""The printing faces: one family made for legibility, and two that lend it the letters it lacks."""

from functools import cache, lru_cache
from pathlib import Path

from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.pdfdoc import PDFDocument
from reportlab.pdfbase.ttfonts import SUBSETN, TTFont, makeToUnicodeCMap

TEXT, ITALIC, STRONG = "Flitchbook", "Flitchbook-Italic", "Flitchbook-Strong"
WIDER, WIDER_STRONG = "Flitchbook-Wider", "Flitchbook-WiderStrong"
EASTERN, KOREAN = "Flitchbook-Eastern", "Flitchbook-Korean"

FILES = {
    TEXT: "AtkinsonHyperlegibleNext-Regular.ttf",
    ITALIC: "AtkinsonHyperlegibleNext-Italic.ttf",
    STRONG: "AtkinsonHyperlegibleNext-SemiBold.ttf",
    WIDER: "DejaVuSans.ttf",
    WIDER_STRONG: "DejaVuSans-Bold.ttf",
    EASTERN: "DroidSansFallbackFull.ttf",
    KOREAN: "NanumSquareR.ttf",
}
STAND_INS = {
    TEXT: (WIDER, EASTERN, KOREAN),
    ITALIC: (WIDER, EASTERN, KOREAN),
    STRONG: (WIDER_STRONG, WIDER, EASTERN, KOREAN),
}

# Private code points that `prepare.py` gives to the small figures of a fraction.
NUMERATORS, DENOMINATORS, BAR, GAP = 0xE000, 0xE010, "\ue020", "\ue021"
# What a reader copies out of the PDF for each of them.
READ_BACK = (
    {NUMERATORS + n: ord("0") + n for n in range(10)}
    | {DENOMINATORS + n: ord("0") + n for n in range(10)}
    | {ord(BAR): ord("/"), ord(GAP): ord(" ")}
)


class ReadableFont(TTFont):
    """A font whose fractions read back, when copied or searched, as the plain text "3/4"."""

    def addObjects(self, doc: PDFDocument) -> None:  # noqa: N802 - reportlab's name
        subsets = self.state[doc].subsets if doc in self.state else []
        super().addObjects(doc)
        for number, codes in enumerate(subsets):
            name = b"".join((SUBSETN(number), b"+", self.face.name, self.face.subfontNameX)).decode("pdfdoc")
            stream = doc.idToObject[f"toUnicodeCMap:{name}"]
            stream.content = makeToUnicodeCMap(name, [READ_BACK.get(code, code) for code in codes])


@cache
def load(name: str) -> TTFont:
    """Registers one face, once; the large stand-ins are read only when a text needs them."""
    font = ReadableFont(name, str(Path(__file__).parent / FILES[name]))
    pdfmetrics.registerFont(font)
    return font


@cache
def register() -> None:
    """Makes the family known, with its bold and italic, before any style names it."""
    for name in (TEXT, ITALIC, STRONG):
        load(name)
    pdfmetrics.registerFontFamily(TEXT, normal=TEXT, bold=STRONG, italic=ITALIC, boldItalic=STRONG)


@lru_cache(maxsize=4096)
def face_for(word: str, face: str) -> str | None:
    """The face that can draw all of the word: the wanted one, else a stand-in, else None."""
    for name in (face, *STAND_INS[face]):
        if all(ord(character) in load(name).face.charToGlyph for character in word):
            return name
    return None
