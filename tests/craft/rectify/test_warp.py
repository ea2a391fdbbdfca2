"""The squared picture: size, orientation and place of what it shows."""

import cv2
import numpy as np
import pytest

from shopapi.craft import rectify

LENGTH, WIDTH = 1200, 300
CORNERS = np.array([(150.5, 700.25), (1500, 640), (1320.75, 320), (260.5, 350)])


def photo_with_dots(places_mm, size=(1700, 1000)):
    """A grey photo with a bright blob at each place on the board."""
    squaring = rectify.square_corners(CORNERS, LENGTH, WIDTH)
    photo = np.full((size[1], size[0]), 60, np.uint8)
    for x, y in squaring.to_photo_px(places_mm):
        # drawn with 1/16 px steps; cv2 centres pixels on whole numbers, our photos span them
        cv2.circle(photo, (round((x - 0.5) * 16), round((y - 0.5) * 16)), 4 * 16, 255, -1, cv2.LINE_AA, 4)
    return photo, squaring


def test_marks_keep_their_millimetres():
    places = np.array([(40.0, 30), (40, 270), (600, 150), (1160, 30), (1160, 270)])
    photo, squaring = photo_with_dots(places)
    picture, mm_per_px = rectify.warp(photo, squaring, LENGTH, WIDTH)
    _, _, _, centres = cv2.connectedComponentsWithStats((picture > 150).astype(np.uint8))
    found = np.array([((x + 0.5) * mm_per_px, WIDTH - (y + 0.5) * mm_per_px) for x, y in centres[1:]])
    assert len(found) == len(places)
    for place in places:
        assert np.hypot(*(found - place).T).min() < 0.6


def test_size_and_scale_fit_the_board():
    photo, squaring = photo_with_dots([(600, 150)])
    picture, mm_per_px = rectify.warp(photo, squaring, LENGTH, WIDTH, greatest_px=700)
    assert picture.shape[1] == 700
    assert picture.shape[1] * mm_per_px == pytest.approx(LENGTH)
    assert 0 <= picture.shape[0] * mm_per_px - WIDTH < mm_per_px


def test_never_finer_than_the_photo():
    photo, squaring = photo_with_dots([(600, 150)])
    _, mm_per_px = rectify.warp(photo, squaring, LENGTH, WIDTH, greatest_px=20000)
    assert mm_per_px == pytest.approx(rectify.finest_mm_per_px(squaring, LENGTH, WIDTH), rel=0.01)


def test_butt_end_left_upper_edge_on_top():
    """An upside-down photo comes out the right way up."""
    photo = np.zeros((400, 1000, 3), np.uint8)
    photo[:200, 500:] = (0, 0, 255)  # in an upside-down photo the butt end's lower corner lies upper right
    squaring = rectify.square_corners([(1000, 0), (0, 0), (0, 400), (1000, 400)], 1000, 400)
    picture, _ = rectify.warp(photo, squaring, 1000, 400)
    assert picture.shape == (400, 1000, 3)
    assert picture[390, 10, 2] == 255
    assert picture[10, 10].max() == picture[10, 990].max() == picture[390, 990].max() == 0


def test_averages_rather_than_shimmers():
    """A photo of fine stripes squared small is even grey."""
    photo = np.zeros((800, 2400), np.uint8)
    photo[:, ::2] = 200
    squaring = rectify.square_corners([(0, 800), (2400, 800), (2400, 0), (0, 0)], 2400, 800)
    picture, _ = rectify.warp(photo, squaring, 2400, 800, greatest_px=270)
    assert picture[5:-5, 5:-5].std() < 10  # the stripes themselves: 100


def test_a_wide_board_is_limited_by_its_width():
    photo = np.zeros((900, 300), np.uint8)
    squaring = rectify.square_corners([(0, 900), (300, 900), (300, 0), (0, 0)], 300, 900)
    picture, _ = rectify.warp(photo, squaring, 300, 900, greatest_px=90)
    assert picture.shape == (90, 30)


@pytest.mark.parametrize("image", [np.zeros((4, 4), float), np.zeros((0, 4), np.uint8), np.zeros(4, np.uint8)])
def test_no_picture(image):
    squaring = rectify.square_corners(CORNERS, LENGTH, WIDTH)
    with pytest.raises(rectify.PictureError):
        rectify.warp(image, squaring, LENGTH, WIDTH)
