"""What is written on a board: the names of its pieces, the labels of its sections."""

from reportlab.pdfgen.canvas import Canvas

from shopapi.craft.packet import Piece, Section
from shopapi.printing import fonts, text
from shopapi.printing.flowables.board.look import Look, Window
from shopapi.printing.flowables.labels import Box, Taken
from shopapi.printing.styles import GRAPHITE, WHITE

STEP = 9.0


def draw_plate(canvas: Canvas, box: Box, alpha: float = 0.86) -> None:
    """A pale ground under words, so that they read on any wood."""
    canvas.saveState()
    canvas.setFillColor(WHITE, alpha=alpha)
    canvas.roundRect(box[0], box[1], box[2] - box[0], box[3] - box[1], 2.5, stroke=0, fill=1)
    canvas.restoreState()


def draw_name(canvas: Canvas, window: Window, piece: Piece, number: int, look: Look, taken: Taken) -> None:
    """The part's name where its piece lies; only its number where the name has no room."""
    _, low, _, high = window.box(piece.x_mm, piece.y_mm, piece.length_mm, piece.width_mm)
    start, end = window.seen(piece.x_mm, piece.x_mm + piece.length_mm)
    size = min(look.name, high * 0.72)
    if end - start < size or not window.is_best_for(piece.x_mm, piece.x_mm + piece.length_mm, 60):
        return
    name = text.one_line(piece.part)
    wordings = [f"{number} {name}", str(number)] if look.numbered else [name]
    for words in wordings:
        line, fitting = text.fitted(words, size, end - start - 8, least=min(size, look.least_name))
        if line != words and (look.numbered or len(line) < 4):
            continue
        places = _along(start, end, low + high / 2, text.width(line, fitting) + 6, fitting)
        # A number is written even where it has to touch something: no piece stays without.
        box = taken.take(places) or (places[-1] if words is wordings[-1] and look.numbered else None)
        if box:
            draw_plate(canvas, box)
            canvas.setFillColor(GRAPHITE)
            text.draw(canvas, box[0] + 3, low + high / 2 - fitting * 0.34, line, fitting)
            return


def _along(start: float, end: float, middle: float, width: float, size: float) -> list[Box]:
    """Boxes for words on a piece: in its middle first, then step by step towards its ends."""
    centre, reach = (start + end) / 2, max(0.0, (end - start - width) / 2)
    offsets = [0.0] + [side * STEP * n for n in range(1, int(reach / STEP) + 1) for side in (1, -1)]
    half = size * 0.52
    return [(centre + dx - width / 2, middle - half, centre + dx + width / 2, middle + half) for dx in offsets]


def draw_section(canvas: Canvas, window: Window, section: Section, taken: Taken) -> None:
    """A section's letter on a bracket above the board; the label of a strip on it, at its far end."""
    start, end = window.seen(section.x_mm, section.x_mm + section.length_mm)
    if end - start < 8:
        return
    canvas.saveState()
    canvas.setFillColor(GRAPHITE)
    if section.label.isalpha() and section.label.isupper():
        _draw_bracket(canvas, section.label, start, end, window.high + 5)
    elif window.holds(section.x_mm + section.length_mm - 1):
        _, low, _, high = window.box(section.x_mm, section.y_mm, section.length_mm, section.width_mm)
        size = min(13.0, max(8.0, high * 0.6))
        width = text.width(section.label, size, fonts.STRONG) + 6
        box = taken.take([(end - width - 2, low + high / 2 - size * 0.5, end - 2, low + high / 2 + size * 0.5)])
        if box:
            draw_plate(canvas, box)
            text.draw(canvas, box[0] + 3, low + high / 2 - size * 0.34, section.label, size, fonts.STRONG)
    canvas.restoreState()


def _draw_bracket(canvas: Canvas, label: str, start: float, end: float, y: float, size: float = 13.0) -> None:
    canvas.setStrokeColor(GRAPHITE)
    canvas.setLineWidth(0.8)
    canvas.line(start + 2, y, start + 2, y + 4)
    canvas.line(end - 2, y, end - 2, y + 4)
    canvas.line(start + 2, y + 4, end - 2, y + 4)
    half = text.width(label, size, fonts.STRONG) / 2 + 4
    middle = (start + end) / 2
    draw_plate(canvas, (middle - half, y - 3, middle + half, y + size - 1), alpha=1)
    text.draw(canvas, middle, y, label, size, fonts.STRONG, align=0.5)
