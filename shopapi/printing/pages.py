"""The base of every document: paper, margins, first and later pages, "Page 2 of 5", outline and document data."""

from collections.abc import Callable
from dataclasses import dataclass
from io import BytesIO
from pathlib import Path
from typing import BinaryIO

from reportlab.lib.pagesizes import A4, LETTER, landscape
from reportlab.lib.units import mm
from reportlab.pdfgen.canvas import Canvas
from reportlab.platypus import BaseDocTemplate, Flowable, Frame, PageTemplate

from shopapi.craft.packet import Paper
from shopapi.printing import fonts, text
from shopapi.printing.styles import HAIRLINE, PENCIL

PAPERS = {"letter": LETTER, "a4": A4}
FIRST, LATER = "first", "later"
FOOT_PT = 9.0

Out = str | Path | BinaryIO
Story = list[Flowable]


@dataclass(frozen=True)
class Format:
    """A sheet and its margins [points]."""

    paper: Paper
    sideways: bool = False
    side: float = 25 * mm
    top: float = 22 * mm
    bottom: float = 24 * mm

    @property
    def size(self) -> tuple[float, float]:
        size = PAPERS[self.paper]
        return landscape(size) if self.sideways else size

    @property
    def text_width(self) -> float:
        return self.size[0] - 2 * self.side

    @property
    def text_height(self) -> float:
        return self.size[1] - self.top - self.bottom


@dataclass(frozen=True)
class Imprint:
    """What the PDF says of itself, and the line at the foot of every page."""

    title: str
    author: str
    subject: str = ""
    foot: str = ""
    language: str = "en"


class Document(BaseDocTemplate):
    """A document of our look. `first_page` draws what lies under the first page's text."""

    def __init__(
        self,
        out: Out,
        form: Format,
        imprint: Imprint,
        total_pages: int,
        first_page: Callable[[Canvas, Format], None] | None,
    ) -> None:
        fonts.register()
        super().__init__(
            str(out) if isinstance(out, Path) else out,
            pagesize=form.size,
            title=text.one_line(imprint.title),
            author=text.one_line(imprint.author),
            subject=text.one_line(imprint.subject),
            creator="Flitchbook",
            producer="Flitchbook",
            lang=imprint.language,
            initialFontName=fonts.TEXT,
            displayDocTitle=True,
        )
        self.form, self.imprint, self.total_pages = form, imprint, total_pages
        self._first_page = first_page
        frame = {"leftPadding": 0, "rightPadding": 0, "topPadding": 0, "bottomPadding": 0}
        box = (form.side, form.bottom, form.text_width, form.text_height)
        self.addPageTemplates(
            [
                PageTemplate(
                    FIRST, [Frame(*box, id=FIRST, **frame)], onPage=self._draw_first, autoNextPageTemplate=LATER
                ),
                PageTemplate(LATER, [Frame(*box, id=LATER, **frame)], onPage=self._draw_later),
            ]
        )

    def _draw_first(self, canvas: Canvas, _document: BaseDocTemplate) -> None:
        if self._first_page:
            self._first_page(canvas, self.form)
        else:
            self._draw_later(canvas, _document)

    def _draw_later(self, canvas: Canvas, _document: BaseDocTemplate) -> None:
        """A hairline, what this paper belongs to, and which page of how many: loose sheets lie about in a shop."""
        left, right = self.form.side, self.form.size[0] - self.form.side
        base = self.form.bottom - 11 * mm
        number = f"Page {self.page} of {self.total_pages}"
        canvas.saveState()
        canvas.setStrokeColor(HAIRLINE)
        canvas.setLineWidth(0.6)
        canvas.line(left, base + 5 * mm, right, base + 5 * mm)
        canvas.setFillColor(PENCIL)
        space = right - left - text.width(number, FOOT_PT) - 6 * mm
        line, size = text.fitted(self.imprint.foot, FOOT_PT, space, least=7)
        text.draw(canvas, left, base, line, size)
        text.draw(canvas, right, base, number, FOOT_PT, align=1)
        canvas.restoreState()

    def afterFlowable(self, flowable: Flowable) -> None:  # noqa: N802 - reportlab's name
        """Headings carry their own place in the outline."""
        entry = getattr(flowable, "outline", None)
        if entry:
            key = f"at-{self.page}-{entry}"
            self.canv.bookmarkPage(key)
            self.canv.addOutlineEntry(text.one_line(entry), key, level=0)


def build(
    out: Out,
    form: Format,
    imprint: Imprint,
    story: Callable[[], Story],
    first_page: Callable[[Canvas, Format], None] | None = None,
) -> int:
    """Draws the document twice, first to count its pages, and gives their number."""
    trial = Document(BytesIO(), form, imprint, 0, first_page)
    trial.build(story())
    # The second drawing goes through memory too, so that a failure never leaves half a file behind.
    drawn = BytesIO()
    document = Document(drawn, form, imprint, trial.page, first_page)
    document.build(story())
    if isinstance(out, (str, Path)):
        Path(out).write_bytes(drawn.getvalue())
    else:
        out.write(drawn.getvalue())
    return document.page
