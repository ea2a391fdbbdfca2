"""Boards of the generator: the same from the same seed, both faces of one log, and the truth they tell."""

import numpy as np
import pytest

from shopapi.craft import marks
from shopapi.demo.sawn import draw_board

LENGTH, WIDTH = 900.0, 160.0


@pytest.fixture(scope="module")
def knotty():
    return draw_board(21, "white oak", LENGTH, WIDTH, sawn="flat", knots=3, cracks=2, mm_per_px=1.0)


def darkness(board, face, shape):
    """Mean grey inside a shape's bounds on a face's picture."""
    seen = shape if face == "A" else marks.mirror_across(shape, board.width_mm)
    rect = marks.bounds(seen)
    mm = board.mm_per_px
    rows = slice(max(0, int((board.width_mm - rect.y1_mm) / mm)), int((board.width_mm - rect.y0_mm) / mm) + 1)
    columns = slice(max(0, int(rect.x0_mm / mm)), int(rect.x1_mm / mm) + 1)
    return board.face(face)[rows, columns].mean()


def test_the_same_seed_gives_the_same_board(knotty):
    again = draw_board(21, "white oak", LENGTH, WIDTH, sawn="flat", knots=3, cracks=2, mm_per_px=1.0)
    other = draw_board(22, "white oak", LENGTH, WIDTH, sawn="flat", knots=3, cracks=2, mm_per_px=1.0)
    assert np.array_equal(knotty.face_a, again.face_a)
    assert knotty.flaws == again.flaws
    assert not np.array_equal(knotty.face_a, other.face_a)


@pytest.mark.parametrize("species", ["white oak", "hard maple", "cherry", "walnut"])
@pytest.mark.parametrize("sawn", ["flat", "rift", "quarter"])
def test_every_wood_every_cut_and_every_flaw_lies_on_its_board(species, sawn):
    board = draw_board(
        5, species, LENGTH, WIDTH, sawn=sawn, knots=2, cracks=2, sap=True, worm_holes=True, curl=True, streak=True
    )
    assert board.face_a.shape == board.face_b.shape == (200, 1125, 3)
    assert board.face_a.std() > 3
    for flaw in board.flaws:
        marks.check_inside(flaw.shape, LENGTH, WIDTH)
        assert marks.parse_shape(marks.shape_to_dict(flaw.shape)) == flaw.shape
        assert marks.kind_of(flaw.kind)


def test_knots_go_through_and_are_dark_where_the_truth_says(knotty):
    through = {flaw.number for flaw in knotty.flaws if flaw.kind == "knot" and flaw.through}
    assert len(through) == 3
    for flaw in knotty.flaws:
        if flaw.kind != "knot":
            continue
        assert darkness(knotty, flaw.face, flaw.shape) < knotty.face(flaw.face).mean() - 8
    for number in through:
        a, b = (flaw.shape for flaw in knotty.flaws if flaw.number == number)
        assert abs(a.cx_mm - b.cx_mm) < 40  # a branch leans: over 27 mm it cannot wander far
        assert abs(a.cy_mm - b.cy_mm) < 40
        assert a.rx_mm > b.rx_mm  # face A lies farther from the pith, where the branch is thicker


def test_a_check_is_a_dark_line_where_the_truth_says(knotty):
    for flaw in knotty.flaws:
        if flaw.kind in {"check", "split"}:
            x, y = flaw.shape.points[0]
            at_end = marks.Ellipse(x + (8 if x < 1 else -8), y, 6, 1.5)
            assert darkness(knotty, flaw.face, at_end) < knotty.face(flaw.face).mean() - 25


def test_wane_shows_on_the_bark_side_first():
    board = draw_board(3, "white oak", LENGTH, WIDTH, sawn="flat", knots=0, wane=True)
    area = {
        face: sum(marks.outline_area_mm2(f.shape) for f in board.flaws_on(face) if f.kind == "wane") for face in "AB"
    }
    assert area["A"] > area["B"]


def test_sapwood_is_paler_than_heartwood():
    board = draw_board(8, "black walnut", LENGTH, WIDTH, sawn="flat", knots=0, sap=True)
    pale = [flaw for flaw in board.flaws_on("A") if flaw.kind == "sapwood"]
    assert pale
    for flaw in pale:
        assert darkness(board, "A", flaw.shape) > board.face_a.mean()


def test_an_unknown_wood_names_the_known():
    with pytest.raises(ValueError, match="white oak"):
        draw_board(1, "purple oak", LENGTH, WIDTH)
