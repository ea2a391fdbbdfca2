"""Legs that lean one or two ways, and boxes with sloping sides.

Rake is the lean seen from the side, splay the lean seen from the front, both from the vertical, as drawn in the views.
"""

import math
from dataclasses import dataclass
from typing import Literal

from shopapi.craft.limits import OutOfRangeError, require, require_more_than_zero

# Beyond this a leg lies rather than stands; the formulas hold below 90.
_STEEPEST_LEAN_DEG = 75.0
_TALLEST_MM = 10_000.0


@dataclass(frozen=True)
class SplayedLeg:
    """A leg that leans: what to drill, saw and plane it by. Angles in degrees, lengths in mm.

    `resultant_deg` is the true lean in its own plane, `sightline_deg` the direction of that plane seen from above,
    counted from the front-to-back axis towards the side. `end_miter_deg` is marked across the faces whose level edges
    run from side to side, `end_bevel_deg` the tilt of the blade there, `neighbour_mark_deg` the line on the faces
    between them. `blank_length_mm` is the length to cut the blank to, so that both slanted ends come out of it.
    """

    resultant_deg: float
    sightline_deg: float
    true_length_mm: float
    foot_offset_side_mm: float
    foot_offset_front_mm: float
    end_miter_deg: float
    end_bevel_deg: float
    neighbour_mark_deg: float
    blank_length_mm: float


@dataclass(frozen=True)
class Hopper:
    """Saw settings for the mitred corners of a box with sloping sides [degrees]."""

    miter_deg: float
    bevel_deg: float


def splayed_leg(
    height_mm: float, rake_deg: float, splay_deg: float = 0.0, width_mm: float = 0.0, thickness_mm: float = 0.0
) -> SplayedLeg:
    """Everything about a square leg that leans by rake and splay and stands a given height.

    height_mm: from the floor to the seat or top, along the vertical [mm], more than 0. rake_deg, splay_deg: lean seen
    from the side and from the front [degrees], 0 to 75. width_mm, thickness_mm: the leg's section, across the miter
    and across the bevel [mm]; they only lengthen the blank. Exact. Raises OutOfRangeError.
    Source: GEOMETRY, tan2 resultant = tan2 rake + tan2 splay; end cuts for faces kept level from side to side.

    >>> leg = splayed_leg(720, 10, 10)
    >>> round(leg.resultant_deg, 2), round(leg.true_length_mm, 1), round(leg.end_miter_deg, 2)
    (14.0, 742.0, 9.85)
    """
    require_more_than_zero("Height", height_mm, _TALLEST_MM, "mm")
    rake, splay = _lean("Rake", rake_deg), _lean("Splay", splay_deg)
    require("Leg width", width_mm, 0, 1000, "mm")
    require("Leg thickness", thickness_mm, 0, 1000, "mm")
    front, side = math.tan(rake), math.tan(splay)
    stretch = math.sqrt(1 + front * front + side * side)
    miter = math.atan(side * math.cos(rake))
    neighbour = math.atan(math.sin(rake) * stretch)
    return SplayedLeg(
        resultant_deg=math.degrees(math.atan(math.hypot(front, side))),
        sightline_deg=math.degrees(math.atan2(side, front)),
        true_length_mm=height_mm * stretch,
        foot_offset_side_mm=height_mm * side,
        foot_offset_front_mm=height_mm * front,
        end_miter_deg=math.degrees(miter),
        end_bevel_deg=rake_deg,
        neighbour_mark_deg=math.degrees(neighbour),
        blank_length_mm=height_mm * stretch + width_mm * math.tan(miter) + thickness_mm * math.tan(neighbour),
    )


def leans_from_resultant(resultant_deg: float, sightline_deg: float) -> tuple[float, float]:
    """Rake and splay [degrees] of a leg drilled at a resultant angle along a sightline.

    resultant_deg: true lean [degrees], 0 to 75. sightline_deg: from the front-to-back axis towards the side [degrees],
    0 to 90. Raises OutOfRangeError. Source: GEOMETRY, the resultant's tangent taken apart along the two axes.

    >>> rake, splay = leans_from_resultant(14.0019, 45)
    >>> round(rake, 3), round(splay, 3)
    (10.0, 10.0)
    """
    slope = math.tan(_lean("Resultant", resultant_deg))
    sight = math.radians(require("Sightline", sightline_deg, 0, 90, "degrees"))
    return math.degrees(math.atan(slope * math.cos(sight))), math.degrees(math.atan(slope * math.sin(sight)))


def angle_between_legs(
    rake_deg: float, splay_deg: float, which: Literal["left and right", "front and back", "diagonal"]
) -> float:
    """Angle [degrees] between two of four like legs, as a stretcher or a jig between them sees it.

    rake_deg, splay_deg: as for splayed_leg. which: the pair. Raises OutOfRangeError.
    Source: GEOMETRY, angle between the legs' directions.

    >>> round(angle_between_legs(10, 10, "diagonal"), 3)
    28.004
    """
    front, side = math.tan(_lean("Rake", rake_deg)), math.tan(_lean("Splay", splay_deg))
    apart = {"left and right": side, "front and back": front, "diagonal": math.hypot(front, side)}
    if which not in apart:
        raise OutOfRangeError(f'There is no pair "{which}". Known: {", ".join(apart)}.')
    stretch = math.sqrt(1 + front * front + side * side)
    # Both legs have the same length and lie half of the angle from their middle.
    return 2 * math.degrees(math.asin(apart[which] / stretch))


def hopper(sides: int, slope_deg: float) -> Hopper:
    """Saw settings for the mitred corners of a box or frame of equal sides that slope outwards.

    sides: 3 to 24. slope_deg: of the sides from the horizontal [degrees], above 0 to 90 (90 is upright, near 0 is a
    flat frame). `miter_deg` is set on the gauge, `bevel_deg` on the blade. Exact. Raises OutOfRangeError.
    Source: GEOMETRY, miter = atan(cos slope tan(180/N)), bevel = asin(sin slope sin(180/N)).

    >>> hopper(4, 90)
    Hopper(miter_deg=0.0, bevel_deg=45.0)
    """
    if sides != int(sides):
        raise OutOfRangeError(f"Sides {sides} is out of range: it must be a whole number from 3 to 24.")
    corner = math.pi / require("Sides", sides, 3, 24)
    slope = math.radians(require("Slope", slope_deg, 0, 90, "degrees"))
    miter = math.degrees(math.atan(math.cos(slope) * math.tan(corner)))
    bevel = math.degrees(math.asin(math.sin(slope) * math.sin(corner)))
    return Hopper(round(miter, 9), round(bevel, 9))


def _lean(what: str, angle_deg: float) -> float:
    return math.radians(require(what, angle_deg, 0, _STEEPEST_LEAN_DEG, "degrees"))
