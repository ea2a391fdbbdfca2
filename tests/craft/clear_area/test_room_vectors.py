"""The cases that the phone app searches its rack by (tests/vectors/clear_room.json), asked of the craft too."""

import json
from pathlib import Path

import pytest

from shopapi.craft.clear_area import clear_rectangles
from shopapi.craft.marks import KINDS, Rect, blocked_rect, parse_shape

VECTORS = json.loads((Path(__file__).parents[2] / "vectors" / "clear_room.json").read_text(encoding="utf-8"))


def spoilt(case, seen):
    rects = []
    for mark in case["marks"]:
        on_seen = mark["through"] or mark["face"] == seen
        if mark["blocks"] == "all" or (mark["blocks"] == "show" and on_seen):
            rect = blocked_rect(parse_shape(mark["shape"]), margin_mm=KINDS[mark["kind"]].margin_mm)
            trim = case["end_trim_mm"]
            rects.append(Rect(rect.x0_mm - trim, rect.y0_mm, rect.x1_mm - trim, rect.y1_mm))
    return rects


def test_margins_are_those_the_phone_counts_with():
    assert VECTORS["margins_mm"] == {key: kind.margin_mm for key, kind in KINDS.items()}


@pytest.mark.parametrize("case", VECTORS["cases"], ids=range(len(VECTORS["cases"])))
def test_room_is_found_where_there_is_room(case):
    length = case["length_mm"] - 2 * case["end_trim_mm"]
    for room in case["rooms"]:
        least = (room["length_mm"], room["width_mm"])
        found = any(
            clear_rectangles(length, case["width_mm"], spoilt(case, seen), most=1, least_mm=least) for seen in "AB"
        )
        assert found == room["fits"], least
