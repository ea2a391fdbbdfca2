"""Moisture in wood and air: the balance between them, heated air, and places."""

from shopapi.craft.moisture.air import dew_point_c, indoor_humidity, saturation_pressure_hpa
from shopapi.craft.moisture.equilibrium import equilibrium_moisture, humidity_for
from shopapi.craft.moisture.meter import meter_reading_corrected
from shopapi.craft.moisture.places import InteriorMoisture, Place, interior_moisture, outdoor_moisture, places

__all__ = [
    "InteriorMoisture",
    "Place",
    "dew_point_c",
    "equilibrium_moisture",
    "humidity_for",
    "indoor_humidity",
    "interior_moisture",
    "meter_reading_corrected",
    "outdoor_moisture",
    "places",
    "saturation_pressure_hpa",
]
