"""The drawing of a board, in as many stretches as make it large enough to read."""

from itertools import pairwise
from math import ceil

from reportlab.pdfgen.canvas import Canvas
from reportlab.platypus import Flowable

from shopapi.craft.packet import Measures
from shopapi.printing.flowables.board.cuts import Distances
from shopapi.printing.flowables.board.look import DrawnBoard, Look, Window
from shopapi.printing.flowables.board.wood import draw_edges, draw_wood
from shopapi.printing.flowables.board.words import draw_name, draw_section
from shopapi.printing.flowables.labels import Taken
from shopapi.printing.flowables.mark_patterns import draw_mark
from shopapi.printing.flowables.tape import draw_tape, tape_height
from shopapi.printing.pencil import pencil_box
from shopapi.printing.pictures import Album

SHORTEST_MM = 800.0


def stretches(
    board: DrawnBoard, measures: Measures, album: Album, width: float, look: Look, room: float
) -> list["BoardStretch"]:
    """The board as drawings one below the other, all at one scale: as large as the room (a height in points) allows."""
    margin = look.distance * 1.1 if look.butt_end else 0.0
    rows = _rows(board, width - margin, look, room)
    each_mm = board.length_mm / rows
    pt_per_mm = min((width - margin) / each_mm, room * 0.7 / board.width_mm)
    edges = [each_mm * n for n in range(rows)] + [board.length_mm]
    return [
        BoardStretch(
            board, measures, album, look, Window(*edge, board.length_mm, board.width_mm, pt_per_mm), margin, width
        )
        for edge in pairwise(edges)
    ]


def _rows(board: DrawnBoard, width: float, look: Look, room: float) -> int:
    """More rows draw the wood larger: as many as the room holds, but no stretch shorter than makes sense."""
    rows = least = max(1, ceil(board.length_mm / look.longest_mm - 1e-6))
    around = tape_height(look.tape) + look.distance * 3 + 10
    while board.length_mm / (rows + 1) >= SHORTEST_MM:
        high = board.width_mm * width * (rows + 1) / board.length_mm
        if (rows + 1) * (high + around) > room:
            break
        rows += 1
    return max(least, rows)


class BoardStretch(Flowable):
    """One stretch of a board; cut distances stand below the tape, names stand on the wood."""

    SKY = 4.0

    def __init__(
        self,
        board: DrawnBoard,
        measures: Measures,
        album: Album,
        look: Look,
        window: Window,
        margin: float,
        width: float,
    ) -> None:
        super().__init__()
        self.board, self.measures, self.look, self.window = board, measures, look, window
        self._album, self._margin, self._space = album, margin, width
        self._distances = Distances(board.cuts, window, measures, look.distance, -margin, width - margin)

    def wrap(self, _avail_width: float, _avail_height: float) -> tuple[float, float]:
        self._sky = self.look.distance * 0.95 if self.look.distance and self.board.sections else self.SKY
        below = tape_height(self.look.tape) + (self._distances.height() if self.look.distance else 0.0)
        self.width, self.height = self._space, self._sky + self.window.high + below + 6
        return self.width, self.height

    def draw(self) -> None:
        canvas, window, taken = self.canv, self.window, Taken()
        canvas.saveState()
        canvas.translate(self._margin, self.height - self._sky - window.high)
        canvas.saveState()
        self._draw_on_the_wood(canvas)
        canvas.restoreState()
        draw_edges(canvas, window, self.look)
        if self.look.distance:
            self._distances.draw(canvas, taken, -tape_height(self.look.tape))
            for section in self.board.sections:
                draw_section(canvas, window, section, taken)
        for number, piece in enumerate(self.board.pieces, start=1):
            draw_name(canvas, window, piece, number, self.look, taken)
        draw_tape(canvas, self.measures, window.start_mm, window.end_mm, window.pt_per_mm, self.look.tape, 0)
        canvas.restoreState()

    def _draw_on_the_wood(self, canvas: Canvas) -> None:
        window = self.window
        path = canvas.beginPath()
        path.rect(0, 0, window.long, window.high)
        canvas.clipPath(path, stroke=0, fill=0)
        draw_wood(canvas, window, self.board.picture, self._album, self.look)
        for mark in self.board.marks:
            xs = [x for x, _ in mark.outline]
            if xs and window.reaches(min(xs), max(xs)):
                points = [window.at(*point) for point in mark.outline]
                draw_mark(canvas, mark, points, mark.width_mm * window.pt_per_mm)
        for piece in self.board.pieces:
            if window.reaches(piece.x_mm, piece.x_mm + piece.length_mm):
                pencil_box(canvas, *window.box(piece.x_mm, piece.y_mm, piece.length_mm, piece.width_mm))
