"""Pieces laid by hand are judged as the independent checker judges them; the phone runs the same cases."""

import json
from typing import Any

import pytest

from shopapi.boards.models import Board
from shopapi.craft.layout import Placement, Problem, Rules, Wanted, check
from shopapi.layouts.questions import stock_of
from shopapi.marks.models import Mark
from tests.conftest import REPOSITORY

CASES = json.loads((REPOSITORY / "tests" / "vectors" / "laid_by_hand.json").read_text("utf-8"))["cases"]


@pytest.mark.parametrize("case", CASES, ids=range(len(CASES)))
def test_pieces_are_judged_alike(case: dict[str, Any]) -> None:
    size = {key: case["board"][key] for key in ("length_mm", "width_mm")}
    stock = stock_of(Board(**size), [Mark(**mark) for mark in case["board"]["marks"]])
    wanted, placements = [], []
    for number, piece in enumerate(case["pieces"]):
        along, across = piece["length_mm"], piece["width_mm"]
        wanted.append(Wanted(str(number), along, across, 1, 1, clean_faces=piece["shows"]))
        placements.append(Placement(stock.id, str(number), piece["x_mm"], piece["y_mm"], along, across, piece["face"]))
    rules = Rules(kerf=case["kerf"], trim_left=case["end_trim"], trim_right=case["end_trim"])
    found: list[set[str]] = [set() for _ in placements]
    for illegal in check(Problem((stock,), tuple(wanted), rules), placements):
        found[illegal.piece].add(illegal.why)
    assert any("not_sawable" in why for why in found) is not case["sawable"]
    assert [sorted(why - {"not_sawable"}) for why in found] == case["why"]
