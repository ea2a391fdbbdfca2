"""The packet's cover: the piece, whom it was made for, and the boards it came from, lying as in the rack."""

from reportlab.lib.units import mm
from reportlab.pdfgen.canvas import Canvas
from reportlab.platypus import Paragraph

from shopapi.craft.packet import BoardUsed, PacketData
from shopapi.printing import fonts, text
from shopapi.printing.flowables.board import CLIENT, Window
from shopapi.printing.flowables.board.wood import draw_edges, draw_wood
from shopapi.printing.flowables.headings import paragraph
from shopapi.printing.pages import Format
from shopapi.printing.pencil import crayon_line
from shopapi.printing.pictures import Album
from shopapi.printing.styles import GRAPHITE, PENCIL, sheet
from shopapi.printing.wording import day

MOST_BOARDS = 6
STACK_HIGH, BOARD_HIGH, GAP = 290.0, 120.0, 7.0
TITLE_HIGH, DESCRIPTION_HIGH = 150.0, 70.0
DESCRIPTION_SHARE = 0.86
PLAIN_BOARD = BoardUsed("", "", 2600, 240, 27)


def draw_cover(canvas: Canvas, form: Format, data: PacketData, album: Album) -> None:
    canvas.saveState()
    top = form.size[1] - form.top
    canvas.setFillColor(GRAPHITE)
    workshop, size = text.fitted(data.maker.workshop, 12, form.text_width, fonts.STRONG)
    text.draw(canvas, form.side, top - 6, workshop, size, fonts.STRONG)
    stack_top = _draw_words(canvas, form, data, top - 74) - 34
    _draw_stack(canvas, form, data, album, stack_top)
    _draw_foot(canvas, form, data)
    canvas.restoreState()


def _draw_words(canvas: Canvas, form: Format, data: PacketData, top: float) -> float:
    """Piece, client, description; gives the y under them."""
    piece = _title(data.piece, form.text_width)
    height = piece.wrap(form.text_width, 1000)[1]
    piece.drawOn(canvas, form.side, top - height)
    y = top - height - 16
    crayon_line(canvas, (form.side + 1, y), (form.side + 92, y + 1.5), 3.6)
    y -= 18
    lines = []
    if data.client:
        lines.append(paragraph(f"Made for {data.client}", "lead"))
    if data.description and fits_cover(data.description, form):
        lines.append(paragraph(data.description))
    for line in lines:
        height = line.wrap(form.text_width * DESCRIPTION_SHARE, 1000)[1]
        line.drawOn(canvas, form.side, y - height)
        y -= height + 4
    return y


def fits_cover(description: str, form: Format) -> bool:
    """Whether the cover holds the description; a longer one opens the pages inside."""
    return paragraph(description).wrap(form.text_width * DESCRIPTION_SHARE, 1000)[1] <= DESCRIPTION_HIGH


def _title(words: str, width: float) -> Paragraph:
    """The piece's name as large as it fits in the space a title may take."""
    style = sheet()["piece"]
    for size in (style.fontSize, 34, 28, 24, 20):
        made = Paragraph(text.markup(words, style.fontName), style.clone("fitted", fontSize=size, leading=size * 1.1))
        if made.wrap(width, 10_000)[1] <= TITLE_HIGH:
            break
    return made


def _draw_stack(canvas: Canvas, form: Format, data: PacketData, album: Album, top: float) -> None:
    """The boards at one scale, butt ends on the margin, running off the page on the right like stock on a rack."""
    boards = _chosen(data.boards)
    high = min(STACK_HIGH, top - form.bottom - 62)
    scale = _scale(boards, high, form)
    space = form.size[0] - form.side
    y = form.bottom + 44 + high
    if not data.boards:
        y = form.bottom + 44 + boards[0].width_mm * scale + high * 0.25
    for board in boards:
        y -= board.width_mm * scale
        shown_mm = min(board.length_mm, space / scale)
        window = Window(0, shown_mm, board.length_mm, board.width_mm, scale)
        canvas.saveState()
        canvas.translate(form.side, y)
        draw_wood(canvas, window, board.picture, album, CLIENT)
        if board.picture is None:
            draw_edges(canvas, window, CLIENT)
        canvas.restoreState()
        canvas.setFillColor(PENCIL)
        tag, size = text.fitted(board.tag, 9, form.side - 16, least=5)
        text.draw(canvas, form.side - 7, y + board.width_mm * scale / 2 - 3, tag, size, align=1)
        y -= GAP


def _chosen(boards: tuple[BoardUsed, ...]) -> list[BoardUsed]:
    """Boards with a picture come before those without; more than the cover holds are left to the pages inside."""
    pictured = sorted(boards, key=lambda board: board.picture is None)
    return pictured[:MOST_BOARDS] or [PLAIN_BOARD]


def _scale(boards: list[BoardUsed], high: float, form: Format) -> float:
    """Points per mm at which the boards fill the height they have, none higher than looks well."""
    widths = [board.width_mm for board in boards]
    fills = (high - GAP * (len(boards) - 1)) / sum(widths)
    return max(0.02, min(fills, BOARD_HIGH / max(widths)))


def _draw_foot(canvas: Canvas, form: Format, data: PacketData) -> None:
    number = f" {data.reference}" if data.reference else ""
    since = f" of {day(data.ordered_on)}" if data.ordered_on else ""
    lines = [f"Commission{number}{since}"] if number or since else []
    lines.append(f"printed {day(data.made_on)}" if lines else f"Printed {day(data.made_on)}")
    canvas.setFillColor(PENCIL)
    line, size = text.fitted(", ".join(lines), 10, form.text_width)
    text.draw(canvas, form.side, form.bottom - 4 * mm, line, size)
