"""The page grid of a sheet of labels: what stands on a label is drawn by its own document."""

from collections.abc import Callable, Iterable
from pathlib import Path

from reportlab.lib.units import mm
from reportlab.pdfgen.canvas import Canvas

from shopapi.craft.packet import LabelSheet
from shopapi.printing import fonts, text
from shopapi.printing.pages import PAPERS, Out

PAD_MM = 2.2

# Draws one label: the canvas with its origin at the lower left of what may be drawn on, and its width and height [pt].
Drawing = Callable[[Canvas, float, float], None]


def inner_mm(sheet: LabelSheet) -> tuple[float, float]:
    """Width and height of what may be drawn on: a sheet is never fed quite straight."""
    return sheet.width_mm - 2 * PAD_MM, sheet.height_mm - 2 * PAD_MM


def build_labels(
    drawings: Iterable[Drawing], sheet: LabelSheet, out: Out, *, used: int = 0, title: str, author: str
) -> int:
    """Draws a label for each drawing, row by row, and gives the number of pages; nothing but labels stands on them.

    `used` labels are gone from the first sheet.
    """
    fonts.register()
    canvas = Canvas(
        str(out) if isinstance(out, Path) else out, pagesize=PAPERS[sheet.paper], initialFontName=fonts.TEXT
    )
    canvas.setTitle(text.one_line(title))
    canvas.setAuthor(text.one_line(author))
    canvas.setCreator("Flitchbook")
    pages = 1
    width, height = (side * mm for side in inner_mm(sheet))
    for number, draw in enumerate(drawings, start=used):
        place = number % sheet.count
        if place == 0 and number > used:
            canvas.showPage()
            pages += 1
        row, column = divmod(place, sheet.columns)
        left = (sheet.left_mm + column * sheet.across_mm + PAD_MM) * mm
        top = PAPERS[sheet.paper][1] - (sheet.top_mm + row * sheet.down_mm + PAD_MM) * mm
        canvas.saveState()
        canvas.translate(left, top - height)
        draw(canvas, width, height)
        canvas.restoreState()
    canvas.save()
    return pages
