"""Sheets of labels, one for each piece: stuck or stapled on as it comes off the saw."""

from functools import partial

from reportlab.pdfgen.canvas import Canvas

from shopapi.craft.packet import LabelsData, PartLabel
from shopapi.printing import fonts, text
from shopapi.printing.label_grid import build_labels
from shopapi.printing.pages import Out
from shopapi.printing.styles import GRAPHITE, PENCIL

NAME, SIZE, SMALL = 13.0, 11.0, 8.0
LINES = NAME + SIZE + 2 * SMALL  # type sizes of all lines, one below the other


def build_part_labels(data: LabelsData, out: Out) -> int:
    """Draws the sheets and gives the number of pages."""
    drawings = [partial(_draw, label, data) for label in data.labels]
    title = f"Part labels of {data.commission}"
    return build_labels(drawings, data.sheet, out, used=data.used, title=title, author=data.workshop)


def _draw(label: PartLabel, data: LabelsData, canvas: Canvas, width: float, height: float) -> None:
    scale = min(1.6, height / (LINES * 1.22))
    gap = (height - LINES * scale) / 3.4
    canvas.setFillColor(GRAPHITE)
    y = height - NAME * scale * 0.8
    tag, size = text.fitted(label.board, NAME * scale, width * 0.35, fonts.STRONG)
    text.draw(canvas, width, y, tag, size, fonts.STRONG, align=1)
    room = width - text.width(tag, size, fonts.STRONG) - 6
    line, size = text.fitted(label.part, NAME * scale, room, fonts.STRONG)
    text.draw(canvas, 0, y, line, size, fonts.STRONG)
    rough = f"sawn {data.measures.size(*label.rough_mm)}"
    finished = f"finished {data.measures.size(*label.finished_mm)}"
    about = " · ".join(each for each in (label.which, label.note) if each)
    for words, points, face, colour in (
        (rough, SIZE, fonts.STRONG, GRAPHITE),
        (finished, SMALL, fonts.TEXT, GRAPHITE),
        (f"{about} · {data.commission}" if about else data.commission, SMALL, fonts.TEXT, PENCIL),
    ):
        y -= points * scale + gap
        canvas.setFillColor(colour)
        line, size = text.fitted(words, points * scale, width, face)
        text.draw(canvas, 0, y, line, size, face)
