"""Instances in, answers out; the reference racks where they are at hand."""

from __future__ import annotations

import json
import os
from pathlib import Path

import pytest

from shopapi.craft.layout import Flaw, LayoutError, Rules, solve
from shopapi.craft.layout.instances import read_instance, write_answer
from tests.craft.layout.checker import complaints

REFERENCE = Path(os.environ.get("REFERENCE_DIR", Path(__file__).parents[4] / "shared" / "reference"))
RACKS = sorted((REFERENCE / "racks").glob("rack-*.json"))


def instance(**changes):
    data = {
        "kerf": 3,
        "trims": {"left": 20, "right": 15, "bottom": 0, "top": 0},
        "allowance": {"length": 10, "width": 5},
        "stages": 3,
        "first_cut": "crosscut",
        "cut_type": "exact",
        "cut_through_defects": True,
        "boards": [{"id": "B01", "length": 900, "width": 90, "defects": [{"x": 400, "y": 10, "w": 30, "h": 20}]}],
        "parts": [{"id": "P001", "name": "leg", "length": 300, "width": 70, "qty": 2, "value": 210}],
    }
    return {**data, **changes}


def test_fields_become_the_problem():
    problem = read_instance(instance())
    assert problem.stocks[0].flaws == (Flaw(400, 10, 30, 20),)
    wanted = problem.wanted[0]
    assert (wanted.length, wanted.width, wanted.quantity, wanted.value) == (310, 75, 2, 210)
    assert problem.rules == Rules(3, 20, 15, 0, 0, "exact", 3, "crosscut")


def test_answer_is_the_agreed_json():
    data = json.loads(json.dumps(write_answer(solve(read_instance(instance()), 60, work=50_000))))
    assert data["value"] == 420
    assert data["proved_best"] is True
    assert data["unplaced"] == []
    assert {"board", "part", "x", "y", "length", "width"} <= set(data["placements"][0])
    assert [(p["length"], p["width"]) for p in data["placements"]] == [(310, 75)] * 2
    assert data["cuts"]["B01"]["cut"] == "crosscut"


@pytest.mark.parametrize(
    ("changes", "words"),
    [
        ({"boards": []}, "no board"),
        ({"boards": "B01"}, "'boards' must be a list"),
        ({"boards": [7]}, "entry 1 of 'boards' must be an object"),
        ({"boards": [{"id": "B01", "width": 90}]}, "Board B01 has no 'length'"),
        ({"boards": [{"id": "B01", "length": 9.5, "width": 90}]}, "whole number"),
        ({"boards": [{"id": "B", "length": 9, "width": 9, "defects": [{"x": 1}]}]}, "has no 'y'"),
        ({"parts": []}, "no part"),
        ({"parts": [{"id": "P1", "length": 300}]}, "Part P1 has no 'width'"),
        ({"parts": [{"id": "P1", "length": "300", "width": 7, "qty": 1, "value": 1}]}, "millimetres"),
        ({"cut_type": "torn"}, "'cut_type' must be one of"),
        ({"cut_through_defects": False}, "may not pass through a defect"),
        ({"kerf": None}, "Kerf must be a whole number"),
        ({"trims": 7}, "'trims' must be an object"),
        ({"stages": 9}, "stages must be from 2 to 3"),
        ({"first_cut": "saw"}, "First cut must be one of"),
    ],
)
def test_a_broken_instance_is_refused_in_words(changes, words):
    with pytest.raises(LayoutError, match=words):
        read_instance(instance(**changes))


def test_an_instance_that_is_no_object_is_refused():
    with pytest.raises(LayoutError, match="must be an object"):
        read_instance([1, 2])


@pytest.mark.skipif(not RACKS, reason=f"the reference racks are not at {REFERENCE} (set REFERENCE_DIR)")
@pytest.mark.parametrize("path", RACKS, ids=lambda p: p.stem)
@pytest.mark.parametrize("cut_type", ["exact", "trimmed"])
def test_reference_rack_is_laid_out_soundly(path, cut_type):
    problem = read_instance({**json.loads(path.read_text()), "cut_type": cut_type})
    answer = solve(problem, 120, work=300_000)
    assert complaints(problem, answer) == []
    first_fit = json.loads((path.parent / "anchor_results.json").read_text())["racks"][path.stem]
    assert first_fit["first_fit_not_guillotine"] < answer.value <= answer.bound
