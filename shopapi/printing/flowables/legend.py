"""What the letters and patterns of a board's marks mean, as far as they occur on it."""

from collections.abc import Sequence

from reportlab.platypus import Flowable

from shopapi.craft.packet import BoardMark
from shopapi.printing import text
from shopapi.printing.flowables.mark_patterns import draw_badge, draw_mark, of_kind
from shopapi.printing.styles import GRAPHITE

BLOCKS = {"all": "no part", "show": "no seen face", "none": "may be used"}


class Legend(Flowable):
    """One swatch for each kind of mark and what it blocks, in as many lines as they need."""

    SWATCH, LINE = 26.0, 20.0

    def __init__(self, marks: Sequence[BoardMark], size: float = 11.0) -> None:
        super().__init__()
        self._kinds = list(
            dict.fromkeys(
                (mark.kind, mark.blocks, mark.open_line, mark.face == "B" and not mark.through) for mark in marks
            )
        )
        self._size = size

    def wrap(self, avail_width: float, _avail_height: float) -> tuple[float, float]:
        self._places: list[tuple[float, int]] = []
        x, line = 0.0, 0
        for kind, blocks, _, behind in self._kinds:
            width = self.SWATCH + 6 + text.width(self._words(kind, blocks, behind=behind), self._size) + 18
            if x and x + width > avail_width:
                x, line = 0.0, line + 1
            self._places.append((x, line))
            x += width
        self.width, self.height = avail_width, (line + 1) * self.LINE if self._kinds else 0.0
        return self.width, self.height

    @staticmethod
    def _words(kind: str, blocks: str, *, behind: bool) -> str:
        where = " on face B" if behind else ""
        return f"{of_kind(kind).word}{where}: {BLOCKS.get(blocks, blocks)}"

    def draw(self) -> None:
        canvas = self.canv
        for (kind, blocks, open_line, behind), (x, line) in zip(self._kinds, self._places, strict=True):
            low = self.height - (line + 1) * self.LINE + 3
            if open_line:
                points = [(x + 2, low + 3), (x + self.SWATCH / 2, low + 9), (x + self.SWATCH - 2, low + 5)]
            else:
                points = [(x, low), (x + self.SWATCH, low), (x + self.SWATCH, low + 13), (x, low + 13)]
            draw_mark(canvas, BoardMark(kind, (), blocks, open_line=open_line), points, 1.2)
            draw_badge(canvas, x + self.SWATCH / 2, low + 6.5, of_kind(kind).letter)
            canvas.setFillColor(GRAPHITE)
            text.draw(canvas, x + self.SWATCH + 6, low + 3, self._words(kind, blocks, behind=behind), self._size)
