"""Squaring against OpenCV, against the shared vectors, and against its own properties."""

import json
from pathlib import Path

import cv2
import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from shopapi.craft import rectify

FRAMES = json.loads((Path(__file__).parents[2] / "vectors" / "frames.json").read_text(encoding="utf-8"))
REASONS = {
    "crossed": rectify.CornersCrossedError,
    "repeated": rectify.CornersRepeatedError,
    "in_line": rectify.CornersInLineError,
    "dented": rectify.CornersDentedError,
    "sides_swapped": rectify.SidesSwappedError,
    "board_size": rectify.BoardSizeError,
    "missing": rectify.CornersMissingError,
}


@pytest.mark.parametrize("case", FRAMES["views"], ids=lambda case: case["name"])
def test_vectors_of_opencv(case):
    """Source: cv2.getPerspectiveTransform and cv2.perspectiveTransform, OpenCV."""
    squaring = rectify.square_corners(case["corners_px"], case["length_mm"], case["width_mm"])
    photo = [pair["photo_px"] for pair in case["pairs"]]
    board = [pair["board_mm"] for pair in case["pairs"]]
    np.testing.assert_allclose(squaring.to_board_mm(photo), board, atol=1e-3)
    np.testing.assert_allclose(squaring.to_photo_px(board), photo, atol=1e-3)
    np.testing.assert_allclose(squaring.homography, case["homography"], rtol=1e-5, atol=1e-9)
    assert squaring.homography[2, 2] == 1
    assert squaring.residual_mm < 1e-6


@pytest.mark.parametrize("case", FRAMES["put_in_order"], ids=lambda case: case["name"])
def test_a_clockwise_round_is_put_right(case):
    ordered = rectify.corners_in_order(case["given_px"], case["length_mm"], case["width_mm"])
    assert ordered.tolist() == case["right_px"]


@pytest.mark.parametrize("case", FRAMES["refused"], ids=lambda case: case["reason"])
def test_refused_with_a_name(case):
    with pytest.raises(REASONS[case["reason"]]) as refusal:
        rectify.square_corners(case["corners_px"], case["length_mm"], case["width_mm"])
    assert len(str(refusal.value)) > 20


@pytest.mark.parametrize("size", [0, -1, float("nan"), float("inf"), 10_000_000, True, "2000", None])
@pytest.mark.parametrize("side", ["length", "width"])
def test_sizes_no_board_has(size, side):
    sizes = {"length_mm": 2000, "width_mm": 150, f"{side}_mm": size}
    with pytest.raises(rectify.BoardSizeError, match=side):
        rectify.corner_points_mm(**sizes)


@pytest.mark.parametrize(
    "points", [[[0, 0], [1, 1], [2, float("nan")], [0, 1]], [[0, 0, 0]] * 4, [["a", 1]] * 4, 7, [], [[1, 2], [3]]]
)
def test_points_that_are_none(points):
    with pytest.raises(rectify.CornersMissingError):
        rectify.square_corners(points, 2000, 150)


@st.composite
def cameras(draw):
    """A 3x4 camera looking at a board from a place a person could stand."""
    length = draw(st.floats(300, 4000))
    width = draw(st.floats(60, 600))
    x = draw(st.floats(-0.2, 1.2)) * length
    y = width / 2 + draw(st.floats(-2000, 2000))
    height = draw(st.floats(900, 2500))
    roll = draw(st.floats(0, 360))
    focal = draw(st.floats(1500, 4000))
    look = np.array([length / 2, width / 2, 0.0]) - (x, y, height)
    forward = look / np.linalg.norm(look)
    right = np.cross(forward, [0.3, 1, 0.1])
    right /= np.linalg.norm(right)
    down = np.cross(forward, right)
    c, s = np.cos(np.radians(roll)), np.sin(np.radians(roll))
    turn = np.array([c * right + s * down, c * down - s * right, forward])
    corners = np.array([(0, 0, 0), (length, 0, 0), (length, width, 0), (0, width, 0)])
    assume(((corners - (x, y, height)) @ forward > 150).all())  # the whole board lies before the lens
    k = np.array([[focal, 0, 2000], [0, focal, 1500], [0, 0, 1.0]])
    camera = k @ np.column_stack([turn, -turn @ [x, y, height]])
    corners = np.column_stack([rectify.corner_points_mm(length, width), np.zeros(4), np.ones(4)])
    depths = corners @ camera[2]
    assume(depths.min() > 0.02 * depths.max())  # the whole board lies before the camera
    return camera, length, width


def seen(camera, points_mm):
    world = np.column_stack([points_mm, np.zeros(len(points_mm)), np.ones(len(points_mm))])
    moved = world @ camera.T
    assert (moved[:, 2] > 0).all()
    return moved[:, :2] / moved[:, 2:]


@settings(deadline=None)
@given(cameras(), st.lists(st.tuples(st.floats(0, 1), st.floats(0, 1)), min_size=1, max_size=8))
def test_marks_land_where_a_pinhole_saw_them(view, places):
    camera, length, width = view
    places_mm = np.array(places) * (length, width)
    corners_px = seen(camera, rectify.corner_points_mm(length, width))
    squaring = rectify.square_corners(corners_px, length, width)
    np.testing.assert_allclose(squaring.to_board_mm(seen(camera, places_mm)), places_mm, atol=1e-3)
    there_and_back = squaring.to_board_mm(squaring.to_photo_px(places_mm))
    np.testing.assert_allclose(there_and_back, places_mm, atol=1e-6)


@settings(deadline=None)
@given(cameras(), st.integers(0, 2**32 - 1), st.integers(5, 12))
def test_more_points_are_least_squares_in_the_photo(view, seed, count):
    """Source: cv2.findHomography(method=0), which also minimises the reprojection error."""
    camera, length, width = view
    rng = np.random.default_rng(seed)
    corners = rectify.corner_points_mm(length, width)
    extra = np.column_stack([rng.uniform(0, length, count - 4), rng.choice([0, width], count - 4)])
    points_mm = np.concatenate([corners, extra])
    points_px = seen(camera, points_mm) + rng.normal(0, 0.4, (count, 2))
    squaring = rectify.square(points_px, points_mm)
    back = squaring.to_photo_px(points_mm)
    ours = ((back - points_px) ** 2).sum()
    theirs_h, _ = cv2.findHomography(points_mm, points_px, 0)
    theirs = ((cv2.perspectiveTransform(points_mm[None], theirs_h)[0] - points_px) ** 2).sum()
    assert ours <= theirs * (1 + 1e-6) + 1e-9
    assert squaring.residual_mm == pytest.approx(
        np.sqrt((np.hypot(*(squaring.to_board_mm(points_px) - points_mm).T) ** 2).mean())
    )


def test_collinear_reference_points_are_refused():
    along = np.column_stack([np.linspace(0, 1000, 6), np.linspace(5, 60, 6)])
    with pytest.raises(rectify.CornersInLineError):
        rectify.square(along, along * 2)


def test_two_sets_of_different_length_are_refused():
    with pytest.raises(rectify.CornersMissingError, match="5 points"):
        rectify.square(np.ones((5, 2)), np.ones((4, 2)))


@given(st.integers(0, 2**32 - 1), st.integers(4, 9))
@settings(deadline=None)
def test_points_thrown_at_random_are_squared_or_refused_by_name(seed, count):
    """Never NaN, never an error of the arithmetic."""
    rng = np.random.default_rng(seed)
    photo, board = rng.uniform(0, 3000, (count, 2)), rng.uniform(0, 2000, (count, 2))
    try:
        squaring = rectify.square(photo, board)
    except rectify.RectifyError:
        return
    assert np.isfinite(squaring.homography).all()
    assert np.isfinite(squaring.residual_mm)


def test_a_point_beyond_the_horizon_is_refused():
    squaring = rectify.square_corners([(0, 1000), (1000, 1000), (600, 500), (400, 500)], 1000, 500)
    with pytest.raises(rectify.BeyondHorizonError):
        squaring.to_board_mm([(500, -5000)])


def test_horizon_through_the_photos_corner_still_has_a_matrix():
    """There the customary last element 1 does not exist."""
    homography = np.array([[1.0, 0.2, 3], [0.1, 1.5, 7], [0.001, 0.002, 0]])
    photo = np.array([(100, 900), (900, 800), (950, 300), (120, 200.0)])
    board = rectify.apply_homography(homography, photo)
    squaring = rectify.square(photo, board)
    np.testing.assert_allclose(squaring.to_board_mm(photo), board, rtol=1e-9)
