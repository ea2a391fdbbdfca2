"""Humid air: saturation, dew point, and what heating outdoor air does to its relative humidity."""

from typing import overload

import numpy as np
from numpy.typing import ArrayLike

from shopapi.craft.limits import Answer, Numbers, is_scalar, require_all, warn_beyond

_COLD_C, _HOT_C = -40.0, 50.0
_LEAST_RH = 0.1
# WMO-MAGNUS, water form: es = 6.112 exp(17.62 T / (243.12 + T)) hPa.
_ES0_HPA, _A, _B_C = 6.112, 17.62, 243.12

_LIVED_IN = "Lived-in rooms are damper: people, cooking and plants add water."
_OVER_ICE = "Below 0 °C humidity is counted over liquid water; over ice the answer is up to 1 point lower."
_CONDENSES = "This air would condense indoors."


@overload
def saturation_pressure_hpa(temp_c: float) -> float: ...
@overload
def saturation_pressure_hpa(temp_c: ArrayLike) -> Numbers: ...
def saturation_pressure_hpa(temp_c: ArrayLike) -> float | Numbers:
    """Pressure of water vapour in saturated air over liquid water [hPa], also below 0 °C as weather services count.

    temp_c: air temperature [°C], -40 to 50, number or array; within 0.4 %. Raises OutOfRangeError outside.
    Source: WMO-MAGNUS, water form.

    >>> round(saturation_pressure_hpa(20), 2)
    23.33
    """
    T = require_all("Temperature", temp_c, _COLD_C, _HOT_C, "°C")
    answer = _ES0_HPA * np.exp(_A * T / (_B_C + T))
    return float(answer) if is_scalar(temp_c) else np.asarray(answer)


@overload
def dew_point_c(temp_c: float, rh_percent: float) -> float: ...
@overload
def dew_point_c(temp_c: ArrayLike, rh_percent: ArrayLike) -> Numbers: ...
def dew_point_c(temp_c: ArrayLike, rh_percent: ArrayLike) -> float | Numbers:
    """Temperature [°C] at which this air would be saturated.

    temp_c: air temperature [°C], -40 to 50. rh_percent: relative humidity [%], 0.1 to 100: bone-dry air has no dew
    point. Numbers or arrays. Raises OutOfRangeError outside. Source: WMO-MAGNUS, water form inverted.

    >>> round(dew_point_c(20, 50), 1)
    9.3
    """
    humidity = require_all("Relative humidity", rh_percent, _LEAST_RH, 100, "%")
    g = np.log(np.asarray(saturation_pressure_hpa(temp_c)) * humidity / 100 / _ES0_HPA)
    answer = _B_C * g / (_A - g)
    return float(answer) if is_scalar(temp_c, rh_percent) else np.asarray(answer)


@overload
def indoor_humidity(outdoor_c: float, outdoor_rh_percent: float, indoor_c: float) -> Answer: ...
@overload
def indoor_humidity(outdoor_c: ArrayLike, outdoor_rh_percent: ArrayLike, indoor_c: ArrayLike) -> Numbers: ...
def indoor_humidity(outdoor_c: ArrayLike, outdoor_rh_percent: ArrayLike, indoor_c: ArrayLike) -> Answer | Numbers:
    """Relative humidity [%] of outdoor air once warmed (or cooled) indoors, with no water added or taken.

    outdoor_c, indoor_c: temperatures [°C], -40 to 50. outdoor_rh_percent: [%], 0 to 100. Numbers or arrays. People,
    cooking and plants add water: it is a floor in winter, no forecast. Air that would be over-saturated is given as 100
    with a caution (arrays raise BeyondRange). Within 1 point of published examples. Raises OutOfRangeError.
    Source: WMO-MAGNUS, same vapour pressure in and out; examples in SERVICE-CLIMATE.

    >>> round(indoor_humidity(-6.67, 60, 21.11), 1)
    8.9
    """
    humidity = require_all("Outdoor relative humidity", outdoor_rh_percent, 0, 100, "%")
    raw = humidity * saturation_pressure_hpa(outdoor_c) / saturation_pressure_hpa(indoor_c)
    answer = np.minimum(raw, 100.0)
    condenses = bool(np.any(raw > 100 + 1e-9))
    if is_scalar(outdoor_c, outdoor_rh_percent, indoor_c):
        cautions = [_LIVED_IN]
        if np.any(np.asarray(outdoor_c) < 0):
            cautions.append(_OVER_ICE)
        if condenses:
            cautions.append(_CONDENSES)
        return Answer(float(answer), "% RH", "same vapour pressure in and out", cautions)
    if condenses:
        warn_beyond(_CONDENSES)
    return np.asarray(answer)
