"""What the book knows of a wood, and what a block of it weighs."""

from shopapi.craft.species import Species, density_kg_m3, specific_gravity_at
from shopapi.craft.stiffness import MassPart, piece_mass
from shopapi.workings import fields
from shopapi.workings.declare import Cited, FigureKind, Found, Line, WorkingKind, words
from shopapi.workings.given import Given

FAMILY = "Wood"
_NOT_PUBLISHED = "not published"


def _or_not(label: str, value: float | None, kind: FigureKind, digits: int = 0, *, main: bool = False) -> Line:
    if value is None:
        return words(label, _NOT_PUBLISHED, main=main)
    return Line(label, kind, value, digits=digits, main=main)


def _how(what: str, how: str) -> list[str]:
    """Said only where the values were not read in the source itself."""
    return [] if how in ("read", "") else [f"{what}: {how}."]


def _facts(given: Given) -> Found:
    wood = given.wood()
    density = None if wood.specific_gravity is None else float(density_kg_m3(wood, given.number("mc_pct")))
    gravity = None if wood.specific_gravity is None else specific_gravity_at(wood, 12)
    return Found(
        lines=(
            _or_not("Shrinks across flatsawn (tangential), green to ovendry", wood.tangential_pct, "percent", 1,
                    main=True),
            _or_not("Shrinks across quartersawn (radial)", wood.radial_pct, "percent", 1, main=True),
            _or_not("Shrinks in volume", wood.volumetric_pct, "percent", 1),
            _coefficient("Coefficient flatsawn (CT), for each point of moisture", wood.ct),
            _coefficient("Coefficient quartersawn (CR)", wood.cr),
            Line("Stops moving above (fibre saturation)", "percent", wood.fibre_saturation_pct),
            _or_not("Weight at that moisture", density, "density"),
            _or_not("Specific gravity at 12 %", gravity, "number", 2),
            _or_not("Stiffness at 12 %", wood.moe_gpa, "stiffness", 2),
            _or_not("Bending strength at 12 %", wood.mor_mpa, "pressure"),
            _or_not("Side hardness", wood.hardness_n, "force"),
            words("Botanical name", wood.botanical),
            words("Also called", ", ".join(wood.aliases) or "nothing else in the book"),
        ),
        cautions=("Means of the species: single boards differ, by 15 to 20 % in shrinkage.", *_how_it_was_got(wood)),
    )  # fmt: skip


def _coefficient(label: str, value: float | None) -> Line:
    return _or_not(label, value, "number", 5)


def _how_it_was_got(wood: Species) -> list[str]:
    return [
        *_how("Shrinkage", wood.shrinkage_how),
        *_how("Coefficients", wood.coefficient_how),
        *_how("Gravity and strength", wood.strength_how),
    ]


def _mass(given: Given) -> Found:
    part = MassPart(
        given.word("species"),
        given.number("length_mm"),
        given.number("width_mm"),
        given.number("thickness_mm"),
        given.count("count"),
        given.number("share_pct") / 100,
    )
    with given.about("species"):
        total = piece_mass([part], given.number("mc_pct"), given.number("hardware_kg"))
        density = density_kg_m3(given.wood(), given.number("mc_pct"))
    return Found(
        lines=(
            Line("Weighs", "mass", float(total), digits=1, main=True),
            Line("The wood alone", "mass", float(total) - given.number("hardware_kg"), digits=1),
            Line("Density of the wood", "density", float(density)),
        ),
        cautions=(*density.cautions, *total.cautions),
        method=total.method,
    )


KINDS = (
    WorkingKind(
        key="wood_facts",
        family=FAMILY,
        title="What the book knows of a wood",
        purpose="Shrinkage, weight, stiffness and hardness of a species",
        formula="Looked up by name. Weight: specific gravity at that moisture × (100 + moisture) / 100.",
        cited=(Cited("WOOD-HANDBOOK", "tables 4-3, 4-4, 5-3, 5-5 and 13-5; density, chapter 4"),),
        limits="Means of whole species. Strength is of clear, straight-grained wood, at 12 % moisture.",
        fields=(fields.wood(), fields.moisture("mc_pct", "Moisture", 8)),
        run=_facts,
    ),
    WorkingKind(
        key="mass",
        family=FAMILY,
        title="What a part or piece weighs",
        purpose="Weight of so many parts of one size, with hardware",
        formula="Length × width × thickness × how many × share that is wood × density at that moisture, plus hardware.",
        cited=(
            Cited("WOOD-HANDBOOK", "chapter 4, density by specific gravity and moisture"),
            Cited("COMMON-PRACTICE", "lifting limit"),
        ),
        limits="About 10 % either way; moisture from 0 to 30 %.",
        fields=(
            fields.wood(),
            fields.length("length_mm", "Length"),
            fields.length("width_mm", "Width"),
            fields.length("thickness_mm", "Thickness"),
            fields.count("count", "How many", 1000, 1),
            fields.percent("share_pct", "Share that is wood", 1, 100, 100, "Less for joints cut away or turned shapes"),
            fields.moisture("mc_pct", "Moisture", 8),
            fields.mass("hardware_kg", "Hardware, glass, stone", 1000, 0),
        ),
        run=_mass,
    ),
)
