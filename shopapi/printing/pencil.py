"""Lines as a hand draws them: pencil that runs past its corners, crayon with a rough edge; the same on every print."""

from collections.abc import Iterator, Sequence
from math import cos, hypot, sin

from reportlab.lib.colors import Color
from reportlab.pdfgen.canvas import Canvas

from shopapi.printing.styles import CRAYON, GRAPHITE, HALO

Point = tuple[float, float]


def wobble(seed: float, size: float) -> float:
    """A small offset that looks like chance and is always the same for the same seed."""
    return size * sin(seed * 12.9898 + 78.233 * cos(seed * 0.731))


def halo(canvas: Canvas, points: Sequence[Point], width: float) -> None:
    """A pale band under a line, so that it shows on walnut and on maple alike."""
    _stroke(canvas, points, width, HALO)


def pencil_box(canvas: Canvas, x: float, y: float, width: float, height: float, weight: float = 0.9) -> None:
    """A pencilled outline whose lines cross a little at the corners."""
    over = min(3.0, width * 0.08, height * 0.18)
    corners = ((x, y), (x + width, y), (x + width, y + height), (x, y + height))
    halo(canvas, (*corners, corners[0]), weight + 1.7)
    for start, end in zip(corners, (*corners[1:], corners[0]), strict=True):
        length = hypot(end[0] - start[0], end[1] - start[1]) or 1.0
        ux, uy = (end[0] - start[0]) / length, (end[1] - start[1]) / length
        first = over * (0.6 + wobble(start[0] + start[1], 0.4))
        last = over * (0.6 + wobble(end[0] - end[1], 0.4))
        line = ((start[0] - ux * first, start[1] - uy * first), (end[0] + ux * last, end[1] + uy * last))
        _stroke(canvas, line, weight, GRAPHITE)


def crayon_line(canvas: Canvas, start: Point, end: Point, weight: float = 2.0, colour: Color = CRAYON) -> None:
    """A crayon stroke: one firm core, two loose ones beside it."""
    halo(canvas, (start, end), weight + 2.4)
    for number, (share, drift) in enumerate(((1.0, 0.0), (0.5, 0.34), (0.45, -0.36))):
        shade = Color(colour.red, colour.green, colour.blue, alpha=1.0 if not number else 0.75)
        _stroke(canvas, tuple(_rough(start, end, weight, drift, number)), weight * share, shade)


def _rough(start: Point, end: Point, weight: float, drift: float, number: int) -> Iterator[Point]:
    length = hypot(end[0] - start[0], end[1] - start[1]) or 1.0
    nx, ny = -(end[1] - start[1]) / length, (end[0] - start[0]) / length
    steps = max(2, int(length / 7))
    for step in range(steps + 1):
        share = step / steps
        aside = weight * drift + wobble(start[0] + start[1] + 3.7 * step + 91 * number, weight * 0.14)
        yield (
            start[0] + (end[0] - start[0]) * share + nx * aside,
            start[1] + (end[1] - start[1]) * share + ny * aside,
        )


def _stroke(canvas: Canvas, points: Sequence[Point], width: float, colour: Color) -> None:
    canvas.saveState()
    canvas.setStrokeColor(colour)
    canvas.setLineWidth(width)
    canvas.setLineCap(1)
    canvas.setLineJoin(1)
    path = canvas.beginPath()
    path.moveTo(*points[0])
    for point in points[1:]:
        path.lineTo(*point)
    canvas.drawPath(path, stroke=1, fill=0)
    canvas.restoreState()
