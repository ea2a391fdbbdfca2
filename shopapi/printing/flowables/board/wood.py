"""The wood itself: its photograph, or pencilled grain where there is none, and its edges and ends."""

from reportlab.pdfgen.canvas import Canvas

from shopapi.craft.packet import Picture
from shopapi.printing import text
from shopapi.printing.flowables.board.look import Look, Window
from shopapi.printing.pencil import wobble
from shopapi.printing.pictures import Album, PictureError
from shopapi.printing.styles import GRAPHITE, HAIRLINE, PENCIL, SHADE, WHITE


def draw_wood(canvas: Canvas, window: Window, picture: Picture | None, album: Album, look: Look) -> None:
    if not _draw_picture(canvas, window, picture, album, look):
        _draw_grain(canvas, window)


def _draw_picture(canvas: Canvas, window: Window, picture: Picture | None, album: Album, look: Look) -> bool:
    if picture is None:
        return False
    share = window.start_mm / window.board_mm, min(1.0, window.end_mm / window.board_mm)
    try:
        image = album.stretch(picture, *share, window.long)
    except PictureError:
        return False
    canvas.drawImage(image, 0, 0, window.long, window.high)
    if look.veil:
        canvas.saveState()
        canvas.setFillColor(WHITE, alpha=look.veil)
        canvas.rect(0, 0, window.long, window.high, stroke=0, fill=1)
        canvas.restoreState()
    return True


def _draw_grain(canvas: Canvas, window: Window) -> None:
    canvas.saveState()
    canvas.setFillColor(SHADE)
    canvas.rect(0, 0, window.long, window.high, stroke=0, fill=1)
    canvas.setStrokeColor(HAIRLINE)
    canvas.setLineWidth(0.5)
    lines = max(3, int(window.high / 6))
    for n in range(1, lines):
        y = window.high * n / lines
        path = canvas.beginPath()
        path.moveTo(0, y + wobble(n, 1.5))
        for step in range(1, 9):
            path.lineTo(window.long * step / 8, y + wobble(n + (step + window.start_mm) * 0.37, 1.5))
        canvas.drawPath(path, stroke=1, fill=0)
    canvas.restoreState()


def draw_edges(canvas: Canvas, window: Window, look: Look) -> None:
    canvas.saveState()
    canvas.setStrokeColor(GRAPHITE)
    canvas.setLineWidth(1)
    canvas.line(0, 0, window.long, 0)
    canvas.line(0, window.high, window.long, window.high)
    _draw_end(canvas, 0, window.high, real=window.is_first)
    _draw_end(canvas, window.long, window.high, real=window.is_last)
    if look.butt_end and window.is_first:
        canvas.setFillColor(PENCIL)
        canvas.rotate(90)
        text.draw(canvas, window.high / 2, 5, "butt end", min(11.0, window.high / 5), align=0.5)
    canvas.restoreState()


def _draw_end(canvas: Canvas, x: float, high: float, *, real: bool) -> None:
    """A straight end where the board ends, a broken one where it goes on in the next drawing."""
    if real:
        canvas.line(x, 0, x, high)
        return
    teeth = max(4, int(high / 7))
    path = canvas.beginPath()
    path.moveTo(x, 0)
    for n in range(1, teeth + 1):
        path.lineTo(x + (1.8 if n % 2 else -1.8) * (n < teeth), high * n / teeth)
    canvas.setLineWidth(0.7)
    canvas.drawPath(path, stroke=1, fill=0)
