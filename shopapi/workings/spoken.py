"""Values in the words of a workshop's own units, for refusals that a maker reads."""

import re
from dataclasses import dataclass

from shopapi.craft.measures import Unit, format_length

_KG_PER_LB = 0.45359237
_M2_PER_SQ_FT = 0.09290304
_N_PER_LBF = 4.4482216152605
_MM_PER_INCH = 25.4

_NUMBER = r"-?\d+(?:\.\d+)?(?:e[+-]?\d+)?"
# `1 to 20000 mm`, `-1 to 132 °C`, `300 mm`: the unit stands once, behind the last number. `20 °C (68 °F)` stays.
_MEASURED = re.compile(rf"(?:({_NUMBER}) to )?({_NUMBER}) (mm|°C|kg|N)\b(?!/| \()")
_KIND_OF = {"mm": "length", "°C": "temperature", "kg": "mass", "N": "force"}


@dataclass(frozen=True)
class Tape:
    """What a workshop measures with: "inch" or "metric", and the parts of an inch on its tape."""

    unit: Unit = "metric"
    denominator: int = 16

    def says(self, length_mm: float) -> str:
        """A length as it is printed for this tape; in millimetres with a tenth where it has one."""
        return format_length(length_mm, self.unit, self.denominator, decimals=0 if length_mm == int(length_mm) else 1)


def _tidy(value: float) -> str:
    return f"{round(value, 1):g}"


def spoken(value: float, kind: str, tape: Tape, unit: str = "") -> str:
    """A value of a field's kind with its unit: `3/4"`, `8.5 %`, `68 °F`, `55.1 lb`."""
    is_inch = tape.unit == "inch"
    if kind == "length":
        return tape.says(value)
    if kind == "temperature":
        return f"{_tidy(value * 1.8 + 32)} °F" if is_inch else f"{value:g} °C"
    if kind == "mass":
        return f"{_tidy(value / _KG_PER_LB)} lb" if is_inch else f"{value:g} kg"
    if kind == "area":
        return f"{_tidy(value / _M2_PER_SQ_FT)} sq ft" if is_inch else f"{value:g} m²"
    if kind == "force":
        return f"{_tidy(value / _N_PER_LBF)} lbf" if is_inch else f"{value:g} N"
    if kind == "angle":
        return f"{value:g}°"
    if kind == "percent":
        return f"{value:g} %"
    return f"{value:g} {unit}".strip()


def retold(text: str, tape: Tape) -> str:
    """A sentence of craft, which speaks in millimetres and °C, in the workshop's own units."""
    if tape.unit != "inch":
        return text

    def said(found: re.Match[str]) -> str:
        kind = _KIND_OF[found[3]]
        values = [_in_inch_shop(float(number), kind, tape) for number in (found[1], found[2]) if number is not None]
        return " to ".join(values)

    return _MEASURED.sub(said, text)


def _in_inch_shop(value: float, kind: str, tape: Tape) -> str:
    """A length finer than the tape is told in decimals, so that it does not vanish."""
    if kind == "length" and 0 < abs(value) < 4 * _MM_PER_INCH / tape.denominator:
        return f'{value / _MM_PER_INCH:.2g}"'
    return spoken(value, kind, tape)
