"""Rows for the shop: a box to tick, a number, a measurement to read from 1.5 m, and words."""

from reportlab.platypus import Flowable, Paragraph

from shopapi.printing import fonts, text
from shopapi.printing.styles import CRAYON, GRAPHITE, HAIRLINE, SHOP_MEASURE_PT, WHITE, sheet
from shopapi.printing.text import markup


class TickRow(Flowable):
    """One line of a list to work down: box, number, measurement, what it is about."""

    BOX, NUMBER = 15.0, 26.0

    def __init__(self, number: str, measure: str, words: str, measure_width: float, *, tick: bool = True) -> None:
        super().__init__()
        self._number, self._measure, self._tick = number, measure, tick
        self._measure_width = measure_width
        self._words = Paragraph(markup(words), sheet()["shop_cell"])

    def wrap(self, avail_width: float, _avail_height: float) -> tuple[float, float]:
        self.width = avail_width
        self._left = (self.BOX + 9 if self._tick else 0) + self.NUMBER + 8
        self._under = text.width(self._measure, SHOP_MEASURE_PT, fonts.STRONG) > self._measure_width
        indent = self._left if self._under else self._left + self._measure_width
        self._indent = indent
        _, words_height = self._words.wrap(avail_width - indent, 10_000)
        self._words_height = words_height
        self.height = max(30.0, words_height + 9) + (26 if self._under else 0)
        return self.width, self.height

    def draw(self) -> None:
        canvas = self.canv
        canvas.saveState()
        top = self.height
        canvas.setStrokeColor(HAIRLINE)
        canvas.setLineWidth(0.5)
        canvas.line(0, 0, self.width, 0)
        x = 0.0
        if self._tick:
            canvas.setStrokeColor(GRAPHITE)
            canvas.setLineWidth(1.1)
            canvas.rect(0.6, top - 23, self.BOX, self.BOX, stroke=1, fill=0)
            x = self.BOX + 9
        canvas.setFillColor(CRAYON if self._tick else GRAPHITE)
        canvas.roundRect(x, top - 24, self.NUMBER, 18, 9 if self._tick else 2.5, stroke=0, fill=1)
        canvas.setFillColor(WHITE)
        text.draw(canvas, x + self.NUMBER / 2, top - 19.5, self._number, 12.5, fonts.STRONG, align=0.5)
        canvas.setFillColor(GRAPHITE)
        text.draw(canvas, self._left, top - 22, self._measure, SHOP_MEASURE_PT, fonts.STRONG)
        self._words.drawOn(canvas, self._indent, top - (26 if self._under else 0) - self._words_height - 4.5)
        canvas.restoreState()
