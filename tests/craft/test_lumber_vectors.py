"""The tallies that the phone app reckons at the dealer's (tests/vectors/lumber.json), asked of the craft too."""

import json
from pathlib import Path

import pytest

from shopapi.craft.measures import board_feet, rough_thickness_mm, surface_measure, volume_board_feet

CASES = json.loads((Path(__file__).parents[1] / "vectors" / "lumber.json").read_text(encoding="utf-8"))["cases"]


@pytest.mark.parametrize("case", CASES, ids=range(len(CASES)))
def test_board_is_tallied_as_on_the_phone(case):
    measure = surface_measure(case["length_mm"], case["width_mm"])
    assert measure == case["surface_measure"]
    assert board_feet(measure, case["quarters"]) == pytest.approx(case["board_feet"])
    thickness = rough_thickness_mm(case["quarters"])
    exact = volume_board_feet(case["length_mm"], case["width_mm"], thickness)
    assert exact == pytest.approx(case["volume_board_feet"])
    assert case["length_mm"] * case["width_mm"] * thickness / 1e9 == pytest.approx(case["volume_m3"])
