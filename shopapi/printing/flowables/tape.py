"""A tape along a board's lower edge, and a ruler that proves the print came out at full size."""

from math import ceil

from reportlab.lib.units import mm
from reportlab.pdfgen.canvas import Canvas

from shopapi.craft.measures import MM_PER_INCH
from shopapi.craft.packet import Measures
from shopapi.printing import text
from shopapi.printing.styles import GRAPHITE, PENCIL


def draw_tape(
    canvas: Canvas, measures: Measures, start_mm: float, end_mm: float, pt_per_mm: float, size: float, base: float
) -> None:
    """Ticks below the line y = base, figures at every foot or half metre; x = 0 is start_mm."""
    tick_mm, middle, figure = (MM_PER_INCH, 6, 12) if measures.unit == "inch" else (100.0, 5, 5)
    if tick_mm * pt_per_mm < 2.2:  # ticks too close to tell apart
        tick_mm, middle, figure = tick_mm * middle, 2, max(1, figure // middle)
    canvas.saveState()
    canvas.setStrokeColor(PENCIL)
    canvas.setFillColor(PENCIL)
    canvas.setLineWidth(0.5)
    for n in range(ceil(start_mm / tick_mm - 1e-6), int(end_mm / tick_mm + 1e-6) + 1):
        x = (n * tick_mm - start_mm) * pt_per_mm
        length = size * (0.55 if n % figure == 0 else 0.4 if n % middle == 0 else 0.22)
        canvas.line(x, base - 1, x, base - 1 - length)
        if n % figure == 0:
            number = measures.number(n * tick_mm)
            align = 0 if x < 6 else 1 if (end_mm - start_mm) * pt_per_mm - x < 14 else 0.5
            text.draw(canvas, x, base - 1 - length - size * 0.86, number, size, align=align)
    canvas.restoreState()


def tape_height(size: float) -> float:
    return 1 + size * 1.6


RULER_MM = 100
RULER_WORDS = "100 mm when printed at full size"


def draw_ruler(canvas: Canvas, x: float, y: float, size: float) -> None:
    """A ruler of exactly 100 mm with its words under it, to be laid against a real one."""
    canvas.saveState()
    canvas.setStrokeColor(GRAPHITE)
    canvas.setFillColor(PENCIL)
    canvas.setLineWidth(0.7)
    canvas.line(x, y, x + RULER_MM * mm, y)
    for n in range(0, RULER_MM + 1, 5):
        canvas.line(x + n * mm, y, x + n * mm, y + size * (0.9 if n % 50 == 0 else 0.65 if n % 10 == 0 else 0.4))
    text.draw(canvas, x + RULER_MM * mm, y - size * 1.2, RULER_WORDS, size, align=1)
    canvas.restoreState()
