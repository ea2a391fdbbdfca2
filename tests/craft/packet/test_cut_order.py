"""The cut list of a board: right order, distances from the board's own end, nothing lost."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shopapi.craft.packet import Measures, Section, named_sections, ordered_cuts
from tests.craft.packet.scenario import KERF, NAMES, TREE, node


def test_sections_come_first_then_their_strips_then_the_parts():
    cuts = ordered_cuts(TREE, NAMES, KERF)
    assert [(c.number, c.kind, c.at_mm, c.within, c.frees, c.leaves) for c in cuts] == [
        (1, "crosscut", 1500, "board", "A", "Left side"),
        (2, "rip", 100, "A", "Desk top strip", ""),
        (3, "rip", 163, "A", "A1", "offcut"),
        (4, "crosscut", 700, "A1", "Rail", ""),
        (5, "crosscut", 1403, "A1", "Rail", "offcut"),
    ]


def test_lines_run_over_the_piece_that_is_cut():
    cuts = ordered_cuts(TREE, NAMES, KERF)
    assert (cuts[0].from_mm, cuts[0].to_mm) == (0, 200)
    assert (cuts[1].from_mm, cuts[1].to_mm) == (0, 1500)
    assert (cuts[3].from_mm, cuts[3].to_mm) == (103, 163)


def test_pieces_that_are_cut_again_carry_the_label_the_list_uses():
    assert named_sections(TREE) == (Section("A", 0, 0, 1500, 200), Section("A1", 0, 103, 1500, 60))
    assert {cut.within for cut in ordered_cuts(TREE, NAMES, KERF)} == {"board", "A", "A1"}


def test_offcuts_at_the_ends_that_only_trim_are_called_so():
    pieces = [
        node(0, 0, 22, 200, part=None),
        node(25, 0, 1000, 200, part="side"),
        node(1028, 0, 1344, 200, part="top"),
        node(2375, 0, 25, 200, part=None),
    ]
    tree = node(0, 0, 2400, 200, cut="crosscut", pieces=pieces)
    assert [(c.at_mm, c.frees, c.leaves) for c in ordered_cuts(tree, NAMES, KERF, end_trim_mm=28)] == [
        (22, "trim", ""),
        (1025, "Left side", ""),
        (2372, "Desk top strip", "trim"),
    ]
    assert ordered_cuts(tree, NAMES, KERF, end_trim_mm=10)[0].frees == "offcut"


def test_a_sliver_no_wider_than_the_kerf_stays_on_its_neighbour():
    pieces = [node(0, 0, 500, 50, part="rail"), node(505, 0, 300, 50, part="top"), node(811, 0, 187, 50, part="side")]
    tree = node(0, 0, 1000, 50, cut="crosscut", at=[500, 502, 805, 998], pieces=pieces)
    assert [(c.at_mm, c.frees, c.leaves) for c in ordered_cuts(tree, NAMES, KERF)] == [
        (500, "Rail", ""),
        (805, "Desk top strip", "Left side"),
    ]


def test_waste_that_no_node_stands_for_is_cut_off_all_the_same():
    tree = node(0, 0, 1000, 100, cut="crosscut", pieces=[node(200, 0, 300, 100, part="rail")])
    cuts = ordered_cuts(tree, NAMES, KERF)
    assert [(c.at_mm, c.frees, c.leaves) for c in cuts] == [(197, "waste", ""), (500, "Rail", "waste")]


def test_a_piece_that_fills_the_board_needs_no_cut():
    assert ordered_cuts(node(0, 0, 1000, 100, part="rail"), NAMES, KERF) == ()


def test_a_part_without_a_name_keeps_its_id():
    tree = node(0, 0, 1000, 100, cut="rip", pieces=[node(0, 0, 1000, 40, part="x9"), node(0, 43, 1000, 57, part=None)])
    assert ordered_cuts(tree, NAMES, KERF)[0].frees == "x9"


def test_a_tree_without_a_kind_of_cut_is_refused():
    with pytest.raises(ValueError, match="crosscut or a rip"):
        ordered_cuts(node(0, 0, 10, 10, cut="bend", pieces=[]), NAMES, KERF)


@given(st.lists(st.integers(20, 400), min_size=1, max_size=60), st.integers(1, 6))
def test_every_distance_is_from_the_end_so_roundings_do_not_add_up(lengths, kerf):
    x, pieces = 0, []
    for length in lengths:
        pieces.append(node(x, 0, length, 50, part="rail"))
        x += length + kerf
    cuts = ordered_cuts(node(0, 0, x + 100, 50, cut="crosscut", pieces=pieces), NAMES, kerf)
    assert [c.at_mm for c in cuts] == [piece["x"] + piece["length"] for piece in pieces]
    inches = Measures("inch", 16)
    for cut, piece in zip(cuts, pieces, strict=True):
        assert inches.length(cut.at_mm) == inches.length(float(piece["x"] + piece["length"]))


def test_many_sections_have_different_letters():
    pieces, x = [], 0
    for _ in range(60):
        pieces.append(
            node(x, 0, 50, 50, cut="rip", pieces=[node(x, 0, 50, 20, part="rail"), node(x, 23, 50, 27, part=None)])
        )
        x += 53
    cuts = ordered_cuts(node(0, 0, x - 3, 50, cut="crosscut", pieces=pieces), NAMES, KERF)
    labels = [c.within for c in cuts if c.kind == "rip"]
    assert len(set(labels)) == 60
    assert labels[25:28] == ["Z", "AA", "AB"]
