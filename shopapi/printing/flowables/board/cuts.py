"""The saw's lines in crayon, each with its number and its distance from the butt end or the lower edge."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from reportlab.pdfgen.canvas import Canvas

from shopapi.craft.packet import Cut, Measures
from shopapi.printing import fonts, text
from shopapi.printing.flowables.board.look import Window
from shopapi.printing.flowables.board.words import draw_plate
from shopapi.printing.flowables.labels import Taken, in_rows
from shopapi.printing.pencil import crayon_line
from shopapi.printing.styles import CRAYON, GRAPHITE, WHITE

ROW = 1.3
ABOVE = 4.0


@dataclass(frozen=True)
class Distances:
    """The cuts of one window with their distances at one size; `left` and `right` bound what stands below the tape."""

    cuts: Sequence[Cut]
    window: Window
    measures: Measures
    size: float
    left: float
    right: float

    def below(self) -> list[tuple[Cut, int, float]]:
        """The crosscuts here, each with the row of its distance below the tape and where that starts."""
        cuts = [cut for cut in self.cuts if cut.kind == "crosscut" and self.window.holds(cut.at_mm)]
        cuts.sort(key=lambda cut: cut.at_mm)
        centres = [self.window.at(cut.at_mm, 0)[0] for cut in cuts]
        places = in_rows(centres, [self._width(cut) for cut in cuts], self.left, self.right, self.size * 0.5)
        return [(cut, row, start) for cut, (row, start) in zip(cuts, places, strict=True)]

    def height(self) -> float:
        """Room that the rows below the tape take."""
        rows = 1 + max((row for _, row, _ in self.below()), default=-1)
        return rows * self.size * ROW + ABOVE if rows else 0.0

    def draw(self, canvas: Canvas, taken: Taken, base: float) -> None:
        """All lines and distances; base is the y under the tape where the first row may begin."""
        for cut in self.cuts:
            for start, end in self._lines(cut):
                crayon_line(canvas, start, end, 2.2)
        below = [
            (cut, start, base - ABOVE - (row + 1) * self.size * ROW + self.size * 0.38)
            for cut, row, start in self.below()
        ]
        for cut, _, low in below:
            self._draw_leader(canvas, cut, low)
        for cut, left, low in below:
            draw_plate(canvas, (left, low - 3, left + self._width(cut), low + self.size * 0.78), alpha=1)
            self._draw_distance(canvas, cut, left, low)
        for cut in sorted((c for c in self.cuts if c.kind == "rip"), key=lambda c: (c.from_mm, c.at_mm)):
            self._draw_rip(canvas, cut, taken)

    def _label(self, cut: Cut) -> str:
        return self.measures.length(cut.at_mm)

    def _disc(self, cut: Cut) -> float:
        """Room for the cut's number in its disc, before the distance."""
        return self.size * (1.15 if cut.number < 10 else 1.4)

    def _width(self, cut: Cut) -> float:
        return self._disc(cut) + text.width(self._label(cut), self.size, fonts.STRONG)

    def _lines(self, cut: Cut) -> Iterator[tuple[tuple[float, float], tuple[float, float]]]:
        window = self.window
        if cut.kind == "crosscut":
            if window.holds(cut.at_mm):
                yield window.at(cut.at_mm, cut.from_mm), window.at(cut.at_mm, cut.to_mm)
        elif window.reaches(cut.from_mm, cut.to_mm):
            start, end = window.seen(cut.from_mm, cut.to_mm)
            y = window.at(0, cut.at_mm)[1]
            yield (start, y), (end, y)

    def _draw_leader(self, canvas: Canvas, cut: Cut, base: float) -> None:
        x = self.window.at(cut.at_mm, 0)[0]
        canvas.saveState()
        canvas.setStrokeColor(CRAYON)
        canvas.setLineWidth(0.8)
        canvas.setDash(2, 2)
        canvas.line(x, cut.from_mm * self.window.pt_per_mm, x, base + self.size * 0.85)
        canvas.restoreState()

    def _draw_rip(self, canvas: Canvas, cut: Cut, taken: Taken) -> None:
        """On the line itself, near its butt end, in the first drawing that has room for it."""
        width, half = self._width(cut) + 8, self.size * 0.45
        if not self.window.is_best_for(cut.from_mm, cut.to_mm, width + 4):
            return
        start, end = self.window.seen(cut.from_mm, cut.to_mm)
        y = self.window.at(0, cut.at_mm)[1]
        left = max(0.0, min(start + 4, self.right - width))
        choices = [
            (left + 10 * n, y - half, left + 10 * n + width, y + half)
            for n in range(int(max(0.0, end - width - left) // 10) + 1)
        ]
        box = taken.take(choices) or choices[0]
        draw_plate(canvas, box, alpha=0.92)
        self._draw_distance(canvas, cut, box[0] + 4, y - self.size * 0.34)

    def _draw_distance(self, canvas: Canvas, cut: Cut, x: float, base: float) -> None:
        """The cut's number in a crayon disc, then its distance."""
        disc, radius = self._disc(cut), self.size * 0.44
        canvas.saveState()
        canvas.setFillColor(CRAYON)
        canvas.roundRect(x, base + self.size * 0.34 - radius, disc * 0.84, radius * 2, radius, stroke=0, fill=1)
        canvas.setFillColor(WHITE)
        number = str(cut.number)
        text.draw(canvas, x + disc * 0.42, base + self.size * 0.12, number, self.size * 0.62, fonts.STRONG, align=0.5)
        canvas.setFillColor(GRAPHITE)
        text.draw(canvas, x + disc, base, self._label(cut), self.size, fonts.STRONG)
        canvas.restoreState()
