"""A home's year: indoor humidity month by month, and what a board's width does in it."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from shopapi.craft.limits import OutOfRangeError, require
from shopapi.craft.moisture import equilibrium_moisture
from shopapi.craft.movement.change import METHOD_WORDS, cautions_for, changed, method_for, moisture_of
from shopapi.craft.species import Species
from shopapi.craft.species import species as species_named

_MONTHS = 12


@dataclass(frozen=True)
class HomeMonth:
    """Mean indoor air of one month (1 = January) and the moisture wood would settle at in it [% MC]."""

    month: int
    rh_pct: float
    temp_c: float
    equilibrium_pct: float


@dataclass(frozen=True)
class MonthWidth:
    """One month of a piece's year: the air, the wood's moisture, its width and the change since it was built [mm]."""

    month: int
    rh_pct: float
    mc_pct: float
    width_mm: float
    change_mm: float


@dataclass(frozen=True)
class YearOfWidth:
    """A piece's year, January first, with the formula used and what must be said beside it."""

    months: tuple[MonthWidth, ...]
    method: str
    cautions: tuple[str, ...]

    @property
    def narrowest(self) -> MonthWidth:
        return min(self.months, key=lambda month: month.width_mm)

    @property
    def widest(self) -> MonthWidth:
        return max(self.months, key=lambda month: month.width_mm)

    @property
    def swing_mm(self) -> float:
        return self.widest.width_mm - self.narrowest.width_mm


def home_year(
    rh_dry_pct: float, rh_damp_pct: float, temp_c: float = 21.0, dampest_month: int = 8
) -> tuple[HomeMonth, ...]:
    """Indoor air month by month from a home's driest and dampest relative humidity, January first.

    rh_dry_pct, rh_damp_pct: relative humidity [%] in the driest and the dampest month, 0 to 100, dry not above damp.
    temp_c: indoor temperature [°C], 0 to 40. dampest_month: 1 to 12; 8 fits heated homes of the northern half of the
    earth, where the driest month is then February; 2 the southern. An outline of a year, not a forecast.
    Raises OutOfRangeError.
    Source: OWN, a cosine between the two extremes six months apart; EMC by WOOD-HANDBOOK Eq. 4-5.

    >>> [round(month.equilibrium_pct, 1) for month in home_year(25, 55)][1::6]
    [5.4, 10.1]
    """
    require("Driest indoor humidity", rh_dry_pct, 0, 100, "%")
    require("Dampest indoor humidity", rh_damp_pct, 0, 100, "%")
    require("Indoor temperature", temp_c, 0, 40, "°C")
    require("Dampest month", dampest_month, 1, 12)
    if rh_dry_pct > rh_damp_pct:
        raise OutOfRangeError(
            f"The driest humidity ({rh_dry_pct:g} %) is above the dampest ({rh_damp_pct:g} %). Swap them."
        )
    middle, half = (rh_dry_pct + rh_damp_pct) / 2, (rh_damp_pct - rh_dry_pct) / 2
    months = []
    for month in range(1, _MONTHS + 1):
        swing = math.cos(2 * math.pi * (month - dampest_month) / _MONTHS)
        # Kept inside the extremes: the cosine's rounding must not carry 100 % over the top.
        rh = min(max(middle + half * swing, rh_dry_pct), rh_damp_pct)
        months.append(HomeMonth(month, rh, temp_c, float(equilibrium_moisture(temp_c, rh))))
    return tuple(months)


def width_through_year(
    width_mm: float,
    species: Species | str,
    mc_built_pct: float,
    year: Sequence[HomeMonth],
    ring_angle_deg: float = 0.0,
    monthly_mc_pct: Sequence[float] | None = None,
) -> YearOfWidth:
    """Width of a board or panel month by month in a home [mm], from the day it was built.

    width_mm: width on the day of building [mm]. species: a Species or its name. mc_built_pct: moisture that day [% MC].
    year: as home_year gives it. ring_angle_deg: 0 flatsawn to 90 quartersawn. monthly_mc_pct: the wood's own moisture
    by month where it is known to lag (see moisture.seasonal_moisture); without it the wood is taken to follow the air
    fully, which is the widest swing it can have. One method serves the whole year, so that the curve has no steps.
    Raises OutOfRangeError, UnknownSpeciesError.
    Source: WOOD-HANDBOOK, chapter 13, Eq. 13-2 or 13-3.

    >>> top = width_through_year(1000, "white oak", 8, home_year(32, 55))
    >>> round(top.swing_mm, 1), top.narrowest.month, top.method
    (13.1, 2, 'coefficient method, Wood Handbook Eq. 13-2')
    """
    one = species_named(species) if isinstance(species, str) else species
    monthly = [month.equilibrium_pct for month in year] if monthly_mc_pct is None else list(monthly_mc_pct)
    if not year or len(monthly) != len(year):
        raise OutOfRangeError(f"{len(monthly)} moistures for {len(year)} months: there must be one for each.")
    start, moistures = moisture_of(one, mc_built_pct), moisture_of(one, monthly)
    method = method_for(start, moistures)
    changes = changed(width_mm, one, start, moistures, ring_angle_deg, method).tolist()
    months = tuple(
        MonthWidth(month.month, month.rh_pct, float(mc), width_mm + change, change)
        for month, mc, change in zip(year, monthly, changes, strict=True)
    )
    cautions = cautions_for(one, method)
    if monthly_mc_pct is None:
        cautions += ("The wood is taken to follow the air fully; finish and thickness make the real swing smaller.",)
    return YearOfWidth(months, METHOD_WORDS[method], cautions)
