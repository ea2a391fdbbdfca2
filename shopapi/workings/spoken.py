"""Values in the words of a workshop's own units, for refusals that a maker reads."""

from dataclasses import dataclass

from shopapi.craft.measures import Unit, format_length

_KG_PER_LB = 0.45359237
_M2_PER_SQ_FT = 0.09290304
_N_PER_LBF = 4.4482216152605


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
