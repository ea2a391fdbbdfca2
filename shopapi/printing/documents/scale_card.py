"""Two scale cards on a sheet, to be cut apart and laid on a board, and a ruler that proves their size."""

from reportlab.lib.colors import black, white
from reportlab.lib.units import mm
from reportlab.pdfgen.canvas import Canvas
from reportlab.platypus import Flowable, Spacer

from shopapi.craft.packet import Paper
from shopapi.craft.rectify import CARD_SIDE_MM, MARKER_CELLS, MARKER_IDS, MARKER_SIDE_MM, marker_cells
from shopapi.printing import fonts, text
from shopapi.printing.flowables.headings import paragraph
from shopapi.printing.flowables.tape import RULER_MM, draw_ruler
from shopapi.printing.pages import Format, Imprint, Out, Story, build
from shopapi.printing.pencil import crayon_line
from shopapi.printing.styles import GRAPHITE, PENCIL

TITLE = "Scale cards"
GAP_MM = 4.0
HOW = (
    "Print at full size, not fitted to the page, on plain matt paper. Lay a steel rule on the ruler below: it must "
    "read 100 mm. If it does not, the boards would come out wrong by as much.",
    "Cut along the dashed lines and glue the cards to something flat and stiff. Keep the white rim whole and clean.",
    "Lay both cards flat on the face of a board, one near each end, wholly on the wood, and photograph the whole "
    "board. It does not matter which card lies where, or how it is turned.",
)


def build_scale_cards(out: Out, paper: Paper = "letter") -> int:
    """Draws the sheet and gives its number of pages."""
    form = Format(paper, side=18 * mm, top=18 * mm)
    imprint = Imprint(TITLE, "Flitchbook", "Two scale cards to photograph boards with", TITLE)
    return build(out, form, imprint, _story)


def _story() -> Story:
    return [
        Heading(),
        *(paragraph(words, "shop") for words in HOW),
        Spacer(1, 12),
        CardPair(),
        Spacer(1, 26),
        FullSizeRuler(),
    ]


class Heading(Flowable):
    """The title, underlined in crayon."""

    def __init__(self) -> None:
        super().__init__()
        self.outline = TITLE

    def wrap(self, avail_width: float, _avail_height: float) -> tuple[float, float]:
        self.width, self.height = avail_width, 46
        return self.width, self.height

    def draw(self) -> None:
        self.canv.setFillColor(GRAPHITE)
        text.draw(self.canv, 0, 20, TITLE, 28, fonts.STRONG)
        crayon_line(self.canv, (1, 11), (60, 12), weight=2.8)


class CardPair(Flowable):
    """Both cards side by side, dashed where they are cut."""

    def wrap(self, avail_width: float, _avail_height: float) -> tuple[float, float]:
        self.width, self.height = avail_width, CARD_SIDE_MM * mm
        return self.width, self.height

    def draw(self) -> None:
        side, gap = CARD_SIDE_MM * mm, GAP_MM * mm
        left = (self.width - 2 * side - gap) / 2
        for number, marker in enumerate(MARKER_IDS):
            _draw_card(self.canv, left + number * (side + gap), marker, "AB"[number])


class FullSizeRuler(Flowable):
    """100 mm, to be held against a real rule."""

    def wrap(self, avail_width: float, _avail_height: float) -> tuple[float, float]:
        self.width, self.height = avail_width, 26
        return self.width, self.height

    def draw(self) -> None:
        draw_ruler(self.canv, (self.width - RULER_MM * mm) / 2, 14, 10)


def _draw_card(canvas: Canvas, x: float, marker: int, letter: str) -> None:
    side, black_side = CARD_SIDE_MM * mm, MARKER_SIDE_MM * mm
    rim, cell = (side - black_side) / 2, black_side / MARKER_CELLS
    canvas.saveState()
    canvas.setStrokeColor(PENCIL)
    canvas.setLineWidth(0.5)
    canvas.setDash(3, 3)
    canvas.rect(x, 0, side, side)
    canvas.setDash()
    # One black square with white cells upon it: seams between black cells would show as hairlines.
    canvas.setFillColor(black)
    canvas.rect(x + rim, rim, black_side, black_side, stroke=0, fill=1)
    canvas.setFillColor(white)
    for row, cells in enumerate(marker_cells(marker)):
        for column, is_black in enumerate(cells):
            if not is_black:
                canvas.rect(x + rim + column * cell, rim + black_side - (row + 1) * cell, cell, cell, stroke=0, fill=1)
    canvas.setFillColor(PENCIL)
    words = f"{letter} · black square {MARKER_SIDE_MM:.0f} mm"
    text.draw(canvas, x + side / 2, 2.2 * mm, words, 8, align=0.5)
    canvas.restoreState()
