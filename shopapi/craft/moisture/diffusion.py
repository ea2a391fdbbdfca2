"""How fast wood follows the air: diffusion through the thickness, slowed by the finish on its faces.

One dimension, across the grain, from the faces to the middle. Inside, D is that of the mean moisture; at a face the air
and the finish resist together: flux = (surface moisture - equilibrium) / (1/S + R).
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from shopapi.craft.limits import Answer, Numbers, OutOfRangeError, require
from shopapi.craft.moisture.exclusion import vapour_resistance_day_mm
from shopapi.craft.species import Species, species, specific_gravity_at

# From memory (Siau 1984): bound water in the cell wall, across the grain [m2/s], activation energy in cal/mol.
_WALL_M2_S, _ENERGY_CAL, _ENERGY_PER_POINT_CAL, _GAS_CAL = 7.0e-6, 9200.0, 70.0, 1.98720
_MM2_DAY_PER_M2_S = 1e6 * 86400
# From memory: surface coefficient of bare wood in quiet room air, of the order of 1e-7 m/s.
BARE_SURFACE_MM_DAY = 2e-7 * 1000 * 86400
_CELLS = 40

_FROM_MEMORY = "Equation of diffusion through cell walls (Siau, 1984) from memory."
_ESTIMATE = "An estimate: boards of one kind differ twofold in speed, and end grain is many times faster."


@dataclass(frozen=True)
class Acclimation:
    """A board on its way to the air's equilibrium: mean moisture by day [% MC], and how long it takes [days].

    `time_constant_days` is that of the slowest part of the change; `settled_days` is when the mean is within a point.
    """

    days: tuple[float, ...]
    mean_mc_pct: tuple[float, ...]
    time_constant_days: float
    settled_days: float
    cautions: tuple[str, ...]


def diffusivity_mm2_day(wood: Species | str, mc_pct: float, temp_c: float = 20.0) -> Answer:
    """Diffusion coefficient of moisture across the grain [mm2/day].

    wood: species or its name. mc_pct: mean moisture [% MC], 2 to 28. temp_c: [°C], 0 to 50. Right within a factor of 2.
    Raises OutOfRangeError, also where no specific gravity is published; UnknownSpeciesError.
    Source: SIAU-1984, transverse bound-water diffusion with the cell-wall geometry (from memory).

    >>> round(diffusivity_mm2_day("white oak", 9), 2)
    1.52
    """
    require("Moisture", mc_pct, 2, 28, "%")
    require("Temperature", temp_c, 0, 50, "°C")
    one = species(wood) if isinstance(wood, str) else wood
    energy = _ENERGY_CAL - _ENERGY_PER_POINT_CAL * mc_pct
    wall = _WALL_M2_S * math.exp(-energy / (_GAS_CAL * (temp_c + 273.15)))
    # Share of the section that is lumen, and the side of the lumen in a square cell of side 1.
    lumen = 1 - specific_gravity_at(one, mc_pct) * (0.667 + 0.01 * mc_pct)
    side = math.sqrt(lumen)
    value = wall / ((1 - lumen) * (1 - side)) * _MM2_DAY_PER_M2_S
    return Answer(value, "mm2/day", "transverse bound-water diffusion", (_ESTIMATE, _FROM_MEMORY))


def acclimation(
    thickness_mm: float,
    wood: Species | str,
    mc_start_pct: float,
    mc_air_pct: float,
    days: Sequence[float],
    finish: str | None = None,
    coats: int = 0,
    faces: int = 2,
    temp_c: float = 20.0,
) -> Acclimation:
    """Mean moisture of a board brought into other air, day by day.

    thickness_mm: 1 to 200 [mm]. wood: species or its name. mc_start_pct: even through the board at the start;
    mc_air_pct: what the air holds wood at [% MC], 2 to 28 both. days: when to tell [days], 0 or more. finish, coats:
    class of finish and coats on the faces (None is bare). faces: 2 where air reaches both, 1 where one face is shut
    off. temp_c: [°C], 0 to 50. Raises OutOfRangeError, UnknownSpeciesError.
    Source: CRANK-1975, plane sheet with surface resistance (solved in 40 layers, exactly in time); D from SIAU-1984.

    >>> oak = acclimation(25, "white oak", 12, 8, [0, 14, 60])
    >>> [round(mc, 1) for mc in oak.mean_mc_pct], round(oak.settled_days)
    ([12.0, 10.3, 8.7], 45)
    """
    slab = _slab(thickness_mm, wood, mc_start_pct, mc_air_pct, finish, coats, faces, temp_c)
    times = np.asarray(days, dtype=np.float64)
    if times.size and not (np.isfinite(times).all() and times.min() >= 0):
        raise OutOfRangeError("Days must be 0 or more.")
    means = mc_air_pct + (mc_start_pct - mc_air_pct) * slab.mean_left(times)
    settled = slab.days_until(1 / max(1.0, abs(mc_start_pct - mc_air_pct)))
    return Acclimation(
        tuple(times.tolist()), tuple(means.tolist()), slab.time_constant_days, settled, (_ESTIMATE, *slab.cautions)
    )


def moisture_profile(
    thickness_mm: float,
    wood: Species | str,
    mc_start_pct: float,
    mc_air_pct: float,
    day: float,
    finish: str | None = None,
    coats: int = 0,
    faces: int = 2,
    temp_c: float = 20.0,
) -> tuple[Numbers, Numbers]:
    """Moisture through the thickness on one day: depths from an open face [mm] and moisture there [% MC].

    day: [days], 0 or more. thickness_mm, wood, mc_start_pct, mc_air_pct, finish, coats, faces, temp_c: as for
    acclimation. Depths go to the middle (two faces) or to the shut face (one). Raises OutOfRangeError,
    UnknownSpeciesError.
    Source: CRANK-1975, plane sheet with surface resistance; D from SIAU-1984.

    >>> depths, mc = moisture_profile(25, "white oak", 12, 8, 14)
    >>> bool(mc[0] < mc[-1])
    True
    """
    slab = _slab(thickness_mm, wood, mc_start_pct, mc_air_pct, finish, coats, faces, temp_c)
    require("Day", day, 0, 1e6, "days")
    return slab.depths(), mc_air_pct + (mc_start_pct - mc_air_pct) * slab.left(day)


@dataclass(frozen=True)
class _Slab:
    """Half a board (or all of it, one face shut) in layers; its modes of change."""

    half_mm: float
    diffusivity: float
    rates: Numbers
    modes: Numbers
    cautions: tuple[str, ...]

    @property
    def time_constant_days(self) -> float:
        return float(1 / self.rates[0])

    def depths(self) -> Numbers:
        layer = self.half_mm / _CELLS
        return np.asarray(layer * (np.arange(_CELLS) + 0.5), dtype=np.float64)

    def left(self, day: float) -> Numbers:
        """Share of the difference still left in each layer."""
        weights: Numbers = self.modes.T @ np.ones(_CELLS)
        return np.asarray(self.modes @ (np.exp(-self.rates * day) * weights), dtype=np.float64)

    def mean_left(self, days: Numbers) -> Numbers:
        weights = (self.modes.T @ np.ones(_CELLS)) ** 2 / _CELLS
        return np.asarray(np.exp(-np.multiply.outer(days, self.rates)) @ weights, dtype=np.float64)

    def days_until(self, share: float) -> float:
        """First day on which no more than this share of the mean difference is left."""
        low, high = 0.0, self.time_constant_days * 60
        for _ in range(60):
            middle = (low + high) / 2
            if float(self.mean_left(np.array(middle))) > share:
                low = middle
            else:
                high = middle
        return high if share < 1 else 0.0


def _slab(
    thickness_mm: float,
    wood: Species | str,
    mc_start_pct: float,
    mc_air_pct: float,
    finish: str | None,
    coats: int,
    faces: int,
    temp_c: float,
) -> _Slab:
    require("Thickness", thickness_mm, 1, 200, "mm")
    require("Moisture at the start", mc_start_pct, 2, 28, "%")
    require("Moisture the air holds", mc_air_pct, 2, 28, "%")
    require("Faces", faces, 1, 2)
    diffusivity = diffusivity_mm2_day(wood, (mc_start_pct + mc_air_pct) / 2, temp_c)
    resistance = vapour_resistance_day_mm(finish, coats)
    surface = 1 / (1 / BARE_SURFACE_MM_DAY + resistance)
    rates, modes = _modes(thickness_mm / faces, float(diffusivity), surface)
    return _Slab(thickness_mm / faces, float(diffusivity), rates, modes, resistance.cautions)


def _modes(half_mm: float, diffusivity: float, surface: float) -> tuple[Numbers, Numbers]:
    """Decay rates [1/day], slowest first, and modes of a plane sheet open on one side, in equal layers."""
    layer = half_mm / _CELLS
    between = diffusivity / layer**2
    # The outermost layer reaches the air through half a layer of wood and the surface.
    outside = 1 / (layer * (layer / 2 / diffusivity + 1 / surface))
    matrix = np.zeros((_CELLS, _CELLS))
    inner = np.arange(_CELLS - 1)
    matrix[inner, inner + 1] = matrix[inner + 1, inner] = -between
    matrix[np.arange(_CELLS), np.arange(_CELLS)] = 2 * between
    matrix[-1, -1] = between
    matrix[0, 0] = between + outside
    rates, modes = np.linalg.eigh(matrix)
    return np.asarray(rates, dtype=np.float64), np.asarray(modes, dtype=np.float64)
