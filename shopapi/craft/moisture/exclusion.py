"""How much a finish slows water vapour, from the published moisture-excluding effectiveness."""

import csv
import functools
import math
from dataclasses import dataclass
from pathlib import Path

from shopapi.craft.limits import Answer, OutOfRangeError, require

_CSV = Path(__file__).with_name("exclusion.csv")
_DAYS = (1.0, 7.0, 14.0)

# Our classes of finish -> a row of the table; None where nothing comparable was measured.
_ROW_OF_CLASS: dict[str, str | None] = {
    "oil_polyurethane": "Urethane varnish (oil-modified)",
    "oil_urethane": "Linseed oil",
    "drying_oil": "Linseed oil",
    "shellac": "Shellac",
    "lacquer": "Nitrocellulose lacquer",
    "waterborne_polyurethane": None,
    "hardwax_oil": None,
}
# The test (from memory): ponderosa pine sapwood 16 mm thick from 30 to 90 % RH at 27 °C. Its own speed, worked out as
# for any board: D 11 mm2/day through half the thickness of 8 mm, and the bare surface.
_TEST_HALF_MM, _TEST_D_MM2_DAY, _TEST_BARE_MM_DAY = 8.0, 11.0, 17.28


@dataclass(frozen=True)
class Exclusion:
    """One row of the table: vapour kept out [%] after 1, 7 and 14 days, by finish and coats, and how it was read."""

    finish: str
    coats: int
    day_1: float
    day_7: float
    day_14: float
    how: str


@functools.cache
def exclusion_table() -> tuple[Exclusion, ...]:
    """The published moisture-excluding effectiveness of finishes on pine [%], every row saying how it was got.

    Source: WOOD-HANDBOOK, table 16-3, after FEIST-1985.

    >>> len(exclusion_table()) > 70
    True
    """
    with _CSV.open(encoding="utf-8", newline="") as lines:
        return tuple(
            Exclusion(
                row["finish"],
                int(row["coats"]),
                float(row["day1"]),
                float(row["day7"]),
                float(row["day14"]),
                row["how"],
            )
            for row in csv.DictReader(lines)
        )


def vapour_resistance_day_mm(finish: str | None, coats: int) -> Answer:
    """Resistance of a finish to vapour [day/mm], to be added to that of the bare surface; 0 for bare wood.

    finish: class of finish (craft.finish), a finish of the table, or None for bare wood. coats: 0 to 12; more than the
    table has count as its most. Wiped-on finishes count as an oil, and classes nobody measured as bare, with a caution.
    No finish changes where the moisture ends, only how fast. Raises OutOfRangeError.
    Source: WOOD-HANDBOOK, table 16-3; the resistance is fitted to its days 1, 7 and 14 (OWN, one resistance in series).

    >>> vapour_resistance_day_mm(None, 0), round(vapour_resistance_day_mm("oil_polyurethane", 3), 1)
    (0.0, 1.9)
    """
    require("Coats", coats, 0, 12)
    if finish is None or coats == 0:
        return Answer(0.0, "day/mm", "bare wood")
    name = _ROW_OF_CLASS.get(finish, finish)
    if name is None:
        return Answer(
            0.0, "day/mm", "not measured", ("Nobody has published how this finish slows vapour: taken as bare.",)
        )
    rows = [row for row in exclusion_table() if row.finish == name]
    if not rows:
        known = ", ".join(dict.fromkeys((*_ROW_OF_CLASS, *(row.finish for row in exclusion_table()))))
        raise OutOfRangeError(f'"{finish}" is not a finish of the table. Known: {known}.')
    row = min(rows, key=lambda row: (abs(row.coats - coats), row.coats))  # of two as near, the thinner
    cautions = [f"Finish measured on pine by brushed coats ({row.how}); wiped coats are thinner and slow it less."]
    if row.coats != coats:
        cautions.append(f"Nothing is published for {coats} coats: taken as {row.coats}.")
    return Answer(_fitted(row), "day/mm", "fitted to moisture-excluding effectiveness", cautions)


def excluded_pct(resistance_day_mm: float, day: float) -> float:
    """Moisture-excluding effectiveness [%] that a resistance would show in the published test on one day.

    resistance_day_mm: 0 or more [day/mm]. day: more than 0 [days]. Raises OutOfRangeError.
    Source: CRANK-1975, plane sheet with surface resistance, mean uptake; test as in FEIST-1985 (size from memory).

    >>> round(excluded_pct(0.0, 7), 1)
    0.0
    """
    require("Resistance", resistance_day_mm, 0, 1e6, "day/mm")
    require("Day", day, 1e-6, 1e6, "days")
    finished = 1 - _left(1 / (1 / _TEST_BARE_MM_DAY + resistance_day_mm), day)
    return 100 * (1 - finished / (1 - _left(_TEST_BARE_MM_DAY, day)))


@functools.cache
def _fitted(row: Exclusion) -> float:
    """Least squares over the three days, by golden section on the logarithm of the resistance."""
    published = (row.day_1, row.day_7, row.day_14)

    def miss(log_resistance: float) -> float:
        resistance = math.exp(log_resistance)
        return sum((excluded_pct(resistance, day) - value) ** 2 for day, value in zip(_DAYS, published, strict=True))

    low, high = math.log(1e-4), math.log(1e3)
    ratio = (math.sqrt(5) - 1) / 2
    for _ in range(60):
        a, b = high - ratio * (high - low), low + ratio * (high - low)
        low, high = (low, b) if miss(a) < miss(b) else (a, high)
    return math.exp((low + high) / 2)


@functools.lru_cache(maxsize=4096)
def _left(surface_mm_day: float, day: float) -> float:
    """Share of the mean difference left in the test piece: the series for a plane sheet with surface resistance."""
    biot = surface_mm_day * _TEST_HALF_MM / _TEST_D_MM2_DAY
    scaled = _TEST_D_MM2_DAY * day / _TEST_HALF_MM**2
    return math.fsum(
        2 * biot**2 * math.exp(-root * root * scaled) / (root * root * (root * root + biot * biot + biot))
        for root in _roots(biot)
    )


@functools.lru_cache(maxsize=4096)
def _roots(biot: float, count: int = 40) -> tuple[float, ...]:
    """Roots of b tan b = biot, one in each half turn, by bisection."""
    roots = []
    for number in range(count):
        low, high = number * math.pi, number * math.pi + math.pi / 2
        for _ in range(60):
            middle = (low + high) / 2
            # Both sides share the sign of cos in this half turn, so its size is what counts.
            if middle * abs(math.sin(middle)) < biot * abs(math.cos(middle)):
                low = middle
            else:
                high = middle
        roots.append((low + high) / 2)
    return tuple(roots)
