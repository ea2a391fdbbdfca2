"""Sag of a shelf, rail or top between two supports."""

import math
from dataclasses import dataclass
from typing import Literal

from shopapi.craft.limits import Answer, OutOfRangeError, require, require_more_than_zero
from shopapi.craft.species import Species, density_kg_m3, species

Ends = Literal["resting", "fixed"]

_G_M_S2 = 9.80665
# WOOD-HANDBOOK, chapter 5 (from memory): about 2 % of stiffness for each point of moisture, between 4 and 20 %.
_PER_POINT = 0.02
_DECLARED_MC_PCT = 12.0
# WOOD-HANDBOOK, chapter 5 (from memory): under a lasting load the sag about doubles over the years.
CREEP_FACTOR = 2.0
# COMMON-PRACTICE, no source: span / sag.
_LIMITS: tuple[tuple[float, str], ...] = (
    (600.0, "hardly seen"),
    (360.0, "seen on a second look"),
    (240.0, "plainly seen"),
    (0.0, "too soft"),
)


@dataclass(frozen=True)
class Sag:
    """Sag at the softest place [mm], at once and after years; span / lasting sag; how it looks; what to say beside
    it."""

    at_once_mm: float
    lasting_mm: float
    span_to_sag: float
    verdict: str
    cautions: tuple[str, ...]


def stiffness_at_moisture(wood: Species | str, mc_pct: float) -> Answer:
    """Modulus of elasticity along the grain [GPa] at a moisture, from the published value at 12 %.

    wood: species or its name. mc_pct: moisture [% MC], 4 to 20. Boards differ by 20 % either way.
    Raises OutOfRangeError, also where no stiffness is published; UnknownSpeciesError.
    Source: WOOD-HANDBOOK, tables 5-3 and 5-5; 2 % a point from memory of chapter 5.

    >>> round(stiffness_at_moisture("white oak", 8), 2)
    13.25
    """
    one = species(wood) if isinstance(wood, str) else wood
    require("Moisture", mc_pct, 4, 20, "%")
    if one.moe_gpa is None:
        raise OutOfRangeError(f"No stiffness is published for {one.name}. Load a sample and measure its sag instead.")
    value = one.moe_gpa * (1 + _PER_POINT * (_DECLARED_MC_PCT - mc_pct))
    return Answer(value, "GPa", "12 % value, 2 % a point", (f"Stiffness of {one.name}: {one.strength_how}.",))


def sag(
    span_mm: float,
    width_mm: float,
    thickness_mm: float,
    wood: Species | str,
    spread_load_kg: float = 0.0,
    point_load_kg: float = 0.0,
    point_at_mm: float | None = None,
    mc_pct: float = 8.0,
    ends: Ends = "resting",
) -> Sag:
    """Sag of a solid shelf, rail or top between two supports, under its own weight and what stands on it.

    span_mm: between the supports [mm]. width_mm: across the beam, level [mm]. thickness_mm: up and down [mm]. wood:
    species or its name. spread_load_kg: spread evenly over the span [kg]. point_load_kg: in one place [kg].
    point_at_mm: its place from one support [mm], None for the middle. mc_pct: moisture in use [% MC], 4 to 20. ends:
    "resting" on supports or "fixed" (housed and glued: the truth lies between). The sags of the loads are added where
    each is greatest, so an off-centre point load is counted slightly high. `lasting_mm` is twice the first sag. Beams
    under 10 times as long as thick, or sagging over a tenth of the span, carry a caution. Raises OutOfRangeError.
    Source: MECHANICS, 5wL4/384EI and PL3/48EI (resting), wL4/384EI and PL3/192EI (fixed), off centre accordingly;
    creep WOOD-HANDBOOK, chapter 5, from memory; verdicts common practice.

    >>> shelf = sag(900, 250, 19, "sugar maple", spread_load_kg=25)
    >>> round(shelf.at_once_mm, 1), round(shelf.lasting_mm, 1), shelf.verdict
    (1.3, 2.7, 'plainly seen')
    """
    one = species(wood) if isinstance(wood, str) else wood
    for what, size_mm in (("Span", span_mm), ("Width", width_mm), ("Thickness", thickness_mm)):
        require_more_than_zero(what, size_mm, 20_000, "mm")
    require("Spread load", spread_load_kg, 0, 10_000, "kg")
    require("Point load", point_load_kg, 0, 10_000, "kg")
    at_mm = span_mm / 2 if point_at_mm is None else require("Place of the load", point_at_mm, 0, span_mm, "mm")
    if ends not in ("resting", "fixed"):
        raise OutOfRangeError(f'Ends "{ends}" are not known. Use resting or fixed.')
    moe = stiffness_at_moisture(one, mc_pct)
    rigidity = moe * 1000 * width_mm * thickness_mm**3 / 12  # EI [N mm2]
    own_kg = density_kg_m3(one, mc_pct) * span_mm * width_mm * thickness_mm * 1e-9
    spread = _spread_sag((spread_load_kg + own_kg) * _G_M_S2, span_mm, ends)
    point = _point_sag(point_load_kg * _G_M_S2, span_mm, at_mm, ends)
    at_once = (spread + point) / rigidity
    lasting = CREEP_FACTOR * at_once
    ratio = span_mm / lasting
    return Sag(
        at_once, lasting, ratio, _verdict(ratio), (*moe.cautions, *_cautions(span_mm, thickness_mm, ratio, ends))
    )


def _spread_sag(load_n: float, span: float, ends: Ends) -> float:
    """Greatest sag times EI under an even load."""
    return (5 if ends == "resting" else 1) * load_n * span**3 / 384


def _point_sag(load_n: float, span: float, at: float, ends: Ends) -> float:
    """Greatest sag times EI under a point load; a is its distance from the nearer support."""
    a = min(at, span - at)
    if ends == "resting":
        return float(load_n * a * (span * span - a * a) ** 1.5 / (9 * math.sqrt(3) * span))
    b = span - a
    return 2 * load_n * a * a * b**3 / (3 * (3 * b + a) ** 2) if a > 0 else 0.0


def _verdict(ratio: float) -> str:
    return next(words for limit, words in _LIMITS if ratio >= limit)


def _cautions(span: float, thickness: float, ratio: float, ends: Ends) -> list[str]:
    cautions = ["An estimate: boards differ by 20 %, and a lasting load about doubles the first sag."]
    if span < 10 * thickness:
        cautions.append("Shorter than 10 times its thickness: it gives in shear too, so it sags more than this.")
    if ratio < 10:
        cautions.append("It sags by more than a tenth of the span: the formula no longer holds; make it thicker.")
    if ends == "fixed":
        cautions.append("Real joints give: the sag lies between this and that of resting ends.")
    return cautions
