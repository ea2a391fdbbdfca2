"""How each kind of mark is drawn: a pattern and a letter, so that it reads in black and white too."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from reportlab.pdfgen.canvas import Canvas

from shopapi.craft.packet import BoardMark
from shopapi.printing import fonts, text
from shopapi.printing.styles import GRAPHITE, HALO

Point = tuple[float, float]
Box = tuple[float, float, float, float]
Pattern = Callable[[Canvas, Box], None]

STEP = 5.0


@dataclass(frozen=True)
class Drawn:
    """A kind of mark on paper: its word, its letter, its pattern."""

    word: str
    letter: str
    pattern: Pattern


def _lines(canvas: Canvas, box: Box, dx: float, dy: float, step: float = STEP) -> None:
    """Parallel lines over the box, in direction (dx, dy), a step apart."""
    left, low, right, high = box
    reach = (right - left) + (high - low) + step
    middle_x, middle_y = (left + right) / 2, (low + high) / 2
    count = int(reach / step) + 1
    for n in range(-count, count + 1):
        x, y = middle_x - dy * n * step, middle_y + dx * n * step
        canvas.line(x - dx * reach, y - dy * reach, x + dx * reach, y + dy * reach)


def _slanted(canvas: Canvas, box: Box) -> None:
    _lines(canvas, box, 0.707, 0.707)


def _slanted_back(canvas: Canvas, box: Box) -> None:
    _lines(canvas, box, 0.707, -0.707)


def _crossed(canvas: Canvas, box: Box) -> None:
    _slanted(canvas, box)
    _slanted_back(canvas, box)


def _level(canvas: Canvas, box: Box) -> None:
    _lines(canvas, box, 1, 0, 4)


def _upright(canvas: Canvas, box: Box) -> None:
    _lines(canvas, box, 0, 1, 4)


def _squared(canvas: Canvas, box: Box) -> None:
    _level(canvas, box)
    _upright(canvas, box)


def _dotted(canvas: Canvas, box: Box) -> None:
    canvas.setDash(0.6, 5)
    canvas.setLineCap(1)
    _lines(canvas, box, 1, 0)


def _dashed(canvas: Canvas, box: Box) -> None:
    canvas.setDash(5, 4)
    _lines(canvas, box, 1, 0)


def _dashed_slant(canvas: Canvas, box: Box) -> None:
    canvas.setDash(6, 3)
    _lines(canvas, box, 0.5, 0.866, 6)


def _sparse(canvas: Canvas, box: Box) -> None:
    canvas.setDash(1.2, 11)
    canvas.setLineCap(1)
    _lines(canvas, box, 0.5, 0.866, 13)


def _rings(canvas: Canvas, box: Box) -> None:
    left, low, right, high = box
    for share in (0.8, 0.52, 0.24):
        across, up = (right - left) / 2 * share, (high - low) / 2 * share
        x, y = (left + right) / 2, (low + high) / 2
        canvas.ellipse(x - across, y - up, x + across, y + up, stroke=1, fill=0)


def _small_rings(canvas: Canvas, box: Box) -> None:
    left, low, right, high = box
    for row in range(int((high - low) / 6) + 1):
        for column in range(int((right - left) / 6) + 1):
            canvas.circle(left + 3 + column * 6, low + 3 + row * 6, 1.1, stroke=1, fill=0)


def _bare(_canvas: Canvas, _box: Box) -> None:
    pass


KINDS = {
    "knot": Drawn("knot", "K", _rings),
    "check": Drawn("check", "C", _slanted),
    "split": Drawn("split", "S", _slanted_back),
    "wane": Drawn("wane", "W", _crossed),
    "sapwood": Drawn("sapwood", "P", _dotted),
    "bark_pocket": Drawn("bark pocket", "B", _squared),
    "worm_holes": Drawn("worm holes", "H", _small_rings),
    "pitch": Drawn("pitch", "R", _dashed),
    "stain": Drawn("stain", "T", _level),
    "pith": Drawn("pith", "X", _upright),
    "snipe": Drawn("snipe", "N", _dashed_slant),
    "other": Drawn("other", "O", _bare),
    "figure": Drawn("prized figure", "F", _sparse),
}
OUTLINES: dict[str, list[float]] = {"all": [], "show": [4, 2.4], "none": [1, 2.4]}


def of_kind(kind: str) -> Drawn:
    return KINDS.get(kind, KINDS["other"])


def draw_mark(canvas: Canvas, mark: BoardMark, points: Sequence[Point], width_pt: float) -> None:
    """The mark on the wood; points and the width of a line are already in points on the page."""
    canvas.saveState()
    if mark.open_line:
        _draw_line(canvas, mark, points, width_pt)
    else:
        _draw_area(canvas, mark, points)
    _draw_letter(canvas, mark, points)
    canvas.restoreState()


def _draw_line(canvas: Canvas, mark: BoardMark, points: Sequence[Point], width_pt: float) -> None:
    canvas.setLineCap(1)
    canvas.setLineJoin(1)
    for colour, width in ((HALO, max(width_pt, 1.2) + 2.4), (GRAPHITE, max(width_pt, 1.2))):
        canvas.setStrokeColor(colour)
        canvas.setLineWidth(width)
        canvas.setDash(OUTLINES[mark.blocks])
        canvas.drawPath(_path(canvas, points, closed=False), stroke=1, fill=0)


def _draw_area(canvas: Canvas, mark: BoardMark, points: Sequence[Point]) -> None:
    xs, ys = [x for x, _ in points], [y for _, y in points]
    canvas.saveState()
    canvas.clipPath(_path(canvas, points, closed=True), stroke=0, fill=0)
    for colour, width in ((HALO, 1.9), (GRAPHITE, 0.6)):
        canvas.saveState()
        canvas.setStrokeColor(colour)
        canvas.setLineWidth(width)
        of_kind(mark.kind).pattern(canvas, (min(xs), min(ys), max(xs), max(ys)))
        canvas.restoreState()
    canvas.restoreState()
    for colour, width in ((HALO, 2.8), (GRAPHITE, 1.1)):
        canvas.setStrokeColor(colour)
        canvas.setLineWidth(width)
        canvas.setDash([] if colour is HALO else OUTLINES[mark.blocks])
        canvas.drawPath(_path(canvas, points, closed=True), stroke=1, fill=0)


def _draw_letter(canvas: Canvas, mark: BoardMark, points: Sequence[Point]) -> None:
    x = (min(x for x, _ in points) + max(x for x, _ in points)) / 2
    y = (min(y for _, y in points) + max(y for _, y in points)) / 2
    draw_badge(canvas, x, y, of_kind(mark.kind).letter)


def draw_badge(canvas: Canvas, x: float, y: float, letter: str, size: float = 7.5) -> None:
    """The letter of a kind in a small white disc."""
    canvas.saveState()
    canvas.setDash([])
    canvas.setLineWidth(0.6)
    canvas.setStrokeColor(GRAPHITE)
    canvas.setFillColorRGB(1, 1, 1)
    canvas.circle(x, y, size * 0.72, stroke=1, fill=1)
    canvas.setFillColor(GRAPHITE)
    text.draw(canvas, x, y - size * 0.345, letter, size, fonts.STRONG, align=0.5)
    canvas.restoreState()


def _path(canvas: Canvas, points: Sequence[Point], *, closed: bool) -> object:
    path = canvas.beginPath()
    path.moveTo(*points[0])
    for point in points[1:]:
        path.lineTo(*point)
    if closed:
        path.close()
    return path
