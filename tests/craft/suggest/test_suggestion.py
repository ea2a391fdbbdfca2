"""Suggested marks on wood drawn with known flaws, and on wood that has none."""

import cv2
import numpy as np
import pytest

from shopapi.craft.limits import OutOfRangeError
from shopapi.craft.marks import bounds, check_inside
from shopapi.craft.rectify import PictureError
from shopapi.craft.suggest import suggest_marks
from shopapi.demo.sawn import draw_board

LENGTH, WIDTH, MM = 1500, 200, 0.8


def clear_wood(seed=0):
    rng = np.random.default_rng(seed)
    size = (round(WIDTH / MM), round(LENGTH / MM))
    streaks = cv2.GaussianBlur(rng.normal(0, 1, size), (0, 0), sigmaX=120, sigmaY=1.5)
    pores = cv2.GaussianBlur(rng.normal(0, 1, size), (0, 0), sigmaX=3, sigmaY=0.6)
    grey = 170 + 9 * streaks / streaks.std() + 5 * pores / pores.std()
    return np.clip(grey[..., None] * np.array([0.66, 0.84, 1.0]), 0, 255).astype(np.uint8)


def flawed():
    """A knot at (600, 70), a check from the butt end at y = 120, bark on the upper edge from 900 to 1200."""
    wood = clear_wood()
    cv2.ellipse(wood, (round(600 / MM), round(130 / MM)), (round(14 / MM), round(9 / MM)), 0, 0, 360, (30, 45, 60), -1)
    cv2.line(wood, (0, round(80 / MM)), (round(90 / MM), round(81 / MM)), (40, 50, 60), 2)
    wood[: round(12 / MM), round(900 / MM) : round(1200 / MM)] = (25, 32, 40)
    return cv2.GaussianBlur(wood, (0, 0), 0.7)


def test_each_flaw_is_suggested_where_it_is():
    found = {each.kind: each for each in suggest_marks(flawed(), MM)}
    assert sorted(found) == ["check", "knot", "wane"]
    assert len(suggest_marks(flawed(), MM)) == 3
    knot, check, wane = (bounds(found[kind].shape) for kind in ("knot", "check", "wane"))
    assert (knot.x0_mm, knot.y0_mm, knot.x1_mm, knot.y1_mm) == pytest.approx((586, 61, 614, 79), abs=4)
    assert check.x0_mm < 8
    assert check.x1_mm == pytest.approx(90, abs=15)
    assert (check.y0_mm + check.y1_mm) / 2 == pytest.approx(120, abs=3)
    assert (wane.x0_mm, wane.x1_mm, wane.y0_mm, wane.y1_mm) == pytest.approx((900, 1200, 188, 200), abs=6)


@pytest.mark.parametrize("seed", range(4))
def test_clear_wood_suggests_nothing(seed):
    assert suggest_marks(clear_wood(seed), MM) == ()


def test_the_same_picture_lit_otherwise_suggests_the_same():
    wood = flawed()
    dimmed = (wood * np.linspace(0.6, 1.0, wood.shape[1])[None, :, None]).astype(np.uint8)
    kinds = [sorted(each.kind for each in suggest_marks(picture, MM)) for picture in (wood, dimmed)]
    assert kinds[0] == kinds[1]


def test_keys_tell_suggestions_apart_and_stay():
    first, again = suggest_marks(flawed(), MM), suggest_marks(flawed(), MM)
    assert first == again
    assert len({each.key for each in first}) == len(first)


def test_the_strongest_come_first_and_lie_on_the_board():
    found = suggest_marks(flawed(), MM)
    assert [each.score for each in found] == sorted((each.score for each in found), reverse=True)
    for each in found:
        assert 0 < each.score <= 1
        check_inside(each.shape, LENGTH, WIDTH)


@pytest.mark.parametrize(("seed", "species"), [(21, "sugar maple"), (22, "black cherry"), (23, "white oak")])
def test_knots_of_drawn_boards_are_found(seed, species):
    board = draw_board(seed, species, 1800, 220, knots=3, cracks=0, streak=False, sap=False, mm_per_px=0.8)
    found = [bounds(each.shape) for each in suggest_marks(board.face_a[:, :, ::-1], 0.8) if each.kind == "knot"]
    true = [bounds(flaw.shape) for flaw in board.flaws_on("A") if flaw.kind == "knot"]
    middles = [((rect.x0_mm + rect.x1_mm) / 2, (rect.y0_mm + rect.y1_mm) / 2) for rect in found]
    for knot in true:
        assert any(knot.x0_mm - 3 <= x <= knot.x1_mm + 3 and knot.y0_mm - 3 <= y <= knot.y1_mm + 3 for x, y in middles)
    assert len(found) <= 2 * len(true) + 2


def test_pictures_of_any_size_and_grey_ones():
    for shape in ((1, 1, 3), (3, 500, 3), (400, 2, 3), (50, 60)):
        suggest_marks(np.full(shape, 150, np.uint8), 1.0)
    grey = cv2.cvtColor(flawed(), cv2.COLOR_BGR2GRAY)
    assert {each.kind for each in suggest_marks(grey, MM)} == {"knot", "check", "wane"}


def test_what_cannot_be_is_refused():
    with pytest.raises(PictureError):
        suggest_marks(np.zeros((4, 4, 3)), 1.0)
    for scale in (0, -1, float("nan")):
        with pytest.raises(OutOfRangeError):
            suggest_marks(clear_wood(), scale)
