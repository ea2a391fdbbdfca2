"""Photographs of known boards from random places: where marks land when corners are exact, and when they slip."""

import io

import cv2
import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from PIL import Image

from shopapi.boards.photographs import read_upload, square_photo
from shopapi.craft import marks, rectify
from shopapi.demo.sawn import draw_board, photograph

LENGTH, WIDTH = 3000.0, 210.0


@pytest.fixture(scope="module")
def board():
    return draw_board(31, "white oak", LENGTH, WIDTH, sawn="flat", knots=4, cracks=2, sap=True, mm_per_px=2.0)


def places_of(flaws, face):
    """The points of every flaw, as seen on the face."""
    points = []
    for flaw in flaws:
        shape = flaw.shape if face == "A" else marks.mirror_across(flaw.shape, WIDTH)
        points += [(shape.cx_mm, shape.cy_mm)] if isinstance(shape, marks.Ellipse) else shape.points
    return np.array(points)


@settings(max_examples=25, deadline=None)
@given(st.integers(0, 2**31), st.sampled_from("AB"))
def test_a_mark_lands_within_3_mm_on_a_3_m_board(board, seed, face):
    """The camera is a 3x4 pinhole that knows nothing of homographies; corners exact to 1/100 px of a phone's 4000."""
    photo = photograph(board, face, seed, size=(1000, 750))
    places = places_of(board.flaws_on(face), face)
    squaring = rectify.square_corners(photo.corners_px, LENGTH, WIDTH)
    assert np.hypot(*(squaring.to_board_mm(photo.see(places)) - places).T).max() < 0.01
    rounded = rectify.square_corners((photo.corners_px * 400).round() / 400, LENGTH, WIDTH)
    assert np.hypot(*(rounded.to_board_mm(photo.see(places)) - places).T).max() < 3


@settings(max_examples=10, deadline=None)
@given(st.integers(0, 2**31))
def test_the_whole_board_is_in_the_picture(board, seed):
    photo = photograph(board, "A", seed, size=(800, 600))
    assert (photo.corners_px > 4).all()
    assert (photo.corners_px < (796, 596)).all()
    # in the order of every corner list: no putting right is needed
    assert np.array_equal(rectify.corners_in_order(photo.corners_px, LENGTH, WIDTH), photo.corners_px)


def test_two_pixels_of_slip_cost_what_is_reported(board, record_property):
    """At 12 MP size, corners off by 2 px in random directions: the error stays under slip_mm."""
    photo = photograph(board, "A", 4, size=(4000, 3000))
    places = places_of(board.flaws_on("A"), "A")
    rng = np.random.default_rng(0)
    errors = []
    for _ in range(200):
        angles = rng.uniform(0, 2 * np.pi, 4)
        slipped = photo.corners_px + 2 * np.column_stack([np.cos(angles), np.sin(angles)])
        landed = rectify.square_corners(slipped, LENGTH, WIDTH).to_board_mm(photo.see(places))
        errors.append(np.hypot(*(landed - places).T).max())
    worst = rectify.slip_mm(photo.corners_px, LENGTH, WIDTH)
    record_property("slip_mm", worst)
    record_property("median_error_mm", float(np.median(errors)))
    assert max(errors) <= worst * 1.03
    assert np.median(errors) > worst / 20


@pytest.mark.parametrize("face", ["A", "B"])
def test_the_squared_picture_is_the_face_again(board, face):
    """Drawn, photographed, squared: the wood's own pattern lies within 3 mm of where it was drawn, all along."""
    photo = photograph(board, face, 9, size=(3200, 2400))
    data = io.BytesIO()
    Image.fromarray(photo.image).save(data, "JPEG", quality=92)
    made = square_photo(read_upload(data.getvalue()).upright, photo.corners_px, LENGTH, WIDTH, greatest_px=1500)
    squared = np.asarray(Image.open(io.BytesIO(made.jpeg)).convert("L"), np.float32)
    drawn = cv2.cvtColor(board.face(face), cv2.COLOR_RGB2GRAY)
    drawn = cv2.resize(drawn, squared.shape[::-1], interpolation=cv2.INTER_AREA).astype(np.float32)
    for start in range(0, 1500 - 300, 150):
        window = np.s_[6:-6, start : start + 300]
        a, b = squared[window], drawn[window]
        a, b = a - cv2.GaussianBlur(a, (0, 0), 20), b - cv2.GaussianBlur(b, (0, 0), 20)
        (dx, dy), response = cv2.phaseCorrelate(a, b)
        assert response > 0.05
        assert np.hypot(dx, dy) * made.mm_per_px < 3
