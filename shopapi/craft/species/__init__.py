"""Wood constants by species: one readable file, species.csv, where every group of columns names its source."""

from shopapi.craft.species.catalog import (
    Species,
    UnknownSpeciesError,
    all_species,
    density_kg_m3,
    species,
    specific_gravity_at,
)

__all__ = ["Species", "UnknownSpeciesError", "all_species", "density_kg_m3", "species", "specific_gravity_at"]
