"""Sheets of labels, one for each piece: stuck or stapled on as it comes off the saw."""

from pathlib import Path

from reportlab.lib.units import mm
from reportlab.pdfgen.canvas import Canvas

from shopapi.craft.packet import LabelsData, PartLabel
from shopapi.printing import fonts, text
from shopapi.printing.pages import PAPERS, Out
from shopapi.printing.styles import GRAPHITE, PENCIL

PAD_MM = 2.2
NAME, SIZE, SMALL = 13.0, 11.0, 8.0
LINES = NAME + SIZE + 2 * SMALL  # type sizes of all lines, one below the other


def build_part_labels(data: LabelsData, out: Out) -> int:
    """Draws the sheets and gives the number of pages; nothing but labels stands on them."""
    fonts.register()
    canvas = Canvas(
        str(out) if isinstance(out, Path) else out, pagesize=PAPERS[data.sheet.paper], initialFontName=fonts.TEXT
    )
    canvas.setTitle(text.one_line(f"Part labels of {data.commission}"))
    canvas.setAuthor(text.one_line(data.workshop))
    canvas.setCreator("Flitchbook")
    pages = 1
    for number, label in enumerate(data.labels, start=data.used):
        place = number % data.sheet.count
        if place == 0 and number > data.used:
            canvas.showPage()
            pages += 1
        _draw(canvas, label, data, place)
    canvas.save()
    return pages


def _draw(canvas: Canvas, label: PartLabel, data: LabelsData, place: int) -> None:
    sheet = data.sheet
    row, column = divmod(place, sheet.columns)
    left = (sheet.left_mm + column * sheet.across_mm + PAD_MM) * mm
    top = PAPERS[sheet.paper][1] - (sheet.top_mm + row * sheet.down_mm + PAD_MM) * mm
    width, height = (sheet.width_mm - 2 * PAD_MM) * mm, (sheet.height_mm - 2 * PAD_MM) * mm
    scale = min(1.6, height / (LINES * 1.22))
    gap = (height - LINES * scale) / 3.4
    canvas.setFillColor(GRAPHITE)
    tag, size = text.fitted(label.board, NAME * scale, width * 0.35, fonts.STRONG)
    text.draw(canvas, left + width, top - NAME * scale * 0.8, tag, size, fonts.STRONG, align=1)
    room = width - text.width(tag, size, fonts.STRONG) - 6
    y = top - NAME * scale * 0.8
    line, size = text.fitted(label.part, NAME * scale, room, fonts.STRONG)
    text.draw(canvas, left, y, line, size, fonts.STRONG)
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
        text.draw(canvas, left, y, line, size, face)
