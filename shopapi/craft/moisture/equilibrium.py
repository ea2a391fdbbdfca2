"""The moisture wood settles at in steady air, and the air that holds wood at a given moisture."""

from typing import overload

import numpy as np
from numpy.typing import ArrayLike

from shopapi.craft.limits import Answer, Numbers, OutOfRangeError, is_scalar, require_all, warn_beyond

# WOOD-HANDBOOK, Table 4-2 spans 30 to 270 F and 5 to 95 % RH.
_TABLE_C = (-1.2, 132.3)
_COLD_C, _HOT_C = -40.0, 140.0
_TABLE_HIGHEST_RH = 95.0
_PIECE = 16_384

_SPECIES_NOTE = "Wood in general: real boards can sit 1 to 2 points off."
_BEYOND_TEMPERATURE = "Beyond -1 to 132 °C the equation was not checked against its table."
_BEYOND_HUMIDITY = "Above 95 % RH the equation was not checked against its table."


@overload
def equilibrium_moisture(temp_c: float, rh_percent: float) -> Answer: ...
@overload
def equilibrium_moisture(temp_c: ArrayLike, rh_percent: ArrayLike) -> Numbers: ...
def equilibrium_moisture(temp_c: ArrayLike, rh_percent: ArrayLike) -> Answer | Numbers:
    """Equilibrium moisture content [% of dry mass] of wood in air of this temperature and relative humidity.

    temp_c: air temperature [°C], -40 to 140. rh_percent: relative humidity [%], 0 to 100. Numbers or arrays.
    Reproduces the printed table within 0.06 points. Outside -1 to 132 °C or above 95 % RH the answer carries a caution
    (arrays raise the BeyondRange warning). Raises OutOfRangeError beyond that.
    Source: WOOD-HANDBOOK, chapter 4, Eq. 4-5 (Celsius constants as in SIMPSON-1998, Eq. 1).

    >>> round(equilibrium_moisture(21.1, 50), 1)
    9.2
    """
    temperature = require_all("Temperature", temp_c, _COLD_C, _HOT_C, "°C")
    humidity = require_all("Relative humidity", rh_percent, 0, 100, "%")
    answer = _in_pieces(temperature, humidity / 100)
    cautions = _cautions(temperature, humidity)
    if is_scalar(temp_c, rh_percent):
        return Answer(float(answer), "% MC", "Wood Handbook Eq. 4-5", (_SPECIES_NOTE, *cautions))
    for caution in cautions:
        warn_beyond(caution)
    return answer


@overload
def humidity_for(mc_percent: float, temp_c: float) -> Answer: ...
@overload
def humidity_for(mc_percent: ArrayLike, temp_c: ArrayLike) -> Numbers: ...
def humidity_for(mc_percent: ArrayLike, temp_c: ArrayLike) -> Answer | Numbers:
    """Relative humidity [%] of the air that holds wood at this moisture: the inverse of equilibrium_moisture.

    mc_percent: moisture [% of dry mass], 0 up to what saturated air gives (about 28 at room temperature).
    temp_c: air temperature [°C], -40 to 140. Accurate to 1e-9 % RH against the equation.
    Raises OutOfRangeError where no air could do it.
    Source: WOOD-HANDBOOK, chapter 4, Eq. 4-5, solved for h by bisection.

    >>> round(humidity_for(8.0, 21.0), 1)
    42.0
    """
    moisture = require_all("Moisture", mc_percent, 0, 1000, "%")
    temperature = require_all("Temperature", temp_c, _COLD_C, _HOT_C, "°C")
    moisture, temperature = np.broadcast_arrays(moisture, temperature)
    most = _equation_4_5(temperature, np.ones_like(temperature))
    if np.any(moisture > most):
        raise OutOfRangeError(
            f"Moisture {float(moisture[moisture > most].flat[0]):g} % is out of range: in air the wood reaches at most "
            f"{float(most.min()):.1f} %."
        )
    low, high = np.zeros_like(moisture), np.ones_like(moisture)
    for _ in range(50):  # 2**-50 of the whole span: below the noise of the equation
        middle = (low + high) / 2
        too_dry = _equation_4_5(temperature, middle) < moisture
        low, high = np.where(too_dry, middle, low), np.where(too_dry, high, middle)
    humidity = 50 * (low + high)
    cautions = _cautions(temperature, humidity)
    if is_scalar(mc_percent, temp_c):
        return Answer(float(humidity), "% RH", "Wood Handbook Eq. 4-5, inverted", (_SPECIES_NOTE, *cautions))
    for caution in cautions:
        warn_beyond(caution)
    return humidity


def _in_pieces(temperature: Numbers, fraction: Numbers) -> Numbers:
    """The equation piece by piece: a long array goes through the processor's cache only once."""
    temperature, fraction = np.broadcast_arrays(temperature, fraction)
    if temperature.size <= _PIECE:
        return _equation_4_5(temperature, fraction)
    flat_temperature, flat_fraction = temperature.ravel(), fraction.ravel()
    answer = np.empty(temperature.size)
    for start in range(0, temperature.size, _PIECE):
        piece = slice(start, start + _PIECE)
        answer[piece] = _equation_4_5(flat_temperature[piece], flat_fraction[piece])
    return answer.reshape(temperature.shape)


def _equation_4_5(T: Numbers, h: Numbers) -> Numbers:
    """WOOD-HANDBOOK Eq. 4-5, Celsius constants; h is the relative humidity as a fraction."""
    W = 349 + T * (1.29 + 0.0135 * T)
    Kh = (0.805 + T * (0.000736 - 0.00000273 * T)) * h
    K1Kh = (6.27 - T * (0.00938 + 0.000303 * T)) * Kh
    K1K2KKhh = K1Kh * Kh * (1.91 + T * (0.0407 - 0.000293 * T))
    answer: Numbers = 1800 / W * (Kh / (1 - Kh) + (K1Kh + 2 * K1K2KKhh) / (1 + K1Kh + K1K2KKhh))
    return answer


def _cautions(temperature: Numbers, humidity: Numbers) -> tuple[str, ...]:
    cautions = []
    if temperature.size and (temperature.min() < _TABLE_C[0] or temperature.max() > _TABLE_C[1]):
        cautions.append(_BEYOND_TEMPERATURE)
    if humidity.size and humidity.max() > _TABLE_HIGHEST_RH:
        cautions.append(_BEYOND_HUMIDITY)
    return tuple(cautions)
