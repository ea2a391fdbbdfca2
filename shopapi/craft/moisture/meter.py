"""Readings of a pin meter, corrected for the temperature of the wood."""

import math

from shopapi.craft.limits import Answer, require

_DECLARED_C = 21.0


def meter_reading_corrected(reading_pct: float, wood_temp_c: float) -> Answer:
    """Moisture [%] of wood read by a resistance (pin) meter whose scale holds at 21 °C, corrected for temperature.

    reading_pct: what the meter shows, already set to the species [%], 6 to 25. wood_temp_c: temperature of the wood
    [°C], -10 to 60; warm wood reads high, cold wood low. About 1 point either way. Raises OutOfRangeError outside.
    Do not use it on a meter that corrects temperature itself.
    Source: METER-CORRECTION, equation from memory, here referred to 21 °C so that nothing changes there.

    >>> round(meter_reading_corrected(12, 10), 1)
    13.1
    """
    require("Reading", reading_pct, 6, 25, "%")
    require("Temperature of the wood", wood_temp_c, -10, 60, "°C")
    shift = _scale(reading_pct, wood_temp_c) - _scale(reading_pct, _DECLARED_C)
    caution = "Correction equation from memory; the meter's own manual outranks it."
    return Answer(reading_pct + shift, "% MC", "pin meter temperature correction", (caution,))


def _scale(R: float, T: float) -> float:
    return (R + 0.567 - 0.0260 * T + 0.000051 * T * T) / (0.881 * math.exp(math.log(1.0056) * T))
