"""Cuts by machine set-up, counted against the trees they come from."""

from collections import Counter
from typing import Any

from shopapi.craft.packet import Measures, setups
from tests.craft.packet.scenario import node

METRIC = Measures("metric")


def leaf(x: float, y: float, length: float, width: float, part: str | None = None) -> dict[str, Any]:
    return node(x, y, length, width, part=part)


def strip(x: float, y: float, length: float, width: float, *pieces: dict[str, Any]) -> dict[str, Any]:
    return node(x, y, length, width, cut="crosscut", pieces=list(pieces))


# A section crosscut off, ripped into two strips, each crosscut; and a board that is only ripped.
TREE = node(
    0, 0, 2400, 200, cut="crosscut",
    pieces=[
        node(
            0, 0, 1300, 200, cut="rip",
            pieces=[
                strip(0, 0, 1300, 90, leaf(0, 0, 600, 90, "rail"), leaf(603, 0, 600, 90, "rail")),
                strip(0, 93, 1300, 90, leaf(0, 93, 600, 90, "rail"), leaf(603, 93, 697, 90)),
            ],
        ),
        leaf(1303, 0, 1097, 200),
    ],
)  # fmt: skip
RIPPED = node(0, 0, 900, 190, cut="rip", pieces=[leaf(0, 0, 900, 90, "side"), leaf(0, 93, 900, 97)])
NAMES = {"rail": "Rail", "side": "Side"}


def test_equal_settings_of_all_boards_are_one_set_up():
    found = setups([("B1", TREE), ("B2", RIPPED)], NAMES, METRIC)
    assert [(each.turn, each.kind, each.size_mm, each.count) for each in found] == [
        (1, "crosscut", 1300, 1),
        (2, "rip", 90, 3),
        (3, "crosscut", 600, 3),
    ]
    assert [(piece.board, piece.within, piece.what) for piece in found[1].pieces] == [
        ("B1", "A", (("A1", 1), ("A2", 1))),
        ("B2", "board", (("Side", 1),)),
    ]
    assert found[2].pieces[0].what == (("Rail", 2),)


def test_every_part_is_freed_once():
    freed: Counter[str] = Counter()
    for each in setups([("B1", TREE), ("B2", RIPPED)], NAMES, METRIC):
        for piece in each.pieces:
            freed.update(dict(piece.what))
    assert (freed["Rail"], freed["Side"]) == (3, 1)


def test_sizes_that_a_tape_cannot_tell_apart_share_a_setting():
    close = node(0, 0, 900, 190, cut="rip", pieces=[leaf(0, 0, 900, 90.4, "side"), leaf(0, 94, 900, 90, "side")])
    (only,) = setups([("B1", close)], NAMES, Measures("inch", 16))
    assert (only.count, only.size_mm) == (2, 90.4)
    assert len(setups([("B1", close)], NAMES, Measures("inch", 16))) == 1


def test_no_board_no_set_up():
    assert setups([], {}, METRIC) == ()
    assert setups([("B1", leaf(0, 0, 100, 100, "side"))], NAMES, METRIC) == ()
