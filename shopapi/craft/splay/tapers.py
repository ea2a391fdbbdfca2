"""Tapers and bevels: angles, jig offsets and what is left."""

import math
from dataclasses import dataclass

from shopapi.craft.limits import OutOfRangeError, require, require_more_than_zero

_SHORTEST_MM, _LONGEST_MM = 1.0, 20_000.0


@dataclass(frozen=True)
class Taper:
    """A straight taper on one face: its angle [degrees], how much it takes off [mm], and the jig's offset [mm]."""

    angle_deg: float
    taken_mm: float
    jig_offset_mm: float


@dataclass(frozen=True)
class Bevel:
    """A bevel along an edge: its angle from the face [degrees], the width of the bevelled face [mm], the blade's tilt
    from square with the part lying flat [degrees]."""

    angle_deg: float
    face_mm: float
    blade_tilt_deg: float


def taper(length_mm: float, from_mm: float, to_mm: float, jig_length_mm: float | None = None) -> Taper:
    """A taper on one face of a leg, over part of its length.

    length_mm: of the tapered stretch [mm], 1 or more. from_mm, to_mm: thickness at its ends [mm]. jig_length_mm:
    between the jig's stops [mm]; None takes the tapered stretch. The jig's offset swings the leg by the taper's
    angle. For a taper on two opposite faces use half of what is taken. Raises OutOfRangeError.
    Source: GEOMETRY, right triangle.

    >>> taper(500, 45, 25).taken_mm, round(taper(500, 45, 25).angle_deg, 2)
    (20, 2.29)
    """
    require("Length of the taper", length_mm, _SHORTEST_MM, _LONGEST_MM, "mm")
    require_more_than_zero("Thickness at the start", from_mm, _LONGEST_MM, "mm")
    require_more_than_zero("Thickness at the end", to_mm, _LONGEST_MM, "mm")
    if to_mm > from_mm:
        raise OutOfRangeError(f"A taper gets thinner: it cannot go from {from_mm:g} to {to_mm:g} mm. Swap them.")
    jig = length_mm if jig_length_mm is None else require_more_than_zero("Jig", jig_length_mm, _LONGEST_MM, "mm")
    slope = (from_mm - to_mm) / length_mm
    return Taper(math.degrees(math.atan(slope)), from_mm - to_mm, jig * slope)


def edge_bevel(run_mm: float, rise_mm: float) -> Bevel:
    """A bevel that takes `run_mm` off the face and `rise_mm` off the edge, as under a table top.

    run_mm: across the face [mm], more than 0. rise_mm: up the edge [mm], more than 0. Wide bevels are cut in several
    passes, the last one light (common practice). Exact. Raises OutOfRangeError.
    Source: GEOMETRY, right triangle.

    >>> bevel = edge_bevel(60, 12)
    >>> round(bevel.angle_deg, 2), round(bevel.face_mm, 2)
    (11.31, 61.19)
    """
    require_more_than_zero("Run", run_mm, _LONGEST_MM, "mm")
    require_more_than_zero("Rise", rise_mm, _LONGEST_MM, "mm")
    angle = math.degrees(math.atan2(rise_mm, run_mm))
    return Bevel(angle, math.hypot(run_mm, rise_mm), 90 - angle)
