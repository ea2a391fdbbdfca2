"""How hard a wood screw holds, pulled straight out of side grain."""

from dataclasses import dataclass

from shopapi.craft.limits import OutOfRangeError, require, require_more_than_zero
from shopapi.craft.species import Species, species, specific_gravity_at

# SCREW-RULES: ultimate load [N] = 108.25 G2 D L; design load = 2850 G2 D lbf per inch of thread, in N and mm.
_ULTIMATE_N_MM2 = 108.25
_DESIGN_N_MM2 = 2850 * 4.4482216152605 / 25.4**2


@dataclass(frozen=True)
class Withdrawal:
    """Load that pulls a screw straight out of side grain [N]: where it gives way, and what to build for."""

    ultimate_n: float
    design_n: float
    cautions: tuple[str, ...]


def screw_withdrawal(wood: Species | str | float, diameter_mm: float, thread_mm: float) -> Withdrawal:
    """Withdrawal of a wood screw from the side grain of dry wood, both as ultimate and as design load.

    wood: species, its name, or a specific gravity (ovendry mass; 0.2 to 1.1). diameter_mm: shank [mm], 2 to 10.
    thread_mm: thread inside the wood [mm], more than 0 to 150. The two loads differ 5.5-fold on purpose: one breaks,
    one is built for. Not for end grain, inserts or wood that was damp when screwed. Raises OutOfRangeError,
    UnknownSpeciesError.
    Source: SCREW-RULES, WOOD-HANDBOOK Eq. 8-10 (from memory) and design equation (secondary copy).

    >>> holds = screw_withdrawal(0.45, 0.190 * 25.4, 25.4)
    >>> round(holds.design_n / 4.4482, 2)
    109.65
    """
    require("Screw diameter", diameter_mm, 2, 10, "mm")
    require_more_than_zero("Thread in the wood", thread_mm, 150, "mm")
    if isinstance(wood, (int, float)):
        at_12 = ovendry = require("Specific gravity", wood, 0.2, 1.1)
    else:
        at_12, ovendry = specific_gravity_at(wood, 12), specific_gravity_at(wood, 0)
    return Withdrawal(
        _ULTIMATE_N_MM2 * at_12**2 * diameter_mm * thread_mm,
        _DESIGN_N_MM2 * ovendry**2 * diameter_mm * thread_mm,
        (
            "Straight pull from side grain of dry wood. Screws in end grain hold far less: never rely on them.",
            "Ultimate equation from memory. Threaded inserts follow their maker's figures, not this.",
        ),
    )


def lead_hole_mm(root_diameter_mm: float, wood: Species | str) -> float:
    """Lead hole for the thread of a wood screw [mm]: 90 % of the root in hardwood, 70 % in softwood.

    root_diameter_mm: thread's root [mm], about two thirds of the shank, 1 to 10. wood: species or its name; imported
    woods count as hardwood above a specific gravity of 0.5. Raises OutOfRangeError, UnknownSpeciesError.
    Source: SCREW-RULES, lead holes.

    >>> round(lead_hole_mm(3.2, "white oak"), 2)
    2.88
    """
    require("Root diameter", root_diameter_mm, 1, 10, "mm")
    one = species(wood) if isinstance(wood, str) else wood
    if one.group == "imported" and one.specific_gravity is None:
        raise OutOfRangeError(f"No specific gravity is published for {one.name}. Try the hole on an offcut.")
    hard = one.group == "hardwood" or (one.group == "imported" and specific_gravity_at(one, 12) > 0.5)
    return root_diameter_mm * (0.9 if hard else 0.7)
