"""Half laps of two parts that cross in one plane at any angle."""

import math
from dataclasses import dataclass

from shopapi.craft.limits import OutOfRangeError, require, require_more_than_zero

_FLATTEST_CROSSING_DEG = 10.0
_LONGEST_MM = 20_000.0


@dataclass(frozen=True)
class HalfLap:
    """Where to mark and how deep to cut one half of a lap [mm].

    `notch_length_mm` runs along the part between the shoulders, `shoulder_offset_mm` is how far a shoulder line moves
    along the part from its lower to its upper edge. `lower_edge_mm` and `upper_edge_mm` are where the two shoulders
    meet those edges, measured along the part from the same end as the crossing's middle.
    """

    notch_length_mm: float
    notch_depth_mm: float
    shoulder_offset_mm: float
    lower_edge_mm: tuple[float, float]
    upper_edge_mm: tuple[float, float]


@dataclass(frozen=True)
class Crossing:
    """Two diagonals of a rectangle: how each lies, how they cross, and how long each is between corners."""

    member_angle_deg: float
    crossing_angle_deg: float
    diagonal_mm: float


def half_lap(
    width_mm: float,
    other_width_mm: float,
    thickness_mm: float,
    crossing_deg: float,
    middle_mm: float = 0.0,
    depth_share: float = 0.5,
) -> HalfLap:
    """One part's half of a lap where another crosses it at any angle, both in one plane.

    width_mm, thickness_mm: this part [mm]. other_width_mm: the part that crosses [mm]. crossing_deg: angle between
    the centre lines [degrees], 10 to 170; under 90 the other part leans towards the far end as it rises. middle_mm:
    where the centre lines meet, along this part from one end [mm]. depth_share: this part's share of the thickness
    cut away, above 0 to below 1. Exact; cut slightly full and pare to fit. Raises OutOfRangeError.
    Source: GEOMETRY, notch = other width / sin angle, shoulders shifted by width / tan angle.

    >>> lap = half_lap(60, 60, 24, 47.925, middle_mm=400)
    >>> round(lap.notch_length_mm, 2), round(lap.shoulder_offset_mm, 2), lap.notch_depth_mm
    (80.83, 54.17, 12.0)
    """
    require_more_than_zero("Width", width_mm, _LONGEST_MM, "mm")
    require_more_than_zero("Other width", other_width_mm, _LONGEST_MM, "mm")
    require_more_than_zero("Thickness", thickness_mm, _LONGEST_MM, "mm")
    require("Crossing angle", crossing_deg, _FLATTEST_CROSSING_DEG, 180 - _FLATTEST_CROSSING_DEG, "degrees")
    require("Middle of the crossing", middle_mm, 0, _LONGEST_MM, "mm")
    if not 0 < depth_share < 1:
        raise OutOfRangeError(f"Depth share {depth_share} is out of range: it must be more than 0 and less than 1.")
    angle = math.radians(crossing_deg)
    notch = other_width_mm / math.sin(angle)
    # cos / sin, so that a square crossing shifts by nothing but rounding.
    offset = width_mm * math.cos(angle) / math.sin(angle)
    low, high = middle_mm - offset / 2, middle_mm + offset / 2
    return HalfLap(
        notch_length_mm=notch,
        notch_depth_mm=thickness_mm * depth_share,
        shoulder_offset_mm=offset,
        lower_edge_mm=(low - notch / 2, low + notch / 2),
        upper_edge_mm=(high - notch / 2, high + notch / 2),
    )


def crossing_in_frame(length_mm: float, height_mm: float) -> Crossing:
    """Two members whose centre lines run from corner to corner of a rectangle, as an X in a frame.

    length_mm, height_mm: the rectangle between the centre lines' ends [mm], more than 0. A part of real width fitted
    inside a frame lies at a slightly other angle. Raises OutOfRangeError.
    Source: GEOMETRY, diagonals of a rectangle.

    >>> round(crossing_in_frame(900, 400).crossing_angle_deg, 3)
    47.925
    """
    require_more_than_zero("Length", length_mm, _LONGEST_MM, "mm")
    require_more_than_zero("Height", height_mm, _LONGEST_MM, "mm")
    angle = math.degrees(math.atan2(height_mm, length_mm))
    return Crossing(angle, min(2 * angle, 180 - 2 * angle), math.hypot(length_mm, height_mm))
