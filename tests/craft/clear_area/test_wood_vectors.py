"""The clear wood that the phone app draws (tests/vectors/clear_wood.json), asked of the craft too."""

import json
from pathlib import Path

import pytest

from shopapi.craft.clear_area import clear_face
from shopapi.craft.grading.marking import GradeMark
from shopapi.craft.grading.rules import NOT_CLEAR
from shopapi.craft.marks import parse_shape

VECTORS = json.loads((Path(__file__).parents[2] / "vectors" / "clear_wood.json").read_text(encoding="utf-8"))


def test_phone_counts_the_same_kinds_as_spoilt():
    assert VECTORS["not_clear"] == sorted(NOT_CLEAR)


@pytest.mark.parametrize("face", ["A", "B"])
@pytest.mark.parametrize("case", VECTORS["cases"], ids=range(len(VECTORS["cases"])))
def test_face_has_the_clear_wood_that_trying_everything_finds(case, face):
    marks = [
        GradeMark(mark["kind"], mark["face"], parse_shape(mark["shape"]), mark["through"]) for mark in case["marks"]
    ]
    found = clear_face(case["length_mm"], case["width_mm"], marks, face, most=4)
    rectangles = [[r.x0_mm, r.y0_mm, r.x1_mm - r.x0_mm, r.y1_mm - r.y0_mm] for r in found.rectangles]
    assert rectangles == case["faces"][face]["rectangles"]
    assert found.clear_share == pytest.approx(case["faces"][face]["clear_share"], abs=0.003)
