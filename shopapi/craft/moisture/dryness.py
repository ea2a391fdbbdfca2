"""Whether a board is dry enough for the home it goes to, by its meter reading, and how long it needs yet."""

from dataclasses import dataclass

import numpy as np

from shopapi.craft.limits import OutOfRangeError, require
from shopapi.craft.moisture.diffusion import acclimation
from shopapi.craft.moisture.equilibrium import equilibrium_moisture
from shopapi.craft.moisture.meter import meter_reading_corrected
from shopapi.craft.species import Species

# Wood-moisture meters are good to about a point, so no target is narrower; from memory.
_LEAST_HALF_PCT = 1.0
_GREEN_PCT = 28.0
_OLD_DAYS, _MOST_DAYS = 30, 3 * 365
_THICK_MM = 38.0
_READ_TO_PCT = 0.05

_OLD = "The reading is {days} days old; wood follows the air, so measure again before you cut."
_NO_AIR = "No air is noted in the bench log; reckoned as if the shop's air were that of the home's middle season."
_NOT_CORRECTED = "Not corrected for the wood's temperature: that is done for pin meters only, where the meter says so."
_OUT_OF_SCALE = "Not corrected for the wood's temperature: {why}"
_THICK = "Thick boards are damper inside than a meter shows; measure a fresh cut, away from the ends."
_LEAVES = "The shop's air holds wood at {air:.1f} %, outside of that: work it soon, or keep it wrapped."


@dataclass(frozen=True)
class MeterReading:
    """What a meter showed [%], how long ago [days], and where known the wood's temperature [°C]; whether by pins."""

    shown_pct: float
    days_ago: float = 0.0
    temp_c: float | None = None
    by_pins: bool = False


@dataclass(frozen=True)
class Air:
    """Temperature [°C] and relative humidity [%]."""

    temp_c: float
    rh_pct: float


@dataclass(frozen=True)
class HomeAir:
    """A home's driest and dampest relative humidity [%] and its temperature [°C]."""

    rh_dry_pct: float
    rh_damp_pct: float
    temp_c: float


@dataclass(frozen=True)
class Dryness:
    """`mc_pct` is the wood's moisture, corrected [% MC]; the target is what the home's air holds wood at [% MC].

    `days` is how long yet, 0 where it should be there by now, None where it will not get there or nobody can say.
    """

    mc_pct: float | None
    target_low_pct: float
    target_high_pct: float
    shop_pct: float | None
    ready: bool
    days: float | None
    words: str
    cautions: tuple[str, ...]


def dryness(
    thickness_mm: float, wood: Species | str, reading: MeterReading | None, home: HomeAir, shop: Air | None
) -> Dryness:
    """Whether a board may be worked for a home, or how many days it needs yet in the shop's air.

    thickness_mm: 1 to 200 [mm]. wood: species or its name. reading: the newest, None where none was taken. home: as
    HomeAir. shop: the shop's air, None where nobody noted it (then the home's middle season stands for it). The target
    is what the home's driest and dampest air hold wood at, at least a point either way. Time counts from the reading.
    A board no time can be reckoned for (thickness, species, moisture) has `days` None and says why; raises
    OutOfRangeError for air out of range only.
    Source: WOOD-HANDBOOK Eq. 4-5 for the target; CRANK-1975 and SIAU-1984 for the time; METER-CORRECTION. Aiming at
    the home's own range, and measuring anew after a month: COMMON-PRACTICE, no source.

    >>> home = HomeAir(30, 55, 21)
    >>> answer = dryness(27, "white oak", MeterReading(12.0), home, Air(20, 40))
    >>> answer.ready, round(answer.days)
    (False, 19)
    """
    dry, damp = (equilibrium_moisture(home.temp_c, rh) for rh in (home.rh_dry_pct, home.rh_damp_pct))
    middle = (dry + damp) / 2
    low, high = min(dry, middle - _LEAST_HALF_PCT), max(damp, middle + _LEAST_HALF_PCT)
    target = f"{low:.1f} to {high:.1f} %"
    shop_pct = None if shop is None else float(equilibrium_moisture(shop.temp_c, shop.rh_pct))

    def answer(mc: float | None, words: str, *, ready: bool = False, days: float | None = None, cautions=()) -> Dryness:
        said = tuple(dict.fromkeys((*cautions, *dry.cautions, *damp.cautions)))
        return Dryness(mc, low, high, shop_pct, ready, days, words, said)

    if reading is None:
        return answer(None, f"Not measured yet. The home holds wood at {target}.")
    require("Reading", reading.shown_pct, 0, 1000, "%")
    mc, cautions = _corrected(reading)
    if reading.days_ago > _OLD_DAYS:
        cautions.append(_OLD.format(days=round(reading.days_ago)))
    if thickness_mm >= _THICK_MM:
        cautions.append(_THICK)
    held = f"The wood is at {mc:.1f} %, the home holds it at {target}"
    if low - _READ_TO_PCT <= mc <= high + _READ_TO_PCT:
        if shop_pct is not None and not low <= shop_pct <= high:
            cautions.append(_LEAVES.format(air=shop_pct))
        return answer(mc, f"{held}.", ready=True, days=0.0, cautions=cautions)
    if mc > _GREEN_PCT:
        words = f"{held}. It is green: dry it slowly, stickered and out of the sun, before it comes into the shop."
        return answer(mc, words, cautions=cautions)
    air_pct = shop_pct if shop_pct is not None else float(middle)
    edge = high if mc > high else low
    if (mc > high and air_pct >= high) or (mc < low and air_pct <= low):
        damper = "damper" if air_pct >= high else "drier"
        words = f"{held}. The shop's air holds wood at {air_pct:.1f} %, {damper} than the home: it will not get there."
        return answer(mc, words, cautions=cautions)
    if shop_pct is None:
        cautions.append(_NO_AIR)
    temp_c = 20.0 if shop is None else min(max(shop.temp_c, 0.0), 50.0)
    try:
        needed, more = _days_to(edge, thickness_mm, wood, mc, air_pct, temp_c)
    except OutOfRangeError as error:
        return answer(mc, f"{held}. How long it needs cannot be reckoned: {error}", cautions=cautions)
    cautions += more
    if needed is None:
        return answer(mc, f"{held}. In the shop's air that takes more than three years.", cautions=cautions)
    left = max(0.0, needed - max(0.0, reading.days_ago))
    where = f"{held}. In the shop's air ({air_pct:.1f} %), stickered,"
    words = f"{where} it takes about {_days(left)} yet." if left else f"{where} it should be there: measure it again."
    return answer(mc, words, days=left, cautions=cautions)


def _corrected(reading: MeterReading) -> tuple[float, list[str]]:
    if reading.temp_c is None:
        return reading.shown_pct, []
    if not reading.by_pins:
        return reading.shown_pct, [_NOT_CORRECTED]
    try:
        corrected = meter_reading_corrected(reading.shown_pct, reading.temp_c)
    except OutOfRangeError as error:
        return reading.shown_pct, [_OUT_OF_SCALE.format(why=error)]
    told = f"The meter showed {reading.shown_pct:g} %; at the wood's temperature that is {corrected:.1f} %."
    return float(corrected), [told, *corrected.cautions]


def _days_to(
    edge_pct: float, thickness_mm: float, wood: Species | str, mc_pct: float, air_pct: float, temp_c: float
) -> tuple[float | None, tuple[str, ...]]:
    """Days until the board's mean moisture is at the edge of the target; None beyond three years."""
    days = np.arange(_MOST_DAYS + 1.0)
    way = acclimation(thickness_mm, wood, mc_pct, air_pct, days.tolist(), temp_c=temp_c)
    means = np.asarray(way.mean_mc_pct)
    there = means <= edge_pct if mc_pct > edge_pct else means >= edge_pct
    if not there.any():
        return None, way.cautions
    return float(days[there.argmax()]), way.cautions


def _days(days: float) -> str:
    return "a day" if days <= 1 else f"{days:.0f} days"
