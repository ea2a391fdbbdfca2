"""Places: monthly outdoor equilibrium moisture, and what interior wood is best built at by region."""

import csv
import functools
from dataclasses import dataclass
from pathlib import Path
from typing import Literal

from shopapi.craft.limits import OutOfRangeError

Region = Literal["most", "dry southwest", "damp coast"]

_CSV = Path(__file__).with_name("places.csv")


@dataclass(frozen=True)
class Place:
    """A city's outdoor equilibrium moisture by month, January first [% MC], under a roof, and how it was got."""

    state: str
    city: str
    monthly_pct: tuple[float, ...]
    how: str


@dataclass(frozen=True)
class InteriorMoisture:
    """Moisture interior wood should have when installed: the average and the range of single pieces [% MC]."""

    region: Region
    average_pct: float
    low_pct: float
    high_pct: float
    how: str


_INTERIOR: dict[str, InteriorMoisture] = {
    one.region: one
    for one in (
        InteriorMoisture("most", 8, 6, 10, "average read in a secondary copy; range from memory"),
        InteriorMoisture("dry southwest", 6, 4, 9, "average read in a secondary copy; range from memory"),
        InteriorMoisture("damp coast", 11, 8, 13, "average read in a secondary copy; range from memory"),
    )
}


@functools.cache
def places() -> tuple[Place, ...]:
    """All places with their outdoor equilibrium moisture by month, by state and city. United States only.

    Source: WOOD-HANDBOOK, chapter 13, table 13-1, after SIMPSON-1998; most rows from memory, to be shown as such.

    >>> len(places())
    49
    """
    with _CSV.open(encoding="utf-8", newline="") as lines:
        return tuple(
            Place(row["state"], row["city"], tuple(float(row[f"m{n:02}"]) for n in range(1, 13)), row["how"])
            for row in csv.DictReader(lines)
        )


def outdoor_moisture(city: str) -> Place:
    """Outdoor equilibrium moisture of a city by month [% MC]. Furniture indoors sees something else entirely.

    city: name as in places(), any case, with or without its state ("Denver, CO"). Raises OutOfRangeError when unknown.
    Source: WOOD-HANDBOOK, chapter 13, table 13-1, after SIMPSON-1998; most rows from memory.

    >>> outdoor_moisture("denver").monthly_pct[0]
    10.7
    """
    wanted = city.casefold().strip()
    for place in places():
        if wanted in (place.city.casefold(), f"{place.city}, {place.state}".casefold()):
            return place
    known = ", ".join(place.city for place in places())
    raise OutOfRangeError(f'No monthly values for "{city}". Known: {known}.')


def interior_moisture(region: Region = "most") -> InteriorMoisture:
    """Recommended moisture of interior wood when built and installed [% MC], by region of the United States.

    region: "most", "dry southwest" or "damp coast". Raises OutOfRangeError for another.
    Source: WOOD-HANDBOOK, chapter 13, table 13-2 (averages secondary, ranges memory).

    >>> interior_moisture("damp coast").average_pct
    11
    """
    if region not in _INTERIOR:
        raise OutOfRangeError(f'No such region "{region}". Known: {", ".join(_INTERIOR)}.')
    return _INTERIOR[region]
