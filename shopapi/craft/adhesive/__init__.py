"""Glue: how much, how hard to clamp and with how many clamps, and how long everything may take."""

from shopapi.craft.adhesive.assembly import AssemblyTime, ClampTime, assembly_time, clamp_time
from shopapi.craft.adhesive.clamping import (
    ClampPlan,
    Pressure,
    clamp_force_n,
    clamp_plan,
    clamp_pressure,
    clamps_for_spread,
)
from shopapi.craft.adhesive.glues import GlueClass, all_glue_classes, glue_class, glue_needed_g

__all__ = [
    "AssemblyTime",
    "ClampPlan",
    "ClampTime",
    "GlueClass",
    "Pressure",
    "all_glue_classes",
    "assembly_time",
    "clamp_force_n",
    "clamp_plan",
    "clamp_pressure",
    "clamp_time",
    "clamps_for_spread",
    "glue_class",
    "glue_needed_g",
]
