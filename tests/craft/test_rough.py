"""Rough sizes, against the cases that the phone app runs too (tests/vectors/rough.json)."""

import json
from pathlib import Path
from typing import Any

import pytest

from shopapi.craft.rough import Allowances, RoughSize, blanks_for, rough_size

VECTORS = json.loads((Path(__file__).parents[1] / "vectors" / "rough.json").read_text(encoding="utf-8"))
CASES = VECTORS["cases"]


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


@pytest.mark.parametrize("case", VECTORS["blanks"])
def test_as_many_blanks_as_hold_the_pieces(case: dict[str, int]) -> None:
    assert blanks_for(case["pieces"], case["holds"]) == case["blanks"]


@pytest.mark.parametrize(
    ("blank", "words"),
    [
        ({"blank_length_mm": 600}, "a length and a width"),
        ({"blank_length_mm": 599, "blank_width_mm": 150}, "as large as one part"),
        ({"blank_length_mm": 600, "blank_width_mm": 99}, "as large as one part"),
        ({"blank_length_mm": 600, "blank_width_mm": 150, "strip_count": 2}, "no blank"),
    ],
)
def test_blanks_that_hold_no_part(blank: dict[str, Any], words: str) -> None:
    with pytest.raises(ValueError, match=words):
        rough_size(600, 100, 20, Allowances(0, 0, 0, 0), **blank)


@pytest.mark.parametrize(("pieces", "holds"), [(-1, 2), (4, 0)])
def test_no_blanks_for_fewer_than_none(pieces: int, holds: int) -> None:
    with pytest.raises(ValueError, match="at least one piece"):
        blanks_for(pieces, holds)
