"""Clamping an edge joint: pressure by wood, force, and how many clamps."""

import math
from dataclasses import dataclass

from shopapi.craft.limits import Answer, OutOfRangeError, require, require_more_than_zero
from shopapi.craft.species import Species, species, specific_gravity_at

_MOST_CLAMPS = 500  # own limit: no panel is clamped with more, and each one is placed
_MPA_PER_PSI = 0.006894757293168361
_N_PER_LBF = 4.4482216152605

# GLUE-GUIDES, a glue maker's technical guide (secondary): pressure by density of the wood [psi]; the border gravities
# place the woods the guide names (pine, poplar; cherry, soft maple; oak, birch).
_PRESSURE_PSI = ((0.45, 100, 150), (0.57, 150, 200), (math.inf, 200, 300))
# GLUE-GUIDES, force of one clamp [lbf], read in a secondary copy.
CLAMP_FORCE_LBF = {"parallel-jaw": 370.0, "pipe": 1050.0, "bar": 1350.0}


@dataclass(frozen=True)
class Pressure:
    """Clamping pressure for a wood [MPa]: from and to, with what to say beside it."""

    low_mpa: float
    high_mpa: float
    cautions: tuple[str, ...]


@dataclass(frozen=True)
class ClampPlan:
    """Clamps for one panel: the larger of the number by force and by spread, and where they go [mm].

    `force_n` is the whole force at the low pressure. `positions_mm` are along the joint, from one end.
    """

    clamps: int
    by_force: int
    by_spread: int
    force_n: float
    positions_mm: tuple[float, ...]
    cautions: tuple[str, ...]


def clamp_pressure(wood: Species | str) -> Pressure:
    """Clamping pressure for water-based glue by the density of the wood [MPa], as a range.

    wood: species or its name. Published pressures disagree: university tests found the greatest strength from 1 MPa
    (pine) to 8 MPa (sugar maple), which no hand clamp reaches on a panel. Raises OutOfRangeError where no specific
    gravity is published; UnknownSpeciesError. Source: GLUE-GUIDES, a glue maker's guide (secondary copy).

    >>> round(clamp_pressure("white oak").low_mpa, 2)
    1.38
    """
    one = species(wood) if isinstance(wood, str) else wood
    gravity = specific_gravity_at(one, 12)
    low, high = next((low, high) for border, low, high in _PRESSURE_PSI if gravity < border)
    caution = "Makers and laboratories disagree on pressure: a straight joint and even squeeze-out matter more."
    return Pressure(low * _MPA_PER_PSI, high * _MPA_PER_PSI, (caution,))


def clamp_force_n(joint_length_mm: float, joint_width_mm: float, pressure_mpa: float) -> Answer:
    """Whole clamping force for one joint [N]: pressure times glue line area.

    joint_length_mm, joint_width_mm: of the glue line [mm], more than 0. pressure_mpa: 0.05 to 10 [MPa]. Panels with
    several parallel joints take the force once: it goes through all of them. Raises OutOfRangeError.
    Source: MECHANICS, force = pressure x area.

    >>> round(clamp_force_n(48 * 25.4, 25.4, 150 * 0.006894757) / 4.4482216)
    7200
    """
    require_more_than_zero("Joint length", joint_length_mm, 20_000, "mm")
    require_more_than_zero("Joint width", joint_width_mm, 20_000, "mm")
    require("Pressure", pressure_mpa, 0.05, 10, "MPa")
    return Answer(joint_length_mm * joint_width_mm * pressure_mpa, "N", "pressure x area")


def clamps_for_spread(joint_length_mm: float, outer_strip_mm: float, caul_mm: float = 0.0) -> int:
    """Clamps that press the outermost joint along its whole length, by pressure fanning out at 45 degrees.

    joint_length_mm: [mm], more than 0. outer_strip_mm: from the clamp's side of the strip to the outermost joint
    [mm], the worst joint, so take the narrower outer strip. caul_mm: caul or pad between clamp and strip [mm]. Each
    clamp covers twice the way from its face to the joint. Raises OutOfRangeError.
    Source: GLUE-GUIDES, 45-degree rule, applied strictly (a published count of 8 where the rule gives 10 is
    optimistic).

    >>> clamps_for_spread(48 * 25.4, 2 * 25.4, 0.5 * 25.4)
    10
    """
    require_more_than_zero("Joint length", joint_length_mm, 20_000, "mm")
    require("Outer strip", outer_strip_mm, 0, 2000, "mm")
    require("Caul", caul_mm, 0, 1000, "mm")
    reach = outer_strip_mm + caul_mm
    if reach <= 0:
        raise OutOfRangeError("Outer strip 0 mm is out of range: strip and caul together must be more than 0.")
    return max(1, math.ceil(joint_length_mm / (2 * reach) - 1e-9))


def clamp_plan(
    joint_length_mm: float,
    thickness_mm: float,
    outer_strip_mm: float,
    wood: Species | str,
    caul_mm: float = 0.0,
    one_clamp_n: float = CLAMP_FORCE_LBF["pipe"] * _N_PER_LBF,
) -> ClampPlan:
    """How many clamps a panel takes and where they go, by force and by spread, whichever asks for more.

    joint_length_mm, thickness_mm: of one glue line [mm]. outer_strip_mm, caul_mm: as for clamps_for_spread. wood:
    species or its name. one_clamp_n: force of one clamp [N], more than 0 to 20 kN (a pipe clamp gives about 4.7 kN, a
    parallel-jaw clamp 1.6 kN). Raises OutOfRangeError, also above 500 clamps; UnknownSpeciesError.
    Source: GLUE-GUIDES, pressure by wood (low end), force by clamp, 45-degree rule.

    >>> plan = clamp_plan(1500, 22, 100, "white oak")
    >>> plan.clamps, plan.by_force, plan.by_spread
    (10, 10, 8)
    """
    require_more_than_zero("Force of one clamp", one_clamp_n, 20_000, "N")
    pressure = clamp_pressure(wood)
    force = clamp_force_n(joint_length_mm, thickness_mm, pressure.low_mpa)
    by_force = max(1, math.ceil(force / one_clamp_n - 1e-9))
    by_spread = clamps_for_spread(joint_length_mm, outer_strip_mm, caul_mm)
    clamps = max(by_force, by_spread)
    if clamps > _MOST_CLAMPS:
        raise OutOfRangeError(
            f"{clamps} clamps is out of range: at most {_MOST_CLAMPS}. "
            "Take a wider outer strip or caul, stronger clamps or a shorter joint."
        )
    cautions = (
        *pressure.cautions,
        "Alternate over and under, rehearse dry with every clamp set, and check that the panel lies flat.",
    )
    return ClampPlan(clamps, by_force, by_spread, float(force), _positions(joint_length_mm, clamps), cautions)


def _positions(length_mm: float, clamps: int) -> tuple[float, ...]:
    """Each clamp in the middle of its own equal stretch, so that the fans meet and reach the ends."""
    return tuple((number + 0.5) * length_mm / clamps for number in range(clamps))
