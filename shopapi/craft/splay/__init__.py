"""Angles of splayed legs and hoppers, crossing half laps, tapers and bevels."""

from shopapi.craft.splay.laps import Crossing, HalfLap, crossing_in_frame, half_lap
from shopapi.craft.splay.legs import Hopper, SplayedLeg, angle_between_legs, hopper, leans_from_resultant, splayed_leg
from shopapi.craft.splay.tapers import Bevel, Taper, edge_bevel, taper

__all__ = [
    "Bevel",
    "Crossing",
    "HalfLap",
    "Hopper",
    "SplayedLeg",
    "Taper",
    "angle_between_legs",
    "crossing_in_frame",
    "edge_bevel",
    "half_lap",
    "hopper",
    "leans_from_resultant",
    "splayed_leg",
    "taper",
]
