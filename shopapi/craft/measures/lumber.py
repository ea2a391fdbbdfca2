"""Lumber as it is tallied: surface measure, board feet, and thickness in quarters of an inch."""

import math
import re
from fractions import Fraction

from shopapi.craft.limits import OutOfRangeError, require_more_than_zero
from shopapi.craft.measures.lengths import MM_PER_FOOT, MM_PER_INCH, MeasureError

# LUMBER-RULES, standard thickness for surfaced lumber: quarters -> inches after surfacing two sides.
_SURFACED_TWO_SIDES_IN = {
    Fraction(3, 2): "3/16", Fraction(2): "5/16", Fraction(5, 2): "7/16", Fraction(3): "9/16", Fraction(4): "13/16",
    Fraction(5): "17/16", Fraction(6): "21/16", Fraction(7): "3/2", Fraction(8): "7/4", Fraction(10): "9/4",
    Fraction(12): "11/4", Fraction(14): "13/4", Fraction(16): "15/4",
}  # fmt: skip
_SURFACED_ONE_SIDE_IN = {
    Fraction(2): "3/8", Fraction(5, 2): "1/2", Fraction(3): "5/8", Fraction(4): "7/8", Fraction(5): "9/8",
    Fraction(6): "11/8", Fraction(8): "29/16", Fraction(12): "45/16", Fraction(16): "61/16",
}  # fmt: skip
# A board stored to the millimetre may be half a millimetre short of the foot it was sold as.
_SHORT_OF_A_FOOT_MM = 0.5


def surface_measure(length_mm: float, width_mm: float) -> int:
    """Surface measure [whole square feet] of one board: width in inches x whole feet of length / 12, rounded.

    length_mm, width_mm: rough size [mm], more than 0. Length drops to whole feet first. An exact half goes to the
    even number, because a tally takes such halves up and down in turn and one board alone cannot.
    Raises OutOfRangeError. Source: LUMBER-RULES, rules of measurement (read in secondary copies; the half rule memory).

    >>> surface_measure(13 * 304.8, 10 * 25.4)
    11
    """
    require_more_than_zero("Length", length_mm, unit="mm")
    require_more_than_zero("Width", width_mm, unit="mm")
    whole_feet = math.floor((length_mm + _SHORT_OF_A_FOOT_MM) / MM_PER_FOOT)
    # Widths are known to a 64th at best; rounding there removes float noise, so that halves are halves.
    width_in = Fraction(round(width_mm / MM_PER_INCH * 64), 64)
    return round(width_in * whole_feet / 12)


def board_feet(surface_measure_sqft: float, thickness_quarters: float) -> float:
    """Board feet of a board from its surface measure and nominal thickness.

    surface_measure_sqft: 0 or more [sq ft]. thickness_quarters: nominal, more than 0 [quarters of an inch]; stock under
    4/4 counts as 4/4. Raises OutOfRangeError.
    Source: LUMBER-RULES, rules of measurement (read in secondary copies).

    >>> board_feet(surface_measure(8 * 304.8, 6.25 * 25.4), 8)
    8.0
    """
    require_more_than_zero("Thickness", thickness_quarters, unit="quarters")
    if not surface_measure_sqft >= 0:
        raise OutOfRangeError(f"Surface measure {surface_measure_sqft} must be 0 or more.")
    return surface_measure_sqft * max(thickness_quarters, 4) / 4


def volume_board_feet(length_mm: float, width_mm: float, thickness_mm: float) -> float:
    """Exact volume in board feet (144 cubic inches), for parts and waste, where no tally rounding belongs.

    All sizes [mm], more than 0. Raises OutOfRangeError. Source: NIST-SP811, appendix B.8 (1 board foot = 144 in3).

    >>> round(volume_board_feet(304.8, 304.8, 25.4), 9)
    1.0
    """
    for what, size_mm in (("Length", length_mm), ("Width", width_mm), ("Thickness", thickness_mm)):
        require_more_than_zero(what, size_mm, unit="mm")
    return length_mm * width_mm * thickness_mm / (144 * MM_PER_INCH**3)


def parse_quarters(text: str) -> int:
    """Quarters of an inch of a rough thickness as sold: `4/4` is 4, `8/4` is 8.

    Valid from 1/4 to 32/4. Raises MeasureError. Source: LUMBER-RULES, standard thicknesses.

    >>> parse_quarters("5/4")
    5
    """
    match = re.fullmatch(r"\s*(\d{1,2})\s*[/⁄]\s*4\s*", text)
    if not match or not 1 <= int(match[1]) <= 32:
        raise MeasureError(f'"{text.strip()}" is not a thickness in quarters. Write it like 4/4, 5/4 or 8/4.')
    return int(match[1])


def rough_thickness_mm(quarters: float) -> float:
    """Nominal rough thickness [mm] of a board sold by quarters of an inch: 4/4 is 25.4 mm.

    quarters: more than 0. Raises OutOfRangeError. Source: LUMBER-RULES, standard thicknesses.

    >>> rough_thickness_mm(8)
    50.8
    """
    return require_more_than_zero("Thickness", quarters, 64, "quarters") * MM_PER_INCH / 4


def surfaced_thickness_mm(quarters: float, sides: int = 2) -> float:
    """Standard thickness [mm] after surfacing one or two sides: 4/4 surfaced two sides is 13/16 in.

    quarters: a nominal thickness the standard lists (1.5 for 3/8 in stock). sides: 1 or 2. It is what the grading
    rules set, no promise: many yards sell 15/16 or 3/4. Raises MeasureError for a thickness the standard does not list.
    Source: LUMBER-RULES, surfaced thickness table (secondary copies; 10/4 from memory).

    >>> surfaced_thickness_mm(4)
    20.6375
    """
    if sides not in (1, 2):
        raise MeasureError(f"A board is surfaced on 1 or 2 sides, not {sides}.")
    table = _SURFACED_TWO_SIDES_IN if sides == 2 else _SURFACED_ONE_SIDE_IN
    inches = table.get(Fraction(quarters).limit_denominator(8))
    if inches is None:
        known = ", ".join(f"{float(q):g}" for q in table)
        raise MeasureError(f"No standard surfaced thickness for {quarters:g} quarters. Listed: {known}.")
    return float(Fraction(inches)) * MM_PER_INCH
