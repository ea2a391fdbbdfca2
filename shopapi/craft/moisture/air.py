"""Humid air: saturation, dew point, and what heating outdoor air does to its relative humidity."""

import math

from shopapi.craft.limits import Answer, require, require_more_than_zero

_COLD_C, _HOT_C = -40.0, 50.0
# WMO-MAGNUS, water form: es = 6.112 exp(17.62 T / (243.12 + T)) hPa.
_ES0_HPA, _A, _B_C = 6.112, 17.62, 243.12


def saturation_pressure_hpa(temp_c: float) -> float:
    """Pressure of water vapour in saturated air over liquid water [hPa], also below 0 °C as weather services count.

    temp_c: air temperature [°C], -40 to 50; within 0.4 %. Raises OutOfRangeError outside.
    Source: WMO-MAGNUS, water form.

    >>> round(saturation_pressure_hpa(20), 2)
    23.33
    """
    require("Temperature", temp_c, _COLD_C, _HOT_C, "°C")
    return _ES0_HPA * math.exp(_A * temp_c / (_B_C + temp_c))


def dew_point_c(temp_c: float, rh_percent: float) -> float:
    """Temperature [°C] at which this air would be saturated.

    temp_c: air temperature [°C], -40 to 50. rh_percent: relative humidity [%], above 0 to 100.
    Raises OutOfRangeError outside. Source: WMO-MAGNUS, water form inverted.

    >>> round(dew_point_c(20, 50), 1)
    9.3
    """
    require_more_than_zero("Relative humidity", rh_percent, 100, "%")
    g = math.log(saturation_pressure_hpa(temp_c) * rh_percent / 100 / _ES0_HPA)
    return _B_C * g / (_A - g)


def indoor_humidity(outdoor_c: float, outdoor_rh_percent: float, indoor_c: float) -> Answer:
    """Relative humidity [%] of outdoor air once warmed (or cooled) indoors, with no water added or taken.

    outdoor_c, indoor_c: temperatures [°C], -40 to 50. outdoor_rh_percent: [%], 0 to 100. People, cooking and plants
    add water: it is a floor in winter, no forecast. Air that would be over-saturated is given as 100 with a caution.
    Within 1 point of published examples. Raises OutOfRangeError.
    Source: WMO-MAGNUS, same vapour pressure in and out; examples in SERVICE-CLIMATE.

    >>> round(indoor_humidity(-6.67, 60, 21.11), 1)
    8.9
    """
    require("Outdoor relative humidity", outdoor_rh_percent, 0, 100, "%")
    raw = outdoor_rh_percent * saturation_pressure_hpa(outdoor_c) / saturation_pressure_hpa(indoor_c)
    cautions = ["Lived-in rooms are damper: people, cooking and plants add water."]
    if outdoor_c < 0:
        cautions.append("Below 0 °C humidity is counted over liquid water; over ice the answer is up to 1 point lower.")
    if raw > 100:
        cautions.append("This air would condense indoors.")
    return Answer(min(raw, 100.0), "% RH", "same vapour pressure in and out", cautions)
