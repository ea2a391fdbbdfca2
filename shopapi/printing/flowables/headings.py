"""Headings: words with a crayon stroke under them, and their place in the PDF's outline."""

from reportlab.platypus import Flowable, Paragraph

from shopapi.printing import fonts
from shopapi.printing.pencil import crayon_line
from shopapi.printing.styles import sheet
from shopapi.printing.text import markup, one_line


class Heading(Flowable):
    """A section's name with a short crayon stroke, kept with what follows."""

    STROKE_PT = 54
    BELOW_PT = 22
    ABOVE_PT = 32  # not at the top of a page

    def __init__(self, words: str) -> None:
        super().__init__()
        self.outline = one_line(words)
        self.keepWithNext = 1
        self._words = Paragraph(markup(words, fonts.STRONG), sheet()["heading"])

    def getSpaceBefore(self) -> float:  # noqa: N802 - reportlab's name
        return self.ABOVE_PT

    def wrap(self, avail_width: float, avail_height: float) -> tuple[float, float]:
        self.width, height = self._words.wrap(avail_width, avail_height)
        self.height = height + self.BELOW_PT
        return avail_width, self.height

    def draw(self) -> None:
        self._words.drawOn(self.canv, 0, self.BELOW_PT)
        crayon_line(self.canv, (1, self.BELOW_PT - 7), (self.STROKE_PT, self.BELOW_PT - 6), weight=2.6)


def paragraph(words: object, style: str = "body") -> Paragraph:
    """A paragraph of any text, cleaned, in one of the named styles."""
    chosen = sheet()[style]
    return Paragraph(markup(words, chosen.fontName), chosen)
