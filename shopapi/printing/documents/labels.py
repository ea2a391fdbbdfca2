"""Sheets of tags for boards: the tag to be read from afar, and a code that opens the board when it is scanned."""

from functools import partial
from math import ceil

import segno
from reportlab.lib.colors import black
from reportlab.lib.units import mm
from reportlab.pdfgen.canvas import Canvas

from shopapi.craft.packet import BoardLabel, BoardLabelsData, SheetError
from shopapi.printing import fonts, text
from shopapi.printing.label_grid import PAD_MM, build_labels, inner_mm
from shopapi.printing.pages import Out
from shopapi.printing.styles import GRAPHITE, PENCIL

# A phone reads cells from about 0.33 mm on at arm's length; ISO/IEC 18004 asks for a rim of four cells around a code.
LEAST_CELL_MM, RIM_CELLS = 0.35, 4
MOST_CODE_MM = 38.0
CODE_SHARE = 0.45  # of a label's width, so that the tag has room beside it
GAP = 2.0 * mm
TAG, WORD = 34.0, 11.0


def build_board_labels(data: BoardLabelsData, out: Out) -> int:
    """Draws the sheets and gives the number of pages. Raises SheetError where a code would be too small to scan."""
    codes = [segno.make_qr(label.address, error="M") for label in data.labels]
    side_mm = code_side_mm(data, max((len(code.matrix) for code in codes), default=0) + 2 * RIM_CELLS)
    drawings = [
        partial(_draw, label, code.matrix, side_mm * mm, data) for label, code in zip(data.labels, codes, strict=True)
    ]
    title = "Board tags"
    return build_labels(drawings, data.sheet, out, used=data.used, title=title, author=data.workshop)


def code_side_mm(data: BoardLabelsData, cells: int) -> float:
    """How large the codes are printed, their rim counted. [mm]"""
    width_mm, height_mm = inner_mm(data.sheet)
    side_mm = min(height_mm, width_mm * CODE_SHARE, MOST_CODE_MM)
    least_mm = cells * LEAST_CELL_MM
    if side_mm < least_mm:
        high, wide = least_mm + 2 * PAD_MM, least_mm / CODE_SHARE + 2 * PAD_MM
        raise SheetError(
            "On these labels the code would be too small to scan. "
            f"Take labels of at least {ceil(wide)} by {ceil(high)} mm."
        )
    return side_mm


def _draw(
    label: BoardLabel,
    matrix: tuple[bytearray, ...],
    side: float,
    data: BoardLabelsData,
    canvas: Canvas,
    width: float,
    height: float,
) -> None:
    _draw_code(canvas, matrix, side, (height - side) / 2)
    # The rim already stands the words off the code.
    left = side + GAP / 2
    room = width - left
    lines = [line for line in (label.species, data.measures.size(*label.size_mm[:2]), _depth(label, data)) if line]
    scale = min(1.5, height / (TAG + len(lines) * WORD * 1.35))
    total = (TAG + len(lines) * WORD * 1.35) * scale
    y = (height + total) / 2 - TAG * scale * 0.8
    canvas.setFillColor(GRAPHITE)
    _draw_tag(canvas, label.tag, left, y, room, TAG * scale)
    y -= TAG * scale * 0.2
    for number, words in enumerate(lines):
        y -= WORD * scale * 1.35
        canvas.setFillColor(PENCIL if number == 0 else GRAPHITE)
        line, size = text.fitted(words, WORD * scale, room)
        text.draw(canvas, left, y + WORD * scale * 0.35, line, size)


def _draw_tag(canvas: Canvas, tag: str, x: float, y: float, room: float, most: float) -> None:
    """The tag as large as its room lets it be: on two lines of half the size where that is larger."""
    halves = _halves(text.one_line(tag))
    one = text.fitted(tag, most, room, fonts.STRONG)
    two = [text.fitted(half, most * 0.5, room, fonts.STRONG) for half in halves]
    if len(two) < 2 or one[1] >= min(size for _, size in two):
        text.draw(canvas, x, y, *one, fonts.STRONG)
        return
    size = min(size for _, size in two)
    for number, (line, _) in enumerate(two):
        text.draw(canvas, x, y + (1 - number) * most * 0.5, line, size, fonts.STRONG)


def _halves(tag: str) -> list[str]:
    """A tag of several words as two lines, as even as they can be."""
    words = tag.split(" ")
    ways = [[" ".join(words[:at]), " ".join(words[at:])] for at in range(1, len(words))]
    return min(ways, key=lambda way: max(map(len, way)), default=[tag])


def _depth(label: BoardLabel, data: BoardLabelsData) -> str:
    thickness = f"{label.quarters}/4" if label.quarters else data.measures.length(label.size_mm[2])
    return f"{thickness} · {label.flitch}" if label.flitch else thickness


def _draw_code(canvas: Canvas, matrix: tuple[bytearray, ...], side: float, bottom: float) -> None:
    cell = side / (len(matrix) + 2 * RIM_CELLS)
    seam = cell * 0.02  # cells overlap a little, or hairlines show between them
    canvas.setFillColor(black)
    for row, cells in enumerate(matrix):
        y = bottom + side - (RIM_CELLS + row + 1) * cell
        start = None
        for column, dark in enumerate([*cells, 0]):
            if dark and start is None:
                start = column
            elif not dark and start is not None:
                x = (RIM_CELLS + start) * cell
                canvas.rect(x, y - seam, (column - start) * cell, cell + seam, stroke=0, fill=1)
                start = None
