"""How four woods look: colours, rings, pores, rays. Judged by eye; no source."""

from dataclasses import dataclass

import numpy as np

from shopapi.demo.sawn.noise import Field

Colour = tuple[int, int, int]


@dataclass(frozen=True)
class Look:
    """One species.

    tones: heartwood from palest to darkest, sRGB; sap: the same for sapwood; knot: the wood of knots.
    ring_mm: mean ring width; ring_contrast: how strongly earlywood and latewood differ; early: share of the ring
    that is
    earlywood; late_line: darkness of the thin line that ends a ring.
    pores: darkness of pores; pores_late: share of it that is left in latewood (1 = diffuse-porous); pore_mm:
    their length.
    ray_mm, ray_thick_mm: height along the grain and thickness of rays; rays: how much they show.
    stripe: strength of pigment stripes several rings wide; curl: how likely curly figure is.
    sap_mm: usual width of the sapwood.
    """

    tones: tuple[Colour, ...]
    sap: tuple[Colour, ...]
    knot: tuple[Colour, ...]
    ring_mm: float
    ring_contrast: float
    early: float
    late_line: float
    pores: float
    pores_late: float
    pore_mm: float
    ray_mm: float
    ray_thick_mm: float
    rays: float
    stripe: float
    curl: float
    sap_mm: float
    streaks: float = 0.0


LOOKS: dict[str, Look] = {
    "white oak": Look(
        tones=((221, 193, 151), (202, 170, 126), (178, 143, 100), (139, 105, 69), (90, 66, 43)),
        sap=((232, 214, 180), (219, 197, 160), (200, 174, 135), (165, 137, 101), (120, 96, 70)),
        knot=((176, 133, 88), (143, 101, 63), (104, 70, 42), (62, 41, 26), (30, 21, 15)),
        ring_mm=2.7,
        ring_contrast=0.36,
        early=0.34,
        late_line=0.0,
        pores=0.62,
        pores_late=0.10,
        pore_mm=4.5,
        ray_mm=22.0,
        ray_thick_mm=0.34,
        rays=0.8,
        stripe=0.12,
        curl=0.0,
        sap_mm=22.0,
    ),
    "sugar maple": Look(
        tones=((238, 220, 190), (227, 203, 168), (211, 181, 143), (182, 147, 108), (130, 98, 68)),
        sap=((243, 228, 203), (235, 216, 186), (221, 197, 163), (196, 166, 130), (150, 120, 90)),
        knot=((180, 140, 98), (146, 106, 70), (110, 76, 48), (70, 47, 31), (36, 25, 18)),
        ring_mm=2.3,
        ring_contrast=0.13,
        early=0.80,
        late_line=0.30,
        pores=0.13,
        pores_late=0.9,
        pore_mm=3.0,
        ray_mm=1.6,
        ray_thick_mm=0.12,
        rays=0.22,
        stripe=0.12,
        curl=0.35,
        sap_mm=80.0,
        streaks=0.5,
    ),
    "black cherry": Look(
        tones=((208, 162, 126), (191, 139, 101), (170, 116, 81), (138, 88, 60), (92, 56, 40)),
        sap=((236, 211, 176), (226, 196, 158), (211, 176, 138), (180, 141, 104), (130, 96, 68)),
        knot=((160, 100, 64), (126, 73, 45), (92, 52, 32), (55, 31, 21), (27, 17, 12)),
        ring_mm=2.9,
        ring_contrast=0.17,
        early=0.75,
        late_line=0.26,
        pores=0.16,
        pores_late=0.8,
        pore_mm=3.0,
        ray_mm=2.2,
        ray_thick_mm=0.14,
        rays=0.26,
        stripe=0.11,
        curl=0.08,
        sap_mm=16.0,
        streaks=0.7,
    ),
    "black walnut": Look(
        tones=((146, 117, 91), (121, 93, 70), (97, 72, 54), (71, 51, 39), (40, 28, 22)),
        sap=((222, 203, 173), (208, 184, 150), (189, 161, 126), (156, 128, 98), (105, 84, 63)),
        knot=((92, 64, 45), (70, 48, 34), (50, 34, 25), (32, 22, 17), (18, 13, 10)),
        ring_mm=3.4,
        ring_contrast=0.22,
        early=0.55,
        late_line=0.12,
        pores=0.46,
        pores_late=0.45,
        pore_mm=6.0,
        ray_mm=0.8,
        ray_thick_mm=0.1,
        rays=0.1,
        stripe=0.24,
        curl=0.10,
        sap_mm=24.0,
    ),
}

BARK: tuple[Colour, ...] = ((124, 98, 74), (92, 71, 53), (66, 51, 39), (44, 35, 28), (26, 21, 18))


ALIASES = {"hard maple": "sugar maple", "cherry": "black cherry", "walnut": "black walnut"}


def look_of(species: str) -> Look:
    """The look of a species; ValueError names the ones there are."""
    species = ALIASES.get(species, species)
    if species not in LOOKS:
        raise ValueError(f"No look for {species!r}; there are {', '.join(LOOKS)}.")
    return LOOKS[species]


def painted(tones: tuple[Colour, ...], darkness: Field) -> Field:
    """Colours (…, 3) in 0..255 for a darkness of 0 (palest) to 1 (darkest)."""
    steps = np.linspace(0, 1, len(tones))
    table = np.stack(
        [np.interp(np.linspace(0, 1, 512), steps, channel) for channel in zip(*tones, strict=True)], axis=1
    )
    index = np.clip(darkness * 511, 0, 511).astype(np.int32)
    return table.astype(np.float32)[index]
