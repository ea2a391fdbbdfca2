"""Paper, graphite and lumber crayon: every colour and every type size that is printed."""

from functools import cache

from reportlab.lib.colors import Color, HexColor, white
from reportlab.lib.styles import ParagraphStyle

from shopapi.printing import fonts

GRAPHITE = HexColor("#292724")
PENCIL = HexColor("#595348")
HAIRLINE = HexColor("#bdb199")
SHADE = HexColor("#fbf7ed")
CRAYON = HexColor("#a3301a")
HALO = Color(1, 1, 1, alpha=0.78)
WHITE = white

# Shop papers are read from 1.5 m: nothing that is measured by is smaller.
SHOP_MEASURE_PT = 20.0
SHOP_WORD_PT = 14.0


@cache
def sheet() -> dict[str, ParagraphStyle]:
    """The named styles; each derives from the one it varies."""
    fonts.register()
    body = ParagraphStyle(
        "body",
        fontName=fonts.TEXT,
        fontSize=11,
        leading=16.5,
        textColor=GRAPHITE,
        spaceAfter=9,
        bulletFontName=fonts.TEXT,
        bulletFontSize=11,
        allowWidows=0,
        allowOrphans=0,
        embeddedHyphenation=1,
        splitLongWords=1,
    )
    strong = ParagraphStyle("strong", parent=body, fontName=fonts.STRONG)
    small = ParagraphStyle("small", parent=body, fontSize=9, leading=13, textColor=PENCIL, spaceAfter=5)
    cell = ParagraphStyle("cell", parent=body, fontSize=10, leading=14, spaceAfter=0)
    shop = ParagraphStyle("shop", parent=body, fontSize=SHOP_WORD_PT, leading=19, spaceAfter=5)
    styles = [
        body,
        strong,
        small,
        cell,
        shop,
        ParagraphStyle("lead", parent=body, fontSize=13.5, leading=20.5, spaceAfter=14),
        ParagraphStyle("piece", parent=strong, fontSize=40, leading=43, spaceAfter=10),
        ParagraphStyle("heading", parent=strong, fontSize=23, leading=28, spaceAfter=0, keepWithNext=1),
        ParagraphStyle(
            "subheading", parent=strong, fontSize=13, leading=18, spaceBefore=10, spaceAfter=4, keepWithNext=1
        ),
        ParagraphStyle("listed", parent=body, leftIndent=16, spaceAfter=7),
        ParagraphStyle("cell_head", parent=cell, fontSize=9, leading=13, textColor=PENCIL),
        ParagraphStyle("cell_strong", parent=cell, fontName=fonts.STRONG),
        ParagraphStyle("cell_note", parent=cell, fontName=fonts.ITALIC, fontSize=9.5, leading=13.5, textColor=PENCIL),
        ParagraphStyle("shop_cell", parent=shop, spaceAfter=0),
        ParagraphStyle(
            "shop_heading",
            parent=shop,
            fontName=fonts.STRONG,
            fontSize=18,
            leading=24,
            spaceBefore=8,
            spaceAfter=4,
            keepWithNext=1,
        ),
    ]
    return {style.name: style for style in styles}
