"""The room moving wood needs: slots for fasteners, gaps round panels and drawers, breadboard ends."""

from dataclasses import dataclass

from shopapi.craft.limits import require
from shopapi.craft.movement.change import width_change
from shopapi.craft.species import Species

_FAR_MM = 100_000.0


@dataclass(frozen=True)
class Slot:
    """A slot across the grain for one fastener [mm]: room on either side of the shank, and the whole length.

    `inward_mm` is towards the fixed point (the wood shrinks), `outward_mm` away from it (the wood swells), both
    counted from the shank's centre as it stands on the day of building, free of the shank's own half and the play.
    """

    inward_mm: float
    outward_mm: float
    length_mm: float
    cautions: tuple[str, ...]


@dataclass(frozen=True)
class PanelRoom:
    """Gaps round a panel, drawer front or door that moves [mm], for one side where it may move to.

    `gap_mm` to leave on the day of building, `least_mm` and `greatest_mm` what it becomes when damp and when dry,
    `tongue_mm` the least tongue that still holds the panel in its groove in the dry season.
    """

    gap_mm: float
    least_mm: float
    greatest_mm: float
    tongue_mm: float
    cautions: tuple[str, ...]


@dataclass(frozen=True)
class BreadboardRoom:
    """A breadboard end fixed at its middle [mm]: how far a panel edge passes or misses it; the outer slot."""

    proud_when_damp_mm: float
    short_when_dry_mm: float
    slot: Slot


def slot_for(
    distance_mm: float,
    species: Species | str,
    mc_built_pct: float,
    mc_dry_pct: float,
    mc_damp_pct: float,
    shank_mm: float = 5.0,
    play_mm: float = 1.0,
    ring_angle_deg: float = 0.0,
) -> Slot:
    """Slot for a fastener `distance_mm` across the grain from the point where the top is fixed.

    distance_mm: from the fixed point [mm], 0 or more; both sides are alike. species: a Species or its name.
    mc_built_pct: moisture on the day of building; mc_dry_pct, mc_damp_pct: driest and dampest it will see [% MC];
    a day of building outside these counts too. shank_mm: fastener's shank [mm]. play_mm: spare room in all [mm]
    (1 is common practice).
    ring_angle_deg: 0 flatsawn to 90 quartersawn. Raises OutOfRangeError, UnknownSpeciesError.
    Source: WOOD-HANDBOOK, chapter 13, Eq. 13-2 and 13-3; slots across the grain are common practice.

    >>> slot = slot_for(400, "white oak", 8, 6, 11)
    >>> round(slot.inward_mm, 1), round(slot.outward_mm, 1), round(slot.length_mm, 1)
    (2.9, 4.4, 13.3)
    """
    require("Distance", distance_mm, 0, _FAR_MM, "mm")
    require("Shank", shank_mm, 0, 100, "mm")
    require("Play", play_mm, 0, 100, "mm")
    dry = width_change(distance_mm, species, mc_built_pct, mc_dry_pct, ring_angle_deg)
    damp = width_change(distance_mm, species, mc_built_pct, mc_damp_pct, ring_angle_deg)
    inward, outward = max(0.0, -dry, -damp), max(0.0, dry, damp)
    return Slot(inward, outward, inward + outward + shank_mm + play_mm, _both(dry.cautions, damp.cautions))


def panel_room(
    width_mm: float,
    species: Species | str,
    mc_built_pct: float,
    mc_dry_pct: float,
    mc_damp_pct: float,
    sides: int = 2,
    least_gap_mm: float = 1.0,
    hold_mm: float = 5.0,
    ring_angle_deg: float = 0.0,
) -> PanelRoom:
    """Gap to leave on each moving side of an inset panel, drawer front or door, so that it never binds nor drops out.

    width_mm: width across the grain on the day of building [mm]. sides: 2 when it is held at its middle (a panel pinned
    there), 1 when one edge is held (a drawer front standing on its lower edge). least_gap_mm: what must stay free when
    damp [mm]. hold_mm: tongue that must stay in the groove when dry [mm]. The rest as for slot_for.
    Raises OutOfRangeError, UnknownSpeciesError.
    Source: WOOD-HANDBOOK, chapter 13, Eq. 13-2 and 13-3; least gap and hold are common practice, no source.

    >>> room = panel_room(300, "sugar maple", 8, 6, 11, sides=1)
    >>> round(room.gap_mm, 1), round(room.least_mm, 1), round(room.greatest_mm, 1)
    (4.2, 1.0, 6.3)
    """
    require("Sides", sides, 1, 2)
    require("Least gap", least_gap_mm, 0, 1000, "mm")
    require("Hold", hold_mm, 0, 1000, "mm")
    dry = width_change(width_mm, species, mc_built_pct, mc_dry_pct, ring_angle_deg)
    damp = width_change(width_mm, species, mc_built_pct, mc_damp_pct, ring_angle_deg)
    shrinks, swells = max(0.0, -dry, -damp) / sides, max(0.0, dry, damp) / sides
    gap = swells + least_gap_mm
    return PanelRoom(
        gap_mm=gap,
        least_mm=least_gap_mm,
        greatest_mm=gap + shrinks,
        # The tongue sits hold + shrinkage deep on the day of building; its full length in the groove.
        tongue_mm=hold_mm + shrinks,
        cautions=_both(dry.cautions, damp.cautions),
    )


def breadboard_room(
    width_mm: float,
    species: Species | str,
    mc_built_pct: float,
    mc_dry_pct: float,
    mc_damp_pct: float,
    outer_pin_mm: float,
    pin_mm: float = 8.0,
    ring_angle_deg: float = 0.0,
) -> BreadboardRoom:
    """What a breadboard end fixed at its middle sees: how far the panel passes or misses its ends, and the outer slot.

    width_mm: width of the panel, flush with the end on the day of building [mm]. outer_pin_mm: outermost pin, from
    the middle [mm], at most half the width. pin_mm: pin diameter [mm]. The end itself, along the grain,
    does not move. The rest as for slot_for. Raises OutOfRangeError, UnknownSpeciesError.
    Source: WOOD-HANDBOOK, chapter 13, Eq. 13-2 and 13-3; fixing at the middle is common practice.

    >>> room = breadboard_room(800, "white oak", 8, 6, 11, outer_pin_mm=350)
    >>> round(room.proud_when_damp_mm, 1), round(room.short_when_dry_mm, 1)
    (4.4, 2.9)
    """
    require("Width", width_mm, 0, _FAR_MM, "mm")
    require("Outermost pin", outer_pin_mm, 0, width_mm / 2, "mm")
    edge = slot_for(width_mm / 2, species, mc_built_pct, mc_dry_pct, mc_damp_pct, 0.0, 0.0, ring_angle_deg)
    slot = slot_for(outer_pin_mm, species, mc_built_pct, mc_dry_pct, mc_damp_pct, pin_mm, 1.0, ring_angle_deg)
    return BreadboardRoom(edge.outward_mm, edge.inward_mm, slot)


def _both(first: tuple[str, ...], second: tuple[str, ...]) -> tuple[str, ...]:
    return tuple(dict.fromkeys((*first, *second)))
