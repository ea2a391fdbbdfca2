"""Change of width with moisture: coefficient method from 6 to 14 % MC, shrinkage method outside it."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal, overload

import numpy as np
from numpy.typing import ArrayLike, NDArray

from shopapi.craft.limits import Answer, Numbers, OutOfRangeError, is_scalar, require, require_all, warn_beyond
from shopapi.craft.species import Species
from shopapi.craft.species import species as species_named

# WOOD-HANDBOOK, chapter 13: Eq. 13-2 is meant for 6 to 14 % MC.
_COEFFICIENT_FROM_PCT, _COEFFICIENT_TO_PCT = 6.0, 14.0
_WIDEST_MM = 100_000.0

Method = Literal["coefficient", "shrinkage"]
METHOD_WORDS: dict[Method, str] = {
    "coefficient": "coefficient method, Wood Handbook Eq. 13-2",
    "shrinkage": "shrinkage method, Wood Handbook Eq. 13-3",
}
_OUTSIDE = "Moisture outside 6 to 14 %: shrinkage is taken as a straight line, which is coarser."
_SPREAD = "Mean of the species: single boards differ by 15 to 20 %."


@dataclass(frozen=True)
class Strip:
    """One strip of a panel: its width [mm] and its ring angle [degrees], 0 flatsawn to 90 quartersawn."""

    width_mm: float
    ring_angle_deg: float = 0.0


@overload
def width_change(
    width_mm: float, species: Species | str, mc_from: float, mc_to: float, ring_angle_deg: float = 0.0
) -> Answer: ...
@overload
def width_change(
    width_mm: ArrayLike, species: Species | str, mc_from: ArrayLike, mc_to: ArrayLike, ring_angle_deg: ArrayLike = 0.0
) -> Numbers: ...
def width_change(
    width_mm: ArrayLike, species: Species | str, mc_from: ArrayLike, mc_to: ArrayLike, ring_angle_deg: ArrayLike = 0.0
) -> Answer | Numbers:
    """Change of width [mm] of a board of this width at `mc_from` when it goes to `mc_to`; negative when it shrinks.

    width_mm: width at mc_from [mm], 0 to 100 m. species: a Species or its name. mc_from, mc_to: moisture [% of dry
    mass], 0 to fibre saturation (30; 22 for a few woods), above which wood no longer moves. ring_angle_deg: 0
    flatsawn (tangential), 90 quartersawn (radial). Numbers or arrays. `method` says which formula was used:
    coefficients while both moistures are from 6 to 14 %, else the shrinkage values, with a caution (arrays raise
    BeyondRange). Raises OutOfRangeError, UnknownSpeciesError.
    Source: WOOD-HANDBOOK, chapter 13, Eq. 13-2 (table 13-5) and Eq. 13-3 (form from memory, algebraically exact);
    between the two directions the strain tensor is turned by the ring angle (GEOMETRY).

    >>> change = width_change(232, "white fir", 8, 11)
    >>> round(change, 1), change.method
    (1.7, 'coefficient method, Wood Handbook Eq. 13-2')
    """
    one = species_named(species) if isinstance(species, str) else species
    start, end = moisture_of(one, mc_from), moisture_of(one, mc_to)
    near = _near(start) & _near(end)
    changes = [changed(width_mm, one, start, end, ring_angle_deg, method) for method in METHOD_WORDS]
    if is_scalar(width_mm, mc_from, mc_to, ring_angle_deg):
        method: Method = "coefficient" if near else "shrinkage"
        return Answer(float(changes[0 if near else 1]), "mm", METHOD_WORDS[method], cautions_for(one, method))
    if not near.all():
        warn_beyond(_OUTSIDE)
    return np.where(near, *changes)


def changed(
    width_mm: ArrayLike, one: Species, start: Numbers, end: Numbers, ring_angle_deg: ArrayLike, method: Method
) -> Numbers:
    """Change of width [mm] by one named method, for whole arrays of checked moistures; see width_change.

    Source: WOOD-HANDBOOK, chapter 13, Eq. 13-2 (coefficient) or Eq. 13-3 (shrinkage).
    """
    width = require_all("Width", width_mm, 0, _WIDEST_MM, "mm")
    angle = require_all("Ring angle", ring_angle_deg, 0, 90, "degrees")
    answer: Numbers
    if method == "coefficient":
        answer = width * _turned(one, one.cr, one.ct, angle) * (end - start)  # Eq. 13-2
    else:
        F, S = one.fibre_saturation_pct, _turned(one, one.radial_pct, one.tangential_pct, angle)
        answer = width * (end - start) / (F * 100 / S - F + start)  # Eq. 13-3 with the wood's own fibre saturation
    return answer


def method_for(*mc_pct: Numbers) -> Method:
    """The one method that suits all these moistures [% MC]: coefficients only while every one is from 6 to 14 %.

    Source: WOOD-HANDBOOK, chapter 13, range of Eq. 13-2.
    """
    return "coefficient" if all(_near(mc).all() for mc in mc_pct) else "shrinkage"


def panel_change(strips: Sequence[Strip], species: Species | str, mc_from: float, mc_to: float) -> Answer:
    """Change of width [mm] of a panel glued from strips, each with its own ring angle: the sum of its strips.

    strips: at least one. The rest as for width_change, whose method and cautions it carries.
    Raises OutOfRangeError, UnknownSpeciesError. Source: WOOD-HANDBOOK, chapter 13, Eq. 13-2 and 13-3, strip by strip.

    >>> strips = [Strip(100, 0), Strip(100, 90)]
    >>> round(panel_change(strips, "white oak", 8, 12), 2)
    2.18
    """
    if not strips:
        raise OutOfRangeError("A panel needs at least one strip.")
    changes = [width_change(strip.width_mm, species, mc_from, mc_to, strip.ring_angle_deg) for strip in strips]
    return Answer(sum(changes), "mm", changes[0].method, changes[0].cautions)


def cup_depth(width_mm: float, species: Species | str, mc_from: float, mc_to: float, pith_distance_mm: float) -> Answer:
    """How far the edges of a free flatsawn board leave the plane of its middle [mm]; positive is towards the bark side.

    width_mm: width [mm]. pith_distance_mm: from the pith to the middle of the board [mm], more than 0.
    A drying board goes hollow on the bark side (positive). It is the upper limit: nothing holds the board flat, and its
    moisture is even through the thickness. The rest as for width_change. Raises OutOfRangeError, UnknownSpeciesError.
    Source: OWN, stress-free polar shrinkage: radii shrink by the radial, ring arcs by the tangential amount, so a point
    at (r, angle) goes to ((1 + radial) r, angle (1 + tangential) / (1 + radial)).

    >>> round(cup_depth(200, "white oak", 12, 7, 100), 2)
    0.72
    """
    width = require("Width", width_mm, 0, _WIDEST_MM, "mm")
    pith = require("Distance from the pith", pith_distance_mm, 1e-3, _WIDEST_MM, "mm")
    # Changes of a line of unit length in either direction.
    tangential = width_change(1.0, species, mc_from, mc_to, 0.0)
    radial = width_change(1.0, species, mc_from, mc_to, 90.0)
    angle = math.atan2(width / 2, pith)
    turned = angle * (1 + tangential) / (1 + radial)
    depth = (1 + radial) * pith * (math.cos(turned) / math.cos(angle) - 1)
    return Answer(
        depth, "mm", "stress-free polar shrinkage", (*tangential.cautions, "A free board; held ones cup less.")
    )


def moisture_of(one: Species, mc_pct: ArrayLike) -> Numbers:
    """Moistures [% MC] this wood can move between: 0 to its fibre saturation. Raises OutOfRangeError, saying why.

    Source: WOOD-HANDBOOK, chapter 4, fibre saturation.
    """
    try:
        return require_all("Moisture", mc_pct, 0, one.fibre_saturation_pct, "%")
    except OutOfRangeError as refusal:
        raise OutOfRangeError(f"{refusal} Above that ({one.name}'s fibre saturation) wood no longer moves.") from None


def _near(mc_pct: Numbers) -> NDArray[np.bool_]:
    inside: NDArray[np.bool_] = (mc_pct >= _COEFFICIENT_FROM_PCT) & (mc_pct <= _COEFFICIENT_TO_PCT)
    return inside


def _turned(one: Species, radial: float | None, tangential: float | None, angle_deg: Numbers) -> Numbers:
    """A strain across the width at a ring angle: e = eT cos2 + eR sin2 (second-rank tensor turned about the grain)."""
    if radial is None or (tangential is None and np.any(angle_deg < 90)):
        raise OutOfRangeError(
            f"No tangential value is published for {one.name}; only quartersawn (90 degrees) is known."
        )
    angle = np.radians(angle_deg)
    answer: Numbers = (tangential or 0.0) * np.cos(angle) ** 2 + radial * np.sin(angle) ** 2
    return answer


def cautions_for(one: Species, method: Method) -> tuple[str, ...]:
    """What must be said wherever a change of width of this wood is shown.

    Source: WOOD-HANDBOOK, chapter 4 (spread within a species, from memory) and chapter 13 (range of Eq. 13-2).
    """
    how, values = one.coefficient_how, "Coefficient"
    if method == "shrinkage":
        how, values = one.shrinkage_how, "Shrinkage"
    cautions = [_SPREAD]
    if how == "computed":
        cautions.append(f"{values} of {one.name} is not published: computed from its other values.")
    elif how != "read":
        cautions.append(f"{values} of {one.name}: {how}.")
    if method == "shrinkage":
        cautions.append(_OUTSIDE)
    return tuple(cautions)
