"""From the last coat to full use, as a line true to the days between."""

from datetime import date

from reportlab.pdfgen.canvas import Canvas
from reportlab.platypus import Flowable

from shopapi.craft.packet import UseDates
from shopapi.printing import fonts, text
from shopapi.printing.pencil import crayon_line
from shopapi.printing.styles import CRAYON, GRAPHITE, PENCIL
from shopapi.printing.wording import day


class UseLine(Flowable):
    """Three days on a line: last coat, light use, full use; the words never reach each other."""

    HIGH, BIG, SMALL = 78.0, 15.0, 9.5

    def __init__(self, use: UseDates) -> None:
        super().__init__()
        self._days = (
            ("Last coat", use.last_coat_on),
            ("Light use from", use.light_use_on),
            ("Full use from", use.full_use_on),
        )

    def wrap(self, avail_width: float, _avail_height: float) -> tuple[float, float]:
        self.width, self.height = avail_width, self.HIGH
        return self.width, self.height

    def draw(self) -> None:
        canvas = self.canv
        places = self._places()
        y = 46.0
        canvas.saveState()
        canvas.setStrokeColor(PENCIL)
        canvas.setLineWidth(1)
        canvas.line(0, y, self.width, y)
        crayon_line(canvas, (places[1], y), (self.width, y), 2.6)
        for n, ((word, on), x) in enumerate(zip(self._days, places, strict=True)):
            self._draw_day(canvas, x, y, n, word, on)
        canvas.restoreState()

    def _places(self) -> tuple[float, float, float]:
        """True to the days, but never so close that two dates touch."""
        first, second, third = (on.toordinal() for _, on in self._days)
        share = (second - first) / max(1, third - first)
        widths = [text.width(day(on), self.BIG, fonts.STRONG) + 22 for _, on in self._days]
        return 0.0, min(max(self.width * share, widths[0]), self.width - widths[1] - widths[2]), self.width

    def _draw_day(self, canvas: Canvas, x: float, y: float, n: int, word: str, on: date) -> None:
        align = 1.0 if n == 2 else 0.0
        canvas.setFillColor(CRAYON if n else PENCIL)
        canvas.circle(min(max(x, 4), self.width - 4), y, 4, stroke=0, fill=1)
        canvas.setFillColor(PENCIL)
        text.draw(canvas, x, y + 11, word, self.SMALL, align=align)
        canvas.setFillColor(GRAPHITE)
        text.draw(canvas, x, y - 24, day(on), self.BIG, fonts.STRONG, align=align)
