"""Moisture of a board through a home's year: behind the air, and with a smaller swing."""

import cmath
import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from shopapi.craft.limits import OutOfRangeError, require
from shopapi.craft.moisture.diffusion import BARE_SURFACE_MM_DAY, diffusivity_mm2_day
from shopapi.craft.moisture.exclusion import vapour_resistance_day_mm
from shopapi.craft.species import Species

_YEAR_DAYS = 365.25
_MONTHS = 12


@dataclass(frozen=True)
class Season:
    """Mean moisture of a board by month [% MC], January first, once it has lived there for years.

    `lag_days` is how far it runs behind the air, `swing_share` what share of the air's swing it keeps (1 is all).
    """

    monthly_pct: tuple[float, ...]
    lag_days: float
    swing_share: float
    cautions: tuple[str, ...]


def seasonal_moisture(
    monthly_equilibrium_pct: Sequence[float],
    thickness_mm: float,
    wood: Species | str,
    finish: str | None = None,
    coats: int = 0,
    faces: int = 2,
    temp_c: float = 20.0,
) -> Season:
    """Mean moisture of a board month by month in a home whose air changes month by month.

    monthly_equilibrium_pct: what the air holds wood at, January first, twelve values [% MC], 0 to 28. thickness_mm: 1
    to 200 [mm]. wood: species or its name. finish, coats: class of finish and coats (None is bare). faces: 2, or 1
    where one face is shut off. temp_c: [°C], 0 to 50. D is taken at the year's mean. Raises OutOfRangeError,
    UnknownSpeciesError.
    Source: CRANK-1975, plane sheet with surface resistance under a periodic surface, each harmonic of the year by
    itself: gain tanh z / (z (1 + z/Bi tanh z)), z2 = i w L2/D; D from SIAU-1984.

    >>> year = [5.4, 5.6, 6.4, 7.5, 8.7, 9.6, 10.1, 9.9, 9.1, 7.9, 6.7, 5.8]
    >>> oak = seasonal_moisture(year, 22, "white oak", "oil_polyurethane", 3)
    >>> 0.5 < oak.swing_share < 1, oak.lag_days > 5
    (True, True)
    """
    if len(monthly_equilibrium_pct) != _MONTHS:
        raise OutOfRangeError(f"{len(monthly_equilibrium_pct)} months given: a year needs twelve.")
    for value in monthly_equilibrium_pct:
        require("Moisture the air holds", value, 0, 28, "%")
    require("Thickness", thickness_mm, 1, 200, "mm")
    require("Faces", faces, 1, 2)
    mean = math.fsum(monthly_equilibrium_pct) / _MONTHS
    diffusivity = diffusivity_mm2_day(wood, min(max(mean, 2.0), 28.0), temp_c)
    resistance = vapour_resistance_day_mm(finish, coats)
    surface = 1 / (1 / BARE_SURFACE_MM_DAY + resistance)
    harmonics = np.fft.rfft(np.asarray(monthly_equilibrium_pct, dtype=np.float64))
    gains = [_gain(number, thickness_mm / faces, float(diffusivity), surface) for number in range(len(harmonics))]
    months = np.fft.irfft(harmonics * np.array(gains), _MONTHS)
    once_a_year = gains[1]
    return Season(
        tuple(months.tolist()),
        -cmath.phase(once_a_year) / (2 * math.pi) * _YEAR_DAYS,
        abs(once_a_year),
        (*diffusivity.cautions, *resistance.cautions),
    )


def _gain(times_a_year: int, half_mm: float, diffusivity: float, surface: float) -> complex:
    """How much of a harmonic of the air the board's mean follows, and how late."""
    if times_a_year == 0:
        return 1 + 0j
    z = cmath.sqrt(2j * math.pi * times_a_year / _YEAR_DAYS * half_mm**2 / diffusivity)
    biot = surface * half_mm / diffusivity
    return cmath.tanh(z) / (z * (1 + z / biot * cmath.tanh(z)))
