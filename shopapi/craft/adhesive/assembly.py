"""Whether the glue-up can be closed before the glue skins, and how long it stays in clamps."""

import math
from dataclasses import dataclass

from shopapi.craft.adhesive.glues import LABEL_RULES, GlueClass, glue_class
from shopapi.craft.finish import drying_factor
from shopapi.craft.limits import OutOfRangeError, require, require_more_than_zero

# COMMON-PRACTICE, no source: one edge spread with a roller or brush, and one clamp set.
_SPREAD_MM_S = 50.0
_CLAMP_S = 20.0


@dataclass(frozen=True)
class AssemblyTime:
    """Minutes a glue-up takes against what the glue allows: until the first edge is joined, and until all are clamped.

    `sub_panels` is into how many to split the panel so that each fits, 1 when it fits as it is.
    """

    spreading_min: float
    until_clamped_min: float
    open_min: float
    total_min: float
    fits: bool
    sub_panels: int
    cautions: tuple[str, ...]


@dataclass(frozen=True)
class ClampTime:
    """Minutes in clamps and hours before the joint is planed or loaded, in this air."""

    clamp_min: float
    rest_h: float
    cautions: tuple[str, ...]


def assembly_time(
    glue: GlueClass | str, edges: int, edge_length_mm: float, clamps: int, temp_c: float = 20.0, rh_pct: float = 50.0
) -> AssemblyTime:
    """Whether a number of edges can be coated, joined and clamped before the glue skins.

    glue: class or its name. edges: to be coated, 1 to 60. edge_length_mm: [mm], more than 0. clamps: to be set, 1 to
    100. temp_c, rh_pct: shop air [°C, %]; the short end of the glue's times is used, and warm dry air shortens it
    further. Raises OutOfRangeError.
    Source: GLUE-GUIDES for open and total time (from memory); 50 mm/s of spreading and 20 s a clamp are common
    practice; the air's effect by drying_factor (OWN).

    >>> five_strips = assembly_time("yellow", 4, 1500, 8)
    >>> round(five_strips.spreading_min, 1), round(five_strips.until_clamped_min, 1), five_strips.fits
    (2.0, 4.7, True)
    """
    one = glue_class(glue) if isinstance(glue, str) else glue
    require("Edges", edges, 1, 60)
    require_more_than_zero("Edge length", edge_length_mm, 20_000, "mm")
    require("Clamps", clamps, 1, 100)
    # Good air for drying is bad air for assembly; slow drying gives no more time than the label says.
    factor = min(1.0, drying_factor("water" if one.waterborne else "reaction", temp_c, rh_pct))
    open_min, total_min = one.open_min[0] * factor, one.total_min[0] * factor
    edge_min, clamping_min = edge_length_mm / _SPREAD_MM_S / 60, clamps * _CLAMP_S / 60
    spreading = edges * edge_min
    fits = spreading <= open_min and spreading + clamping_min <= total_min
    at_once = math.floor(min(open_min, total_min - clamping_min) / edge_min + 1e-9)
    if at_once < 1:
        raise OutOfRangeError(
            f"One edge of {edge_length_mm:g} mm with {clamps} clamps takes longer than {one.label} stays open "
            f"({open_min:.0f} min). Take a slower glue, fewer clamps or a second pair of hands."
        )
    cautions = [LABEL_RULES, f"Times: {one.how}."]
    if not fits:
        cautions.append("Glue sub-panels first, or take a slower glue or a second pair of hands.")
    return AssemblyTime(
        spreading, spreading + clamping_min, open_min, total_min, fits, math.ceil(edges / at_once), tuple(cautions)
    )


def clamp_time(glue: GlueClass | str, temp_c: float = 20.0) -> ClampTime:
    """Minutes in clamps for an unstressed joint, and the rest before it is worked, at a shop temperature.

    glue: class or its name. temp_c: of wood, glue and air [°C], coldest safe temperature of the class to 45; twice as
    long for every 10 °C below 20, never shorter than at 20. Raises OutOfRangeError below the coldest safe temperature.
    Source: GLUE-GUIDES, clamp time and lowest temperature; the factor for cold is common practice, no source.

    >>> clamp_time("yellow", 20).clamp_min, clamp_time("yellow", 10).clamp_min
    (60.0, 120.0)
    """
    one = glue_class(glue) if isinstance(glue, str) else glue
    require("Temperature", temp_c, -50, 45, "°C")
    if temp_c < one.coldest_c:
        raise OutOfRangeError(
            f"Temperature {temp_c:g} °C is out of range: {one.label} needs {one.coldest_c:g} °C or more in wood, glue "
            "and air, or the joint fails later. Warm all three."
        )
    factor = max(1.0, 2 ** ((20 - temp_c) / 10))
    cautions = [LABEL_RULES, *one.cautions]
    if one.waterborne:
        cautions.append("Planed too soon, the joint sinks later as its water leaves: wait, longer for thin parts.")
    return ClampTime(one.clamp_min[1] * factor, one.rest_h * factor, tuple(cautions))
