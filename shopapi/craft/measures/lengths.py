"""Reads a length as people write it and prints it for a tape; refuses what could be read in two ways.

The same cases run against the phone's port: tests/vectors/measures.json.
"""

import math
import re
from fractions import Fraction
from typing import Literal

Unit = Literal["inch", "metric"]
Size = Literal["in", "ft", "mm", "cm", "m"]

MM_PER_INCH = 25.4
MM_PER_FOOT = 304.8
LONGEST_MM = 10_000_000.0

_INCH = Fraction(127, 5)
_SIZES = {"in": _INCH, "ft": 12 * _INCH, "mm": Fraction(1), "cm": Fraction(10), "m": Fraction(1000)}
_UNIT_WORDS = {
    **dict.fromkeys(("in", "inch", "inches", '"'), "in"),
    **dict.fromkeys(("ft", "foot", "feet", "'"), "ft"),
    **dict.fromkeys(("mm", "millimetre", "millimetres", "millimeter", "millimeters"), "mm"),
    **dict.fromkeys(("cm", "centimetre", "centimetres", "centimeter", "centimeters"), "cm"),
    **dict.fromkeys(("m", "metre", "metres", "meter", "meters"), "m"),
}
_PLAIN_FRACTIONS = {
    "¼": "1/4", "½": "1/2", "¾": "3/4", "⅓": "1/3", "⅔": "2/3", "⅕": "1/5", "⅖": "2/5", "⅗": "3/5", "⅘": "4/5",
    "⅙": "1/6", "⅚": "5/6", "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8", "⅒": "1/10",
}  # fmt: skip
_SAME_SIGN = str.maketrans(
    {**dict.fromkeys("′’‘ʹ´`", "'"), **dict.fromkeys("″”“ʺ", '"'), **dict.fromkeys("–—−‐‑", "-"),
     **dict.fromkeys("⁄∕", "/"), **dict.fromkeys("\u00a0\u2009\u202f\u2007\t\n", " ")}
)  # fmt: skip
# A number with an optional fraction, then an optional unit: 29, 29.75, 29 3/4, 29-3/4, 3/4.
_PIECE = re.compile(
    r"(?:(?P<lone_top>[0-9]+) ?/ ?(?P<lone_bottom>[0-9]+)"
    r"|(?P<number>[0-9][0-9.,]*|[.,][0-9]+)(?:(?: | ?- ?)(?P<top>[0-9]+) ?/ ?(?P<bottom>[0-9]+))?)"
    r" ?(?P<unit>[a-z]+\.?|'|\")?"
)
_LONGEST_TEXT = 40
# Value, unit as typed or none, whether it had a fraction.
_Piece = tuple[Fraction, str | None, bool]


class MeasureError(ValueError):
    """A length or thickness that cannot be read for certain; the message says what would work."""


def parse_length(text: str, unit: Unit, *, zero_ok: bool = False) -> float:
    """Millimetres of a length as people write it: `29 3/4`, `29-3/4"`, `2' 5 3/4"`, `755 mm`, `75,5 cm`, `1.2 m`.

    text: the length as typed. unit: what a bare number means, "inch" (inches) or "metric" (millimetres).
    zero_ok: whether 0 may stand (an allowance may be nothing, a board may not).
    Exact for fractions (no drift in a round trip). Valid above 0 and below 10 km.
    Raises MeasureError, in a maker's words, for anything else or for what could be read in two ways.
    Source: NIST-SP811, appendix B.8 (1 in = 25.4 mm exactly); the accepted spellings are common practice, no source.

    >>> parse_length("29 3/4", "inch"), parse_length("75,5 cm", "inch")
    (755.65, 755.0)
    """
    if not isinstance(text, str):
        raise MeasureError(f"Write the length as text, such as {_example(unit)}.")
    tidy = _tidy(text)
    if len(tidy) > _LONGEST_TEXT:
        raise MeasureError(f"That is too long to be a length. Write it like {_example(unit)}.")
    if not tidy:
        raise MeasureError(f"No length given. Write it like {_example(unit)}.")
    if tidy.startswith("-"):
        raise MeasureError(f'"{text.strip()}" is below zero. A length must be more than zero.')
    return check_length(float(_read(tidy, text.strip(), unit)), zero_ok=zero_ok)


def check_length(length_mm: float, *, zero_ok: bool = False) -> float:
    """The length itself [mm] when it is a real length: more than 0 (or 0 if zero_ok) and below 10 km.

    Raises MeasureError otherwise. Source: OWN, the limits of what a workshop can mean.
    """
    if isinstance(length_mm, bool) or not isinstance(length_mm, (int, float)) or not math.isfinite(length_mm):
        raise MeasureError(f"{length_mm} is not a length. Write a number such as 755.")
    if length_mm < 0 or (length_mm == 0 and not zero_ok):
        raise MeasureError("A length must be more than zero." if not zero_ok else "A length cannot be below zero.")
    if length_mm >= LONGEST_MM:
        raise MeasureError("That is 10 km or more, longer than any board. Check the unit.")
    return float(length_mm)


def format_length(length_mm: float, unit: Unit, denominator: int = 16, *, decimals: int = 0) -> str:
    """A length for tape or paper: `29 3/4"` to the nearest 1/denominator inch, or `755 mm`; halves go up.

    length_mm: any finite length, also negative (a change) [mm]. unit: "inch" or "metric".
    denominator: parts of an inch, a power of two up to 128. decimals: digits after the point in millimetres.
    Raises MeasureError for a length that is not finite or a denominator no tape has.
    Source: NIST-SP811, appendix B.8; rounding to the tape's mark is common practice, no source.

    >>> format_length(755.65, "inch"), format_length(755.65, "metric"), format_length(1.74, "metric", decimals=1)
    ('29 3/4"', '756 mm', '1.7 mm')
    """
    if not math.isfinite(length_mm):
        raise MeasureError(f"{length_mm} is not a length.")
    if denominator not in (1, 2, 4, 8, 16, 32, 64, 128):
        raise MeasureError(f"A tape is not divided into 1/{denominator} inch. Use 16 or 32.")
    if unit == "metric":
        return _format_metric(length_mm, decimals)
    return _format_inches(length_mm, denominator)


def format_as(length_mm: float, size: Size, denominator: int = 16) -> str:
    """A length in one named unit whatever the workshop's: `29 3/4"`, `2' 5 3/4"`, `755 mm`, `75.5 cm`, `0.755 m`.

    length_mm: any finite length [mm]. size: "in", "ft" (feet and inches), "mm", "cm" or "m"; metric to the millimetre.
    denominator: parts of an inch. Read back by parse_length to the same mark. Raises MeasureError.
    Source: NIST-SP811, appendix B.8; rounding to the tape's mark is common practice, no source.

    >>> print(format_as(755.65, "ft"), format_as(755, "cm"), format_as(755, "m"), sep=", ")
    2' 5 3/4", 75.5 cm, 0.755 m
    """
    if size not in _SIZES:
        raise MeasureError(f'"{size}" is not a unit known here. Use in, ft, mm, cm or m.')
    if size in ("in", "mm"):
        return format_length(length_mm, "inch" if size == "in" else "metric", denominator)
    if size == "ft":
        return _format_feet(format_length(length_mm, "inch", denominator))
    whole_mm = int(format_length(length_mm, "metric").removesuffix(" mm"))
    return f"{whole_mm / 10:.1f} cm" if size == "cm" else f"{whole_mm / 1000:.3f} m"


def _format_feet(inches: str) -> str:
    """Feet taken out of printed inches, so that rounding cannot leave 12 inches standing."""
    sign, size = ("-", inches[1:]) if inches.startswith("-") else ("", inches)
    whole, _, rest = size.removesuffix('"').partition(" ")
    if "/" in whole:
        return inches
    feet, left = divmod(int(whole), 12)
    parts = [f"{feet}'"] if feet else []
    if left or rest or not feet:
        parts.append(f'{" ".join(filter(None, (str(left) if left or not rest else "", rest)))}"')
    return sign + " ".join(parts)


def _format_metric(length_mm: float, decimals: int) -> str:
    scale = 10**decimals
    steps = math.floor(abs(length_mm) * scale + 0.5)
    sign = "-" if length_mm < 0 and steps else ""
    return f"{sign}{steps / scale:.{decimals}f} mm"


def _format_inches(length_mm: float, denominator: int) -> str:
    # The tiny addition lets an exact half, blurred by float division, still go up.
    steps = math.floor(abs(length_mm) / MM_PER_INCH * denominator + 0.5 + 1e-9)
    sign = "-" if length_mm < 0 and steps else ""
    whole, rest = divmod(steps, denominator)
    if not rest:
        return f'{sign}{whole}"'
    part = Fraction(rest, denominator)
    return f'{sign}{f"{whole} " if whole else ""}{part.numerator}/{part.denominator}"'


def _tidy(text: str) -> str:
    """Lower case, one kind of quote, dash, space and slash; `29¾` becomes `29 3/4`."""
    for sign, plain in _PLAIN_FRACTIONS.items():
        text = text.replace(sign, f" {plain}")
    return " ".join(text.translate(_SAME_SIGN).replace("''", '"').lower().split())


def _read(tidy: str, shown: str, unit: Unit) -> Fraction:
    pieces: list[_Piece] = []
    rest = tidy
    while rest:
        match = _PIECE.match(rest)
        if not match or match["number"] in (".", ","):
            raise MeasureError(f'"{shown}" is not a length. Write it like {_example(unit)}.')
        pieces.append((_number(match, shown), _unit_of(match, shown), bool(match["top"] or match["lone_top"])))
        rest = rest[match.end() :].lstrip()
        # Feet and inches are often joined by a dash: 2'-5 3/4".
        if rest.startswith("-") and pieces[-1][1] == "ft":
            rest = rest[1:].lstrip()
    if len(pieces) == 1:
        return _one(pieces[0], shown, unit)
    return _feet_and_inches(pieces, shown)


def _one(piece: _Piece, shown: str, unit: Unit) -> Fraction:
    value, own_unit, has_fraction = piece
    if own_unit:
        return value * _SIZES[own_unit]
    if unit == "inch":
        return value * _INCH
    if has_fraction:
        raise MeasureError(f'"{shown}" has a fraction but no unit. Write {shown}" for inches, or millimetres like 755.')
    return value


def _feet_and_inches(pieces: list[_Piece], shown: str) -> Fraction:
    (feet, first, _), (inches, second, _) = pieces[:2]
    if len(pieces) > 2 or first != "ft" or second not in ("in", None):
        raise MeasureError(f'"{shown}" could mean more than one length. Write one, like 2\' 5 3/4" or 755 mm.')
    if feet.denominator != 1:
        raise MeasureError(f'"{shown}" has part of a foot and inches too. Write whole feet before inches.')
    if inches >= 12:
        raise MeasureError(f'"{shown}" has 12 inches or more after the feet. Write {_example("inch")} or fewer inches.')
    return feet * _SIZES["ft"] + inches * _INCH


def _unit_of(match: re.Match[str], shown: str) -> str | None:
    word = match["unit"]
    if not word:
        return None
    own_unit = _UNIT_WORDS.get(word.removesuffix("."))
    if not own_unit:
        raise MeasureError(f'"{word}" in "{shown}" is not a unit known here. Use in, ft, mm, cm or m.')
    if own_unit == "mm" and match["number"] and re.fullmatch(r"[1-9][0-9]{0,2}\.[0-9]{3}", match["number"]):
        raise MeasureError(f'"{shown}" could be thousands. Write it without the point, or with fewer decimals.')
    return own_unit


def _number(match: re.Match[str], shown: str) -> Fraction:
    if match["lone_top"]:
        return _fraction(match["lone_top"], match["lone_bottom"], shown)
    whole = _decimal(match["number"], shown)
    if not match["top"]:
        return whole
    part = _fraction(match["top"], match["bottom"], shown)
    if whole.denominator != 1 or not match["number"].isdigit():
        raise MeasureError(f'"{shown}" mixes a decimal with a fraction. Write one or the other.')
    if part >= 1:
        raise MeasureError(f'In "{shown}" the fraction is one or more. Write it like 29 3/4.')
    return whole + part


def _fraction(top: str, bottom: str, shown: str) -> Fraction:
    if not 1 <= int(bottom[:4]) <= 128:
        raise MeasureError(f'"{shown}" has a fraction no tape shows. Write halves to 128ths, like 3/4.')
    return Fraction(int(top), int(bottom))


def _decimal(digits: str, shown: str) -> Fraction:
    """Decimal point or comma; groups of thousands only where both signs make them certain."""
    if re.fullmatch(r"[1-9][0-9]{0,2}(,[0-9]{3})+", digits):
        raise MeasureError(f'"{shown}" could be thousands or a decimal. Write it without the comma, or with a point.')
    if re.fullmatch(r"[0-9]{1,3}(,[0-9]{3})+\.[0-9]+", digits):
        digits = digits.replace(",", "")
    elif re.fullmatch(r"[0-9]{1,3}(\.[0-9]{3})+,[0-9]+", digits):
        digits = digits.replace(".", "").replace(",", ".")
    elif not re.fullmatch(r"[0-9]*[.,]?[0-9]*", digits):
        raise MeasureError(f'"{shown}" has more than one decimal sign. Write it like 755.5.')
    return Fraction(digits.replace(",", ".").rstrip(".") or "0")


def _example(unit: Unit) -> str:
    return "29 3/4 or 2' 5 3/4\"" if unit == "inch" else "755 mm, 75.5 cm or 0.755 m"
