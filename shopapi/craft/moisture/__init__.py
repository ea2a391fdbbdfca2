"""Moisture in wood and air: the balance between them, heated air, and places."""

from shopapi.craft.moisture.air import dew_point_c, indoor_humidity, saturation_pressure_hpa
from shopapi.craft.moisture.diffusion import Acclimation, acclimation, diffusivity_mm2_day, moisture_profile
from shopapi.craft.moisture.dryness import Air, Dryness, HomeAir, MeterReading, dryness
from shopapi.craft.moisture.equilibrium import equilibrium_moisture, humidity_for
from shopapi.craft.moisture.exclusion import Exclusion, exclusion_table, vapour_resistance_day_mm
from shopapi.craft.moisture.meter import meter_reading_corrected
from shopapi.craft.moisture.places import InteriorMoisture, Place, interior_moisture, outdoor_moisture, places
from shopapi.craft.moisture.season import Season, seasonal_moisture

__all__ = [
    "Acclimation",
    "Air",
    "Dryness",
    "Exclusion",
    "HomeAir",
    "InteriorMoisture",
    "MeterReading",
    "Place",
    "Season",
    "acclimation",
    "dew_point_c",
    "diffusivity_mm2_day",
    "dryness",
    "equilibrium_moisture",
    "exclusion_table",
    "humidity_for",
    "indoor_humidity",
    "interior_moisture",
    "meter_reading_corrected",
    "moisture_profile",
    "outdoor_moisture",
    "places",
    "saturation_pressure_hpa",
    "seasonal_moisture",
    "vapour_resistance_day_mm",
]
