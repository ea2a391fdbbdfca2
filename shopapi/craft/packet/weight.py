"""What a piece weighs, from its parts."""

from collections.abc import Iterable

from shopapi.craft.packet.packet import PartLine
from shopapi.craft.species import density_kg_m3

MM3_PER_M3 = 1e9


def mass_of_parts_kg(parts: Iterable[PartLine], mc_pct: float) -> float:
    """Mass [kg] of the wood in these parts at their finished sizes, without hardware, glue and finish.

    mc_pct: moisture [% of dry mass], 0 to 30. Boards differ by about 10 %; nothing is taken off for joints.
    Raises OutOfRangeError, UnknownSpeciesError. Source: WOOD-HANDBOOK, chapter 4, through `density_kg_m3`.

    >>> round(mass_of_parts_kg([PartLine("Top", 1, 1500, 762, 22, "white oak")], 8.0), 1)
    18.9
    """
    return sum(
        part.quantity
        * part.length_mm
        * part.width_mm
        * part.thickness_mm
        / MM3_PER_M3
        * float(density_kg_m3(part.species, mc_pct))
        for part in parts
    )
