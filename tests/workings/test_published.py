"""Every working against a published value, or one computed here on its own, through the API.

The tables are those of tests/tables, each with its source; what no table has is worked out beside its case.
"""

import math
from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

import pytest

from shopapi.craft.moisture import diffusivity_mm2_day
from shopapi.workings.kinds import KINDS
from tests.craft.published import published
from tests.workings.conftest import Answer

IN, LBF, PSI, SQ_FT, POUND = 25.4, 4.4482216152605, 0.006894757293168361, 0.09290304, 0.45359237


@dataclass(frozen=True)
class Case:
    """Inputs of a kind and the lines that must come out; `within` is the table's own tolerance."""

    key: str
    source: str
    inputs: dict[str, Any]
    lines: dict[str, Any]
    within: float = 1e-9

    def __str__(self) -> str:
        return f"{self.key}-{self.source}"


def by_id(table: str, part: str) -> dict[str, dict[str, Any]]:
    return {row["id"]: row for row in published(table)[part]}


def inches(text: str) -> float:
    """`2-3/4` of a table, in mm."""
    return float(sum(Fraction(piece) for piece in text.split("-"))) * IN


def celsius(fahrenheit: float) -> float:
    return (fahrenheit - 32) / 1.8


COEFFICIENTS = {row["species"]: row for row in published("dimensional_change")["coefficients"]}
OAK, MAPLE = COEFFICIENTS["White oak, commercial"], COEFFICIENTS["Maple, sugar"]
SEASONS = {"mc_built_pct": 8, "mc_dry_pct": 6, "mc_damp_pct": 11}


def movement() -> list[Case]:
    fir, home = published("dimensional_change")["handbook_example"], published("service_climate")["swing_example"]
    swing = 400 * OAK["CT"]
    return [
        Case("width_change", "handbook example", {"species": "white fir", "width_mm": fir["DI_mm"], "mc_from_pct": 8,
             "mc_to_pct": 11}, {"Grows by": fir["dD_mm"], "Width then": fir["final_mm"]}, 0.05),
        Case("width_change", "shrinkage example S1", {"species": "black walnut", "width_mm": 250, "mc_from_pct": 30,
             "mc_to_pct": 8}, {"Width then": published("shrinkage")["examples"][0]["result_mm"]}, 0.05),
        Case("width_year", "home example K8, 1 point of a mm for the other method below 6 %", {"species": "white oak",
             "width_mm": 1000, "mc_built_pct": 8, "rh_dry_pct": 25, "rh_damp_pct": 55, "temp_c": 21},
             {"Moves over the year by": home["movement_mm"]}, 1.0),
        Case("cup", "stress-free rings with table 13-5, computed here", {"species": "white oak", "width_mm": 200,
             "mc_from_pct": 12, "mc_to_pct": 7, "pith_mm": 100}, {"Hollow by": cupped(200, 100, -5)}, 1e-6),
        Case("screw_slot", "table 13-5, computed here", {"species": "white oak", "distance_mm": 400, **SEASONS},
             {"Slot, across the grain": swing * 5 + 6, "Shank's middle may go inward by": swing * 2,
              "and outward by": swing * 3}, 1e-6),
        Case("inset_gap", "table 13-5, computed here", {"species": "sugar maple", "width_mm": 300, "sides": "1",
             **SEASONS}, {"Gap to leave on each moving side": 300 * MAPLE["CT"] * 3 + 1,
                          "Gap in the dry season": 300 * MAPLE["CT"] * 5 + 1}, 1e-6),
        Case("breadboard_end", "table 13-5, computed here", {"species": "white oak", "width_mm": 800,
             "outer_pin_mm": 350, **SEASONS}, {"Panel stands proud when damp, each edge": swing * 3,
             "Outermost slot": 350 * OAK["CT"] * 5 + 9}, 1e-6),
    ]  # fmt: skip


def cupped(width: float, pith: float, points: float) -> float:
    """Edge against middle once radii and ring arcs have shrunk by their own coefficients."""
    radial, arc = 1 + OAK["CR"] * points, 1 + OAK["CT"] * points
    angle = math.atan(width / 2 / pith)
    edge = radial * math.hypot(width / 2, pith) * math.cos(angle * arc / radial)
    return abs(edge - radial * pith)


def air() -> list[Case]:
    cells = published("equilibrium_moisture")["cells"]
    cases = [
        Case("wood_in_air", f"table 4-2, {cell['T_F']} F {cell['RH']} %", {"temp_c": celsius(cell["T_F"]),
             "rh_pct": cell["RH"]}, {"Wood settles at": cell["EMC"]}, 0.07)
        for cell in cells[::12]
    ]  # fmt: skip
    (room,) = [cell for cell in cells if (cell["T_F"], cell["RH"]) == (70, 50)]
    cases.append(
        Case("air_for_wood", "table 4-2 backwards, its last digit is 0.4 % RH", {"mc_pct": room["EMC"],
             "temp_c": celsius(70)}, {"Humidity to keep": 50}, 0.5)
    )  # fmt: skip
    cases += [
        Case("warmed_air", f"published example {row['id']}", {"outdoor_c": row["outdoor_C"],
             "outdoor_rh_pct": row["outdoor_RH"], "indoor_c": row["indoor_C"]},
             {"Humidity indoors": row["published_indoor_RH"], "Wood would settle at": row["EMC_at_magnus_water"]}, 1.0)
        for row in published("service_climate")["examples"]
    ]  # fmt: skip
    regions = ("most", "dry southwest", "damp coast")
    rows = published("outdoor_moisture")["recommended_installation_MC"]
    cases += [
        Case("build_at", "table 13-2", {"region": region}, {"Build at": row["average"], "Single pieces from":
             row["individual"][0], "to": row["individual"][1]})
        for region, row in zip(regions, rows[:3], strict=True)
    ]  # fmt: skip
    # A meter maker's chart, read in a user guide: whole points, and meters differ.
    cases.append(
        Case("pin_meter", "a meter maker's chart", {"reading_pct": 15, "wood_c": 10}, {"The wood holds": 17}, 1.25)
    )
    cases.append(
        Case("acclimation", "series for a plane sheet, computed here", {"species": "white oak", "thickness_mm": 25,
             "mc_start_pct": 12, "temp_c": 20, "rh_pct": 42}, {"Two thirds of the way takes": slowest_hours(25)}, 4)
    )  # fmt: skip
    return cases


def slowest_hours(thickness: float) -> float:
    """First root of b tan b = surface x half / D by bisection; D and the bare surface (17.28 mm/day) are craft's."""
    half, speed, surface = thickness / 2, float(diffusivity_mm2_day("white oak", 10, 20)), 17.28
    low, high = 0.0, math.pi / 2
    for _ in range(80):
        middle = (low + high) / 2
        if middle * math.tan(middle) < surface * half / speed:
            low = middle
        else:
            high = middle
    return 24 * half**2 / (speed * low**2)


def wood() -> list[Case]:
    shrinkage = published("shrinkage")["domestic"]
    facts = [
        Case("wood_facts", f"tables 4-3 and 13-5, {row['species']}", {"species": row["species"]}, {
            "Shrinks across flatsawn (tangential), green to ovendry": row["tangential"],
            "Shrinks across quartersawn (radial)": row["radial"]})
        for row in shrinkage[:3]
    ]  # fmt: skip
    ash = {row["value_of"]: row["value"] for row in published("strength")["rows"] if row["species"] == "white ash"}
    facts.append(
        Case("wood_facts", "table 5-3, white ash", {"species": "white ash"}, {
            "Specific gravity at 12 %": ash["specific_gravity"],
            "Stiffness at 12 %": ash["moe"] * 1e6 * PSI / 1000}, 0.01)
    )  # fmt: skip
    kilos = 2 * 1.4 * 0.7 * 0.025 * 1000 * ash["specific_gravity"] * 1.12 + 1.5
    facts.append(
        Case("mass", "gravity of table 5-3, computed here", {"species": "white ash", "length_mm": 1400,
             "width_mm": 700, "thickness_mm": 25, "count": 2, "mc_pct": 12, "hardware_kg": 1.5},
             {"Weighs": kilos}, 0.01)
    )  # fmt: skip
    return facts


def lumber() -> list[Case]:
    first, second = published("lumber_grades")["examples"][:2]
    tables = (("2", "S2S"), ("1", "S1S"))
    return [
        Case("board_feet", "L1", {"width_mm": inches(first["width_in"]), "length_mm": first["length_ft"] * 304.8,
             "thickness": "8/4"}, {"Tallied as": first["board_feet"], "Surface measure of each": first["SM"]}),
        Case("board_feet", "L2", {"width_mm": inches(second["width_in"]), "length_mm": second["length_ft"] * 304.8,
             "thickness": "4/4", "count": 3}, {"Tallied as": 3 * second["SM"]}),
        *(
            Case("quarters", f"{name} {row['rough']}", {"thickness": row["rough"], "sides": sides},
                 {"Surfaced": inches(row[name])}, 0.01)
            for sides, name in tables
            for row in published("lumber_grades")[f"thickness_{name}_in"]
            if row["rough"].endswith("/4") and row["rough"] != "3/4"
        ),
        Case("milling_plan", "4 : 2 : 1 of the spare wood, computed here", {"rough_mm": 27, "finished_mm": 20},
             {"First session, down to": 23, "Rests, together": 48}),
        Case("after_rest", "0.5 mm a metre, common practice", {"thickness_mm": 23, "finished_mm": 20, "moved_mm": 1,
             "length_mm": 1000}, {"In short": "one more session", "Wood to spare after flattening": 1}),
    ]  # fmt: skip


def angles() -> list[Case]:
    legs, hoppers = by_id("geometry", "legs"), by_id("geometry", "hoppers")
    laps, pairs = by_id("geometry", "half_laps"), by_id("geometry", "leg_pairs")
    leaning = [
        Case("leg_splay", row["id"], {name: row[name] for name in ("height_mm", "rake_deg", "splay_deg")}, {
            "Leans in all (resultant)": row["resultant_deg"], "True length": row["true_length_mm"],
            "In the direction (sightline), from front-to-back": row["sightline_deg_from_front_back"],
            "End cut, miter gauge": row["end_cut_miter_deg"], "End cut, blade tilt": row["end_cut_bevel_deg"],
            "Foot stands out to the side by": row["foot_offset_side_mm"],
            "Foot stands out to the front by": row["foot_offset_front_mm"]}, 0.005)
        for row in legs.values()
    ]  # fmt: skip
    drilled = [
        Case("leg_drilled", f"{row['id']} backwards", {"resultant_deg": row["resultant_deg"],
             "sightline_deg": row["sightline_deg_from_front_back"]},
             {"Rake": row["rake_deg"], "Splay": row["splay_deg"]}, 2e-4)
        for row in legs.values()
    ]  # fmt: skip
    boxes = [
        Case("sloping_box", row["id"], {"sides": row["sides"], "slope_deg": row["side_slope_from_horizontal_deg"]},
             {"Miter gauge": row["miter_deg"], "Blade tilt": row["bevel_deg"]}, 1e-4)
        for row in hoppers.values()
    ]  # fmt: skip
    crossing = [
        Case("half_lap", row["id"], {"width_mm": row["part_width_mm"], "other_width_mm": row["part_width_mm"],
             "thickness_mm": row["thickness_mm"], "crossing_deg": row["crossing_angle_deg"], "middle_mm": 400},
             {"Notch along the part": row["notch_length_along_part_mm"], "Notch depth": row["notch_depth_mm"],
              "Shoulders shift from edge to edge by": row["shoulder_offset_mm"]}, 0.005)
        for row in laps.values()
    ]  # fmt: skip
    frames = [
        Case("cross_in_frame", row["id"], {"length_mm": row["rect_mm"][0], "height_mm": row["rect_mm"][1]},
             {"They cross at": row["crossing_angle_deg"], "Each lies at": row["member_angle_deg"]}, 1e-4)
        for row in laps.values()
    ]  # fmt: skip
    between = [
        Case("between_legs", pair, {"rake_deg": pairs[pair]["rake_deg"], "splay_deg": pairs[pair]["splay_deg"],
             "which": which}, {"Between the two legs": pairs[pair]["angle_between_deg"]}, 1e-4)
        for pair, which in (("G8", "left and right"), ("G9", "diagonal"))
    ]  # fmt: skip
    slope = math.degrees(math.asin(20 / math.hypot(20, 500)))
    return [
        *leaning, *drilled, *boxes, *crossing, *frames, *between,
        Case("taper", "right triangle, computed here", {"length_mm": 500, "from_mm": 45, "to_mm": 25, "jig_mm": 750},
             {"Angle": slope, "Jig offset": 30, "Comes off at the thin end": 20}, 1e-6),
        Case("edge_bevel", "right triangle, computed here", {"run_mm": 60, "rise_mm": 12},
             {"Bevelled face is": math.hypot(60, 12), "Blade tilt, part lying flat": math.degrees(math.asin(
                 60 / math.hypot(60, 12)))}, 1e-6),
    ]  # fmt: skip


def glue() -> list[Case]:
    examples, spread = by_id("adhesives", "examples"), published("adhesives")["spread"][0]["g_m2"][1]
    panel = {"species": "black cherry", "joint_length_mm": 48 * IN, "thickness_mm": IN, "outer_strip_mm": 2 * IN}
    open_min, total_min = (published("adhesives")[name][0]["low"] for name in ("open_assembly_min",
                                                                               "total_assembly_min"))  # fmt: skip
    return [
        Case("glue_quantity", "spread, from memory", {"joint_length_mm": 1000, "joint_width_mm": 1000, "joints": 2,
             "waste_pct": 0}, {"Glue": 2 * spread}),
        Case("clamps", "A2 and A4", {**panel, "caul_mm": 0.5 * IN}, {
             "To press everywhere (45° rule)": examples["A2"]["rule_clamps"],
             "Force on the joint, at least": examples["A4"]["force_lbf"] * LBF}, 0.01),
        Case("clamps", "A3", {**panel, "caul_mm": 3.5 * IN},
             {"To press everywhere (45° rule)": examples["A3"]["rule_clamps"]}),
        Case("glue_time", "yellow glue at 20 °C, 50 mm/s and 20 s", {"glue": "yellow", "edges": 4,
             "edge_length_mm": 1500, "clamps": 8}, {"and the glue stays open": open_min / 60,
             "and the glue allows": total_min / 60, "Spreading takes": 120 / 3600,
             "All clamps set after": 280 / 3600, "In clamps": published("adhesives")["clamp_time_min"]
             ["unstressed_high"] / 60, "It fits": "glue it up in one go"}, 1e-6),
    ]  # fmt: skip


def strength() -> list[Case]:
    alder = {row["value_of"]: row["value"] for row in published("strength")["rows"] if row["species"] == "red alder"}
    moe_mpa, gravity = alder["moe"] * 1e6 * PSI, alder["specific_gravity"]
    weight_n = (25 + 0.9 * 0.25 * 0.019 * 1000 * gravity * 1.12) * 9.80665
    at_once = 5 * weight_n * 900**3 / (384 * moe_mpa * 250 * 19**3 / 12)
    # Equation printed beside the table: 15,700 G2 D L lbf; No. 10, 1 in of thread.
    breaks = 15_700 * gravity**2 * 0.190 * LBF
    return [
        Case("shelf_sag", "5wL4/384EI with table 5-3, 1 % for its rounding", {"species": "red alder", "span_mm": 900,
             "width_mm": 250, "thickness_mm": 19, "spread_kg": 25, "mc_pct": 12},
             {"Sags at once by": at_once, "Sags in the end by": 2 * at_once}, at_once * 0.02),
        Case("screw_hold", "handbook equation with table 5-3", {"species": "red alder", "diameter_mm": 0.190 * IN,
             "thread_mm": IN, "root_mm": 3.2}, {"Gives way at": breaks, "Lead hole for the thread": 3.2 * 0.9},
             breaks * 1e-3),
        *(
            Case("table_tip", row["id"], {"mass_kg": 35, "top_mm": 900, "feet_mm": 2 * row["lever_back_mm"],
                 "inset_mm": 50}, {"Tips when pressed with": row["tip_force_N"]}, 0.7)
            for row in published("table_standards")["tipping_examples"]
        ),
        Case("chest_tip", "moments about the feet, computed here", {"mass_kg": 30, "behind_mm": 200, "drawers": 2,
             "drawer_kg": 8, "drawer_before_mm": 250, "pull_height_mm": 700}, {
             "With these drawers out and this pull": "it stands", "Moment that holds it": 30 * 9.81 * 0.2,
             "Moment that tips it": 2 * 8 * 9.81 * 0.25,
             "Pull that tips it, at that height": (30 * 0.2 - 16 * 0.25) * 9.81 / 0.7}, 1e-6),
    ]  # fmt: skip


def surface() -> list[Case]:
    sheets = {row["cls"]: row for row in published("finishing")["classes"]}
    water = sheets["waterborne polyurethane"]
    sizes = {row["grade"]: row["um"] for row in published("abrasives")["CAMI_grades"]}
    scales = [
        Case("grit_scales", f"CAMI {grade}", {"scale": "CAMI", "grit": int(grade)}, {
             "Nearest P grade": row["nearest_P"].removeprefix("P"), "Grain is about": sizes[grade]})
        for grade, row in published("abrasives")["nearest_P_for_CAMI"].items()
    ]  # fmt: skip
    gallon = {"finish": "waterborne_polyurethane", "area_m2": water["coverage_sqft_gal"][0] * SQ_FT, "coats": 1}
    return [
        *scales,
        Case("grits", "docstring's sequence; its ratios are checked below", {"start_grit": "120", "final_grit": "220",
             "area_m2": 2, "waterborne": "yes"}, {"Sand with": "P120, P150, P220",
             "Discs, all grits together": 9, "Raise the grain with water": "after P220"}),
        Case("finish_quantity", "data sheets, low end of coverage", {**gallon, "waste_pct": 0},
             {"Finish to buy": 3.785411784}, 0.02),
        Case("coat_times", "data sheets, waterborne", {"finish": "waterborne_polyurethane", "temp_c": 20, "rh_pct": 50},
             {"Next coat after": sum(water["recoat_h"]) / 2, "Light use after": water["light_use_h"],
              "Full use after": water["full_cure_days"][1] * 24}),
    ]  # fmt: skip


CASES = [*movement(), *air(), *wood(), *lumber(), *angles(), *glue(), *strength(), *surface()]


@pytest.mark.parametrize("case", CASES, ids=str)
def test_published_value(case: Case, work_out: Callable[..., Answer]) -> None:
    answer = work_out(case.key, **case.inputs)
    for label, value in case.lines.items():
        expected = value if isinstance(value, str) else pytest.approx(value, abs=case.within)
        assert answer[label] == expected, label


def test_every_working_is_checked() -> None:
    assert {case.key for case in CASES} | {"outdoor_year"} == set(KINDS)


@pytest.mark.parametrize("row", published("outdoor_moisture")["spot_checks_read"][:2], ids=lambda row: row["months"])
def test_months_of_a_city_that_were_read(row: dict[str, Any], work_out: Callable[..., Answer]) -> None:
    """Cheyenne: ranges over months, loose by 0.6 as the table says."""
    answer = work_out("outdoor_year", city="Cheyenne, WY")
    summer = slice(6, 10)
    year = answer.column("Wood")
    months = year[summer] if row["months"] == "Jul-Oct" else year[:6] + year[10:]
    assert all(row["low"] - 0.6 <= month <= row["high"] + 0.6 for month in months)


def test_grain_ratios_of_a_sequence(work_out: Callable[..., Answer]) -> None:
    ratios = {row["step"]: row["ratio"] for row in published("abrasives")["step_ratios"]}
    answer = work_out("grits", start_grit="60", final_grit="400")
    checked = 0
    for step, ratio in zip(answer.column("Step"), answer.column("Times finer"), strict=True):
        if step in ratios:
            assert ratio == pytest.approx(ratios[step], abs=0.0006)
            checked += 1
    assert checked


def test_ends_of_a_homes_year(work_out: Callable[..., Answer]) -> None:
    """The moistures of the published home example, in its driest and dampest months."""
    home = published("service_climate")["swing_example"]
    answer = work_out(
        "width_year", species="white oak", width_mm=1000, mc_built_pct=8, rh_dry_pct=25, rh_damp_pct=55, temp_c=21
    )
    assert min(answer.column("Wood")) == pytest.approx(home["EMC_winter"], abs=0.02)
    assert max(answer.column("Wood")) == pytest.approx(home["EMC_summer"], abs=0.02)
    assert len(answer.column("Month")) == 12


def test_a_thick_finished_top_lags_and_moves_less(work_out: Callable[..., Answer]) -> None:
    home = {"species": "white oak", "width_mm": 1000, "rh_dry_pct": 25, "rh_damp_pct": 55}
    at_once = work_out("width_year", **home)
    slow = work_out("width_year", **home, thickness_mm=22, finish="oil_polyurethane", coats=3)
    assert slow["Moves over the year by"] < at_once["Moves over the year by"]
    assert slow["Runs behind the air by"] > 24
    assert 0 < slow["Share of the air's swing it keeps"] < 100
