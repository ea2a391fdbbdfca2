"""What a finished piece weighs."""

from collections.abc import Sequence
from dataclasses import dataclass

from shopapi.craft.limits import Answer, OutOfRangeError, require, require_more_than_zero
from shopapi.craft.species import density_kg_m3

_LIFT_ALONE_KG = 25.0


@dataclass(frozen=True)
class MassPart:
    """A part by finished size [mm] and species name, so many times; `share` is how much of that block is wood (joints
    cut away, turned or tapered shapes)."""

    species: str
    length_mm: float
    width_mm: float
    thickness_mm: float
    count: int = 1
    share: float = 1.0


def piece_mass(parts: Sequence[MassPart], mc_pct: float, hardware_kg: float = 0.0) -> Answer:
    """Mass of a finished piece [kg] from its parts and moisture, plus hardware.

    parts: at least one. mc_pct: moisture [% MC], 0 to 30. hardware_kg: metal, glass, stone [kg]. About 10 % either way.
    Raises OutOfRangeError, UnknownSpeciesError.
    Source: WOOD-HANDBOOK, chapter 4, density by specific gravity and moisture; lifting limits are common practice.

    >>> round(piece_mass([MassPart("white oak", 1400, 700, 25)], 8), 1)
    18.4
    """
    if not parts:
        raise OutOfRangeError("A piece needs at least one part.")
    require("Hardware", hardware_kg, 0, 2000, "kg")
    total = hardware_kg + sum(_part_kg(part, mc_pct) for part in parts)
    cautions = ["Means of the species: about 10 % either way."]
    if total > _LIFT_ALONE_KG:
        cautions.append("Too heavy to lift alone safely: two people, or take it apart. Local lifting rules apply.")
    return Answer(total, "kg", "sum of volume x density", cautions)


def _part_kg(part: MassPart, mc_pct: float) -> float:
    for what, size_mm in (("Length", part.length_mm), ("Width", part.width_mm), ("Thickness", part.thickness_mm)):
        require_more_than_zero(what, size_mm, 20_000, "mm")
    require("Count", part.count, 0, 10_000)
    require("Share of the block", part.share, 0, 1)
    block_mm3 = part.length_mm * part.width_mm * part.thickness_mm
    return block_mm3 * 1e-9 * part.share * part.count * density_kg_m3(part.species, mc_pct)
