"""When a table or a storage piece tips over."""

from collections.abc import Sequence
from dataclasses import dataclass

from shopapi.craft.limits import Answer, OutOfRangeError, require, require_more_than_zero

_G_M_S2 = 9.81
# ISO-7172: the force acts 50 mm in from the edge.
_INSET_MM = 50.0

_ANCHOR = (
    "Fix storage pieces to the wall whatever this says: children climb drawers. Local rules on tip-over outrank this."
)


@dataclass(frozen=True)
class Drawer:
    """A drawer or door leaf pulled out: its mass with contents [kg], and how far its centre then stands in front of
    the front feet [mm], negative when still behind them."""

    mass_kg: float
    centre_before_feet_mm: float


@dataclass(frozen=True)
class StorageBalance:
    """A storage piece about its front feet: moments that hold it and that tip it [N m], pull that tips it [N] (0 when
    it tips by itself), and what to say beside it."""

    holding_nm: float
    tipping_nm: float
    pull_to_tip_n: float
    stands: bool
    cautions: tuple[str, ...]


def table_tip_force(mass_kg: float, top_width_mm: float, feet_width_mm: float, inset_mm: float = _INSET_MM) -> Answer:
    """Downward force near the edge of a table top [N] that lifts the opposite legs.

    mass_kg: of the whole table [kg]. top_width_mm: across the edge that is pressed [mm]. feet_width_mm: between the
    outer lines of the feet in that direction [mm]. inset_mm: how far in from the edge the force acts [mm]. A table
    whose feet reach as far as the force cannot be tipped so: the answer is infinite. No standard's required force is
    given here. Raises OutOfRangeError.
    Source: ISO-7172 for the place of the force; MECHANICS, moments about the feet.

    >>> round(table_tip_force(35, 900, 700))
    2403
    """
    require_more_than_zero("Mass", mass_kg, 2000, "kg")
    require_more_than_zero("Top", top_width_mm, 20_000, "mm")
    require_more_than_zero("Feet", feet_width_mm, 20_000, "mm")
    require("Inset", inset_mm, 0, top_width_mm / 2, "mm")
    out, back = top_width_mm / 2 - inset_mm - feet_width_mm / 2, feet_width_mm / 2
    cautions = ("Even floor, stiff table; a seated person can push with their own weight.",)
    force = float("inf") if out <= 0 else mass_kg * _G_M_S2 * back / out
    return Answer(force, "N", "moments about the feet", cautions)


def storage_balance(
    mass_kg: float,
    centre_behind_feet_mm: float,
    drawers: Sequence[Drawer] = (),
    pull_n: float = 0.0,
    pull_height_mm: float = 0.0,
) -> StorageBalance:
    """Whether a cabinet or chest stands with these drawers pulled out and this pull on them.

    mass_kg: without the drawers that are out [kg]. centre_behind_feet_mm: its centre of mass behind the front feet
    [mm]. drawers: those that are out. pull_n: level pull to the front [N], at pull_height_mm above the floor [mm].
    Nobody climbing is counted: give a child as a Drawer of its mass. Raises OutOfRangeError.
    Source: MECHANICS, moments about the front feet. No standard's test is reproduced.

    >>> chest = storage_balance(30, 200, [Drawer(8, 250)])
    >>> round(chest.holding_nm, 1), round(chest.tipping_nm, 1), chest.stands
    (58.9, 19.6, True)
    """
    require_more_than_zero("Mass", mass_kg, 2000, "kg")
    require("Centre of mass behind the feet", centre_behind_feet_mm, 0, 5000, "mm")
    require("Pull", pull_n, 0, 10_000, "N")
    require("Height of the pull", pull_height_mm, 0, 5000, "mm")
    for drawer in drawers:
        if not (0 <= drawer.mass_kg <= 500 and -5000 <= drawer.centre_before_feet_mm <= 5000):
            raise OutOfRangeError(f"{drawer} is out of range: 0 to 500 kg, -5000 to 5000 mm.")
    turns = [drawer.mass_kg * _G_M_S2 * drawer.centre_before_feet_mm / 1000 for drawer in drawers]
    holding = mass_kg * _G_M_S2 * centre_behind_feet_mm / 1000 - sum(turn for turn in turns if turn < 0)
    arm_m = pull_height_mm / 1000
    by_drawers = sum(turn for turn in turns if turn > 0)
    tipping = by_drawers + pull_n * arm_m
    spare = holding - by_drawers
    # A pull through the feet's own line turns nothing; so small a height may also vanish as it becomes metres.
    pull_to_tip = float("inf") if arm_m == 0 else max(0.0, spare) / arm_m
    return StorageBalance(holding, tipping, pull_to_tip if spare > 0 else 0.0, tipping < holding, (_ANCHOR,))
