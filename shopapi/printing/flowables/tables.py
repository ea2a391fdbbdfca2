"""Tables for client papers: hairlines only, a head that comes back on every page."""

from collections.abc import Sequence

from reportlab.platypus import Flowable, LongTable, TableStyle

from shopapi.printing import fonts
from shopapi.printing.flowables.headings import paragraph
from shopapi.printing.styles import GRAPHITE, HAIRLINE

Cell = str | Sequence[Flowable]


def ruled(head: Sequence[str], rows: Sequence[Sequence[Cell]], widths: Sequence[float]) -> LongTable:
    """A table of texts, or of flowables where a cell needs more than one style; the first column is strong."""
    body = [[_cell(cell, strong=n == 0) for n, cell in enumerate(row)] for row in rows]
    table = LongTable(
        [[paragraph(word, "cell_head") for word in head], *body], colWidths=list(widths), repeatRows=1, splitInRow=1
    )
    table.hAlign = "LEFT"
    table.setStyle(
        TableStyle(
            [
                ("FONTNAME", (0, 0), (-1, -1), fonts.TEXT),
                ("VALIGN", (0, 0), (-1, -1), "TOP"),
                ("LEFTPADDING", (0, 0), (-1, -1), 0),
                ("RIGHTPADDING", (0, 0), (-1, -1), 10),
                ("TOPPADDING", (0, 0), (-1, -1), 5),
                ("BOTTOMPADDING", (0, 0), (-1, -1), 5.5),
                ("LINEBELOW", (0, 0), (-1, 0), 0.9, GRAPHITE),
                ("LINEBELOW", (0, 1), (-1, -1), 0.5, HAIRLINE),
            ]
        )
    )
    return table


def _cell(cell: Cell, *, strong: bool) -> list[Flowable]:
    if isinstance(cell, str):
        return [paragraph(cell, "cell_strong" if strong else "cell")]
    return list(cell)
