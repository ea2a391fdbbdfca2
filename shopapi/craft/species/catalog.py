"""Loads species.csv once and finds a wood by any of its names."""

import csv
import difflib
import functools
import re
from dataclasses import dataclass
from pathlib import Path
from typing import Literal

from shopapi.craft.limits import Answer, OutOfRangeError, require

Group = Literal["hardwood", "softwood", "imported"]

_CSV = Path(__file__).with_name("species.csv")


@dataclass(frozen=True)
class Species:
    """One wood. Shrinkage is green to ovendry, percent of the green size; CR and CT are per point of moisture.

    The `*_how` fields say how well each group of values could be checked: read, memory, computed, or a note.
    `None` means that no value is published in the tables at hand.
    """

    name: str
    aliases: tuple[str, ...]
    handbook_name: str
    botanical: str
    group: Group
    radial_pct: float | None
    tangential_pct: float | None
    volumetric_pct: float | None
    shrinkage_source: str
    shrinkage_how: str
    cr: float | None
    ct: float | None
    coefficient_source: str
    coefficient_how: str
    fibre_saturation_pct: float
    specific_gravity: float | None
    gravity_basis: Literal["12", "green", ""]
    moe_gpa: float | None
    mor_mpa: float | None
    hardness_n: float | None
    strength_source: str
    strength_how: str


class UnknownSpeciesError(ValueError):
    """No wood of that name; `near` lists the names that come closest."""

    def __init__(self, name: str, near: tuple[str, ...]) -> None:
        self.name, self.near = name, near
        hint = f" Did you mean {', '.join(near)}?" if near else " Pick one from the list of species."
        super().__init__(f'"{name}" is not a species in the book.{hint}')


def species(name: str) -> Species:
    """The wood of that name: its own name, a trade name ("hard maple") or the handbook's ("Maple, sugar").

    Case, commas and hyphens do not matter. "Red oak" and "white oak" are what the yard sells under those names
    (the commercial groups); single species have their own rows. Raises UnknownSpeciesError with the near matches.
    Source: WOOD-HANDBOOK, tables 4-3, 4-4, 5-3, 5-5 and 13-5; each row says how it was read.

    >>> species("Hard Maple").name, species("hard maple").ct
    ('sugar maple', 0.00353)
    """
    found = _by_any_name().get(_plain(name))
    if not found:
        raise UnknownSpeciesError(name, _near(name))
    return found


@functools.cache
def all_species() -> tuple[Species, ...]:
    """Every wood in the book, hardwoods, softwoods, then imported woods, each by handbook name.

    Source: WOOD-HANDBOOK, tables 4-3, 4-4, 5-3, 5-5 and 13-5.

    >>> len(all_species()) > 140
    True
    """
    with _CSV.open(encoding="utf-8", newline="") as lines:
        return tuple(_from_row(row) for row in csv.DictReader(lines))


def specific_gravity_at(wood: Species | str, mc_pct: float) -> float:
    """Specific gravity of a wood: ovendry mass over the volume it has at a moisture content.

    wood: species or its name. mc_pct: moisture at which the volume is taken [% MC], 0 to 30.
    Raises OutOfRangeError outside the range or where none is published; UnknownSpeciesError.
    Source: WOOD-HANDBOOK, chapter 4, Gm = Gb / (1 - 0.265 (30 - M)/30 Gb) (equation from memory).

    >>> round(specific_gravity_at("white oak", 12), 2)
    0.68
    """
    one = species(wood) if isinstance(wood, str) else wood
    require("Moisture", mc_pct, 0, 30, "%")
    if one.specific_gravity is None:
        raise OutOfRangeError(f"No specific gravity is published for {one.name}. Weigh a part instead.")
    basic = one.specific_gravity
    if one.gravity_basis == "12":
        basic = basic / (1 + 0.265 * (30 - 12) / 30 * basic)  # undoes the equation at 12 % MC
    return basic / (1 - 0.265 * (30 - mc_pct) / 30 * basic)


def density_kg_m3(wood: Species | str, mc_pct: float) -> Answer:
    """Density [kg/m3] of a wood at a moisture content, mass and volume both at that moisture.

    wood: species or its name. mc_pct: moisture [% of dry mass], 0 to 30. Boards differ by about 10 %.
    Raises OutOfRangeError outside the range or where no specific gravity is published; UnknownSpeciesError.
    Source: WOOD-HANDBOOK, chapter 4, density by specific gravity and moisture (equation from memory).

    >>> round(density_kg_m3("white oak", 8))
    752
    """
    one = species(wood) if isinstance(wood, str) else wood
    density = 1000 * specific_gravity_at(one, mc_pct) * (1 + mc_pct / 100)
    return Answer(density, "kg/m3", "specific gravity at moisture", (_gravity_note(one),))


def _gravity_note(one: Species) -> str:
    return f"Mean of the species ({one.strength_how}); single boards differ by about 10 %."


@functools.cache
def _by_any_name() -> dict[str, Species]:
    names: dict[str, Species] = {}
    for one in all_species():
        for name in (one.handbook_name, *one.aliases):
            names.setdefault(_plain(name), one)
    # A wood's own name outranks another's alias.
    return names | {_plain(one.name): one for one in all_species()}


def _plain(name: str) -> str:
    return " ".join(re.sub(r"[-,_/]", " ", str(name).lower()).split())


def _near(name: str) -> tuple[str, ...]:
    """Names that hold every word asked for (spelled nearly so), the woods with trade names first; then names alike."""
    wanted = _plain(name)
    known = sorted({word for plain in _by_any_name() for word in plain.split()})
    words = {(difflib.get_close_matches(word, known, n=1, cutoff=0.7) or [word])[0] for word in wanted.split()}
    holding = [one for plain, one in _by_any_name().items() if words and words <= set(plain.split())]
    holding.sort(key=lambda one: not one.aliases)
    alike = [_by_any_name()[plain] for plain in difflib.get_close_matches(wanted, _by_any_name(), n=6, cutoff=0.6)]
    return tuple(dict.fromkeys(one.name for one in holding + alike))[:12]


def _from_row(row: dict[str, str]) -> Species:
    numbers = ("radial_pct", "tangential_pct", "volumetric_pct", "cr", "ct", "specific_gravity", "moe_gpa", "mor_mpa")
    fields: dict[str, object] = dict(row)
    fields.update({key: float(row[key]) if row[key] else None for key in (*numbers, "hardness_n")})
    fields["fibre_saturation_pct"] = float(row["fibre_saturation_pct"])
    fields["aliases"] = tuple(filter(None, row["aliases"].split(";")))
    return Species(**fields)  # type: ignore[arg-type]
