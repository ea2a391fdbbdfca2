"""Rough sizes, against the cases that the phone app runs too (tests/vectors/rough.json)."""

import json
from pathlib import Path
from typing import Any

import pytest

from shopapi.craft.rough import Allowances, RoughSize, rough_size

CASES = json.loads((Path(__file__).parents[1] / "vectors" / "rough.json").read_text(encoding="utf-8"))["cases"]


@pytest.mark.parametrize("case", CASES)
def test_blank_of_a_part(case: dict[str, Any]) -> None:
    extra = case["allowances"]
    allowances = Allowances(
        extra["extra_length_mm"], extra["extra_width_mm"], extra["extra_thickness_mm"], extra["joint_loss_mm"]
    )
    found = rough_size(**case["part"], allowances=allowances)
    wanted = RoughSize(**case["rough"])
    assert (found.length_mm, found.width_mm, found.count) == (wanted.length_mm, wanted.width_mm, wanted.count)
    assert found.thickness_mm == pytest.approx(wanted.thickness_mm)


@pytest.mark.parametrize(("length_mm", "strips"), [(0, 1), (-5, 1), (600, 0)])
def test_no_blank_of_no_part(length_mm: float, strips: int) -> None:
    with pytest.raises(ValueError, match="above 0"):
        rough_size(length_mm, 100, 20, Allowances(0, 0, 0, 0), strip_count=strips)
