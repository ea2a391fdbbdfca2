"""Makes the printing faces from the published fonts: tabular figures by default, and true fractions.

Run by hand in an environment that has fonttools, with the unpacked package of the published font as argument:
`python prepare.py FOLDER`. The faces it writes are committed, so nothing at run time needs it.
"""

import sys
from pathlib import Path
from typing import Any

from fontTools.pens.boundsPen import BoundsPen
from fontTools.pens.transformPen import TransformPen
from fontTools.pens.ttGlyphPen import TTGlyphPen
from fontTools.ttLib import TTFont

FAMILY = "AtkinsonHyperlegibleNext"
# Small figures come from a heavier face, so that once scaled their strokes match the text around them.
FACES = {
    "Regular": ("400Regular", "700Bold"),
    "Italic": ("400Regular_Italic", "700Bold_Italic"),
    "SemiBold": ("600SemiBold", "800ExtraBold"),
}
DIGITS = ("zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine")
NUMERATORS, DENOMINATORS, BAR, GAP = 0xE000, 0xE010, 0xE020, 0xE021
SMALL = 0.66
BAR_ADVANCE = 185
GAP_ADVANCE = 165


def add_glyph(font: TTFont, name: str, code: int, glyph: Any, advance: int) -> None:
    font.setGlyphOrder([*font.getGlyphOrder(), name])
    font["glyf"].glyphs[name] = glyph
    glyph.recalcBounds(font["glyf"])
    font["hmtx"][name] = (advance, getattr(glyph, "xMin", 0))
    for table in font["cmap"].tables:
        if table.isUnicode():
            table.cmap[code] = name


def drawn(source: TTFont, name: str, scale: float, dx: float, dy: float) -> Any:
    glyphs = source.getGlyphSet()
    pen = TTGlyphPen(None)
    glyphs[name].draw(TransformPen(pen, (scale, 0, 0, scale, dx, dy)))
    return pen.glyph()


def add_fractions(font: TTFont, heavy: TTFont, slant: float) -> None:
    height = font["OS/2"].sCapHeight
    for value, name in enumerate(DIGITS):
        advance = round(heavy["hmtx"][name][0] * SMALL)
        rise = height * (1 - SMALL)
        add_glyph(font, f"{name}.numr", NUMERATORS + value, drawn(heavy, name, SMALL, rise * slant, rise), advance)
        add_glyph(font, f"{name}.dnom", DENOMINATORS + value, drawn(heavy, name, SMALL, 0, 0), advance)
    bounds = BoundsPen(font.getGlyphSet())
    font.getGlyphSet()["fraction"].draw(bounds)
    left = (bounds.bounds[0] + bounds.bounds[2] - BAR_ADVANCE) / 2
    add_glyph(font, "fraction.bar", BAR, drawn(font, "fraction", 1, -left, 0), BAR_ADVANCE)
    # A space of its own, because any common one lets a line end between a whole number and its fraction.
    add_glyph(font, "fraction.gap", GAP, TTGlyphPen(None).glyph(), GAP_ADVANCE)


def prepare(folder: Path, face: str) -> None:
    weight, heavier = FACES[face]
    path = "{0}/" + FAMILY + "_{0}.ttf"
    font, heavy = TTFont(folder / path.format(weight)), TTFont(folder / path.format(heavier))
    add_fractions(font, heavy, slant=0.16 if face == "Italic" else 0.0)
    for table in font["cmap"].tables:
        if table.isUnicode():
            table.cmap.update({ord("0") + value: f"{name}.tf" for value, name in enumerate(DIGITS)})
    for tag in ("GSUB", "GPOS", "GDEF", "DSIG"):  # reportlab reads none of them
        if tag in font:
            del font[tag]
    font["post"].formatType = 3.0
    font.save(Path(__file__).parent / f"{FAMILY}-{face}.ttf")


if __name__ == "__main__":
    for face in FACES:
        prepare(Path(sys.argv[1]), face)
