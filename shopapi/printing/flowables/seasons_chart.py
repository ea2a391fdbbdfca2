"""A panel's year, drawn: width month by month, the air under it, and the swing at its true size."""

from calendar import month_abbr
from collections.abc import Sequence
from fractions import Fraction
from math import ceil, floor

from reportlab.lib.units import mm
from reportlab.pdfgen.canvas import Canvas
from reportlab.platypus import Flowable

from shopapi.craft.measures import MM_PER_INCH
from shopapi.craft.packet import Measures, MovementYear, PanelMonth
from shopapi.printing import fonts, text
from shopapi.printing.pencil import halo
from shopapi.printing.styles import CRAYON, GRAPHITE, HAIRLINE, PENCIL, SHADE

WORDS = 8.5
STEPS_MM = (0.2, 0.5, 1, 2, 5, 10, 20, 50, 100)
STEPS_INCH = (*(Fraction(1, n) for n in (32, 16, 8, 4, 2)), Fraction(1), Fraction(2), Fraction(4))
MOST_TICKS = 7


def ticks(low_mm: float, high_mm: float, measures: Measures) -> list[float]:
    """Even widths [mm] from just under the lowest to just over the highest, on marks that a tape has."""
    steps = [float(step) * MM_PER_INCH for step in STEPS_INCH] if measures.unit == "inch" else list(STEPS_MM)
    for step in steps:
        first, last = floor(low_mm / step + 1e-9), ceil(high_mm / step - 1e-9)
        if last - first < MOST_TICKS or step == steps[-1]:
            return [n * step for n in range(first, max(last, first + 1) + 1)]
    raise AssertionError("the last step always answers")


class SeasonsChart(Flowable):
    """Twelve months across, width upwards; least and greatest are named, the width as built is a dashed line."""

    LEFT, SKY, PLOT, ROW = 58.0, 8.0, 168.0, 15.0

    def __init__(self, year: MovementYear, measures: Measures) -> None:
        super().__init__()
        self.year, self.measures = year, measures
        widths = [month.width_mm for month in year.months] + [year.width_mm]
        # Room under and over the curve, so that words about it stand clear of it.
        room = max(0.16 * (max(widths) - min(widths)), 0.05)
        self.ticks = ticks(min(widths) - room, max(widths) + room, measures)

    def wrap(self, avail_width: float, _avail_height: float) -> tuple[float, float]:
        self.width = avail_width
        self.height = self.SKY + self.PLOT + 4 * self.ROW + 8
        self._month = (avail_width - self.LEFT) / 12
        self._base = self.height - self.SKY - self.PLOT
        return self.width, self.height

    def place(self, month: PanelMonth) -> tuple[float, float]:
        """Where a month's point lies in the drawing [points]."""
        return self.LEFT + (month.month - 0.5) * self._month, self._y(month.width_mm)

    def _y(self, width_mm: float) -> float:
        low, high = self.ticks[0], self.ticks[-1]
        return self._base + self.PLOT * (width_mm - low) / (high - low)

    def draw(self) -> None:
        canvas = self.canv
        canvas.saveState()
        self._draw_ground(canvas)
        self._draw_built(canvas)
        self._draw_curve(canvas)
        self._draw_extremes(canvas)
        self._draw_rows(canvas)
        canvas.restoreState()

    def _draw_ground(self, canvas: Canvas) -> None:
        canvas.setFillColor(SHADE)
        canvas.rect(self.LEFT, self._base, self.width - self.LEFT, self.PLOT, stroke=0, fill=1)
        canvas.setLineWidth(0.5)
        for width_mm in self.ticks:
            canvas.setStrokeColor(HAIRLINE)
            canvas.line(self.LEFT, self._y(width_mm), self.width, self._y(width_mm))
            canvas.setFillColor(PENCIL)
            text.draw(canvas, self.LEFT - 6, self._y(width_mm) - 3, self._tick(width_mm), WORDS, align=1)
        canvas.setStrokeColor(PENCIL)
        for n in range(13):
            x = self.LEFT + n * self._month
            canvas.line(x, self._base, x, self._base - 4)
        canvas.line(self.LEFT, self._base, self.width, self._base)

    def _tick(self, width_mm: float) -> str:
        if self.measures.unit == "inch" or (self.ticks[1] - self.ticks[0]) >= 1:
            return self.measures.change(width_mm).replace(".0 mm", " mm")
        return self.measures.change(width_mm)

    def _draw_built(self, canvas: Canvas) -> None:
        y = self._y(self.year.width_mm)
        canvas.saveState()
        canvas.setStrokeColor(PENCIL)
        canvas.setDash(5, 3)
        canvas.setLineWidth(0.8)
        canvas.line(self.LEFT, y, self.width, y)
        canvas.restoreState()
        points = [self.place(month) for month in self.year.months]
        first, last = abs(points[0][1] - y), abs(points[-1][1] - y)
        words = f"as built, {self.measures.length(self.year.width_mm)}"
        x, align = (self.LEFT + 5, 0.0) if first >= last else (self.width - 5, 1.0)
        above = (points[0] if align == 0 else points[-1])[1] < y
        canvas.setFillColor(PENCIL)
        text.draw(canvas, x, y + (4 if above else -WORDS - 1), words, WORDS, fonts.ITALIC, align)

    def _draw_curve(self, canvas: Canvas) -> None:
        points = [self.place(month) for month in self.year.months]
        canvas.setLineJoin(1)
        canvas.setLineCap(1)
        halo(canvas, points, 5)
        canvas.setStrokeColor(GRAPHITE)
        canvas.setLineWidth(1.8)
        canvas.drawPath(_line(canvas, points), stroke=1, fill=0)
        canvas.setFillColor(GRAPHITE)
        for x, y in points:
            canvas.circle(x, y, 2.2, stroke=0, fill=1)

    def _draw_extremes(self, canvas: Canvas) -> None:
        if self.year.swing_mm <= 0:
            return
        for month, word, up in ((self.year.narrowest, "narrowest", False), (self.year.widest, "widest", True)):
            x, y = self.place(month)
            canvas.setStrokeColor(CRAYON)
            canvas.setLineWidth(1.8)
            canvas.circle(x, y, 5, stroke=1, fill=0)
            words = f"{word}, {self.measures.change(month.width_mm)}"
            half = text.width(words, 10, fonts.STRONG) / 2
            x = min(max(x, self.LEFT + half + 4), self.width - half - 4)
            canvas.setFillColor(CRAYON)
            text.draw(canvas, x, y + 11 if up else y - 19, words, 10, fonts.STRONG, align=0.5)

    def _draw_rows(self, canvas: Canvas) -> None:
        months = self.year.months
        rows: list[tuple[str, Sequence[str], str]] = [
            ("", [month_abbr[month.month] for month in months], fonts.STRONG),
            ("Width", [self._cell(month) for month in months], fonts.TEXT),
            ("Air, %", [f"{month.rh_pct:.0f}" for month in months], fonts.TEXT),
            ("Wood, %", [f"{month.mc_pct:.1f}" for month in months], fonts.TEXT),
        ]
        for row, (head, cells, face) in enumerate(rows, start=1):
            y = self._base - row * self.ROW
            canvas.setFillColor(PENCIL)
            text.draw(canvas, self.LEFT - 6, y, head, WORDS, align=1)
            canvas.setFillColor(GRAPHITE)
            for n, cell in enumerate(cells):
                line, size = text.fitted(cell, WORDS, self._month - 2, face)
                text.draw(canvas, self.LEFT + (n + 0.5) * self._month, y, line, size, face, align=0.5)

    def _cell(self, month: PanelMonth) -> str:
        return self.measures.change(month.width_mm).removesuffix(" mm")


def _line(canvas: Canvas, points: Sequence[tuple[float, float]]) -> object:
    path = canvas.beginPath()
    path.moveTo(*points[0])
    for point in points[1:]:
        path.lineTo(*point)
    return path


class TrueSwing(Flowable):
    """The year's swing at its true size: two pencil lines as far apart as the panel's edge travels."""

    HIGH = 30.0

    def __init__(self, swing_mm: float, measures: Measures) -> None:
        super().__init__()
        self.swing_mm, self.measures = swing_mm, measures

    def wrap(self, avail_width: float, _avail_height: float) -> tuple[float, float]:
        self.width, self.height = avail_width, self.HIGH + 8
        return self.width, self.height

    def draw(self) -> None:
        canvas, across = self.canv, self.swing_mm * mm
        canvas.saveState()
        canvas.setFillColor(SHADE)
        canvas.rect(0.5, 4, across, self.HIGH, stroke=0, fill=1)
        canvas.setStrokeColor(GRAPHITE)
        canvas.setLineWidth(1)
        canvas.line(0.5, 4, 0.5, 4 + self.HIGH)
        canvas.line(0.5 + across, 4, 0.5 + across, 4 + self.HIGH)
        canvas.setFillColor(GRAPHITE)
        words = f"{self.measures.change(self.swing_mm)}, at its true size when this page is printed at full size"
        line, size = text.fitted(words, 10, self.width - across - 12)
        text.draw(canvas, across + 12, 4 + self.HIGH / 2 - 3.5, line, size)
        canvas.restoreState()
