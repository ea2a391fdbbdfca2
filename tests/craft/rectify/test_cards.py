"""Scale cards on drawn boards, photographed by cameras that know the board's true size."""

from dataclasses import replace
from functools import cache

import cv2
import numpy as np
import pytest

from shopapi.craft import rectify
from shopapi.craft.rectify.cards.solving import plane_of_cards
from shopapi.demo.sawn import draw_board, photograph

MM = 0.7


def card_picture(marker):
    cells = np.kron(np.where(rectify.marker_cells(marker), 24, 236), np.ones((20, 20))).astype(np.uint8)
    rim = round((rectify.CARD_SIDE_MM - rectify.MARKER_SIDE_MM) / 2 / rectify.MARKER_SIDE_MM * len(cells))
    return cv2.copyMakeBorder(cells, rim, rim, rim, rim, cv2.BORDER_CONSTANT, value=236)


def laid(face, width_mm, marker, x_mm, y_mm, turn_deg):
    """The face with a card on it, its middle at x, y."""
    card = card_picture(marker)
    half, scale = len(card) / 2, rectify.CARD_SIDE_MM / len(card)
    angle = np.radians(turn_deg)
    to_mm = np.array([[np.cos(angle), -np.sin(angle), x_mm], [np.sin(angle), np.cos(angle), y_mm], [0, 0, 1]]) @ (
        np.array([[scale, 0, -scale * half], [0, -scale, scale * half], [0, 0, 1]])
    )
    to_face = np.array([[1 / MM, 0, 0], [0, -1 / MM, width_mm / MM], [0, 0, 1]]) @ to_mm
    half_px = np.array([[1, 0, -0.5], [0, 1, -0.5], [0, 0, 1]])
    matrix = half_px @ to_face @ np.linalg.inv(half_px)
    size = (face.shape[1], face.shape[0])
    drawn = cv2.warpPerspective(card, matrix, size)[..., None]
    cover = cv2.warpPerspective(np.full_like(card, 255), matrix, size)[..., None] / 255
    return (face * (1 - cover) + drawn * cover).astype(np.uint8)


@cache
def photo_of(seed, species, length, width, turns=(5, -8), markers=rectify.MARKER_IDS):
    board = draw_board(seed, species, length, width, knots=1, mm_per_px=MM)
    face = board.face_a
    for marker, x, turn in zip(markers, (0.12 * length, 0.86 * length), turns, strict=False):
        face = laid(face, width, marker, x, width * 0.47, turn)
    shot = photograph(replace(board, face_a=face), "A", seed, size=(3000, 2250))
    return np.ascontiguousarray(shot.image[:, :, ::-1]), shot


@pytest.mark.parametrize(
    ("seed", "species", "length", "width"),
    [(31, "white oak", 2400, 200), (32, "black walnut", 1300, 150), (33, "sugar maple", 1900, 290)],
)
def test_a_board_is_measured_without_a_tape(seed, species, length, width):
    image, shot = photo_of(seed, species, length, width)
    cards = rectify.find_cards(image)
    assert cards.length_mm == pytest.approx(length, rel=0.003)
    assert cards.width_mm == pytest.approx(width, abs=2)
    assert np.hypot(*(cards.corners_px - shot.corners_px).T).max() < 4
    assert cards.residual_mm < 0.3
    assert 0.3 < cards.sure <= 1
    places = np.array([(x, y) for x in np.linspace(0, length, 7) for y in (0, width / 2, width)])
    off = np.hypot(*(rectify.apply_homography(cards.homography, shot.see(places)) - places).T)
    assert off.max() < 6


@pytest.mark.parametrize("turns", [(0, 180), (90, 37), (-120, 5)])
def test_cards_may_lie_as_they_please(turns):
    image, _ = photo_of(34, "black cherry", 1500, 220, turns)
    cards = rectify.find_cards(image)
    assert cards.length_mm == pytest.approx(1500, rel=0.003)
    assert cards.width_mm == pytest.approx(220, abs=2)


def test_cards_alone_give_scale_and_perspective():
    """Where the floor hides the outline: distances by the cards only, against the camera."""
    image, shot = photo_of(31, "white oak", 2400, 200)
    plane = plane_of_cards(rectify.find_cards(image).cards_px)
    corners = rectify.apply_homography(np.linalg.inv(plane.to_px), shot.corners_px)
    sides = np.hypot(*(np.roll(corners, -1, axis=0) - corners).T)
    assert sides == pytest.approx([2400, 200, 2400, 200], rel=0.006)
    first, second = rectify.apply_homography(
        np.linalg.inv(plane.to_px), [card.mean(axis=0) for card in rectify.find_cards(image).cards_px]
    )
    assert first == pytest.approx((0, 0), abs=0.5)
    assert second[1] == pytest.approx(0, abs=0.5)
    assert second[0] > 1500


def test_the_cards_do_not_hide_the_outline():
    image, shot = photo_of(33, "sugar maple", 1900, 290)
    proposal = rectify.propose_corners(image)
    assert proposal.how == "cards"
    assert np.hypot(*(proposal.corners_px - shot.corners_px).T).max() < 4


def test_fewer_than_two_cards_are_none():
    one, _ = photo_of(35, "white oak", 1200, 180, (0,), (rectify.MARKER_IDS[0],))
    assert rectify.find_cards(one) is None
    assert rectify.find_cards(np.full((300, 400, 3), 90, np.uint8)) is None
    assert rectify.find_cards(np.zeros((2, 2, 3), np.uint8)) is None


def test_a_card_that_does_not_lie_flat_is_refused():
    """One card stood on edge: the two are not on one plane, and no length is made up."""
    image = np.full((900, 1600, 3), 140, np.uint8)
    for marker, corners in (
        (rectify.MARKER_IDS[0], [(200, 300), (420, 300), (420, 520), (200, 520)]),
        (rectify.MARKER_IDS[1], [(1000, 300), (1110, 340), (1100, 560), (1030, 480)]),
    ):
        card = card_picture(marker)
        side = len(card)
        source = np.array([[0, 0], [side, 0], [side, side], [0, side]], np.float32)
        matrix = cv2.getPerspectiveTransform(source, np.array(corners, np.float32))
        drawn = cv2.warpPerspective(card, matrix, (1600, 900))[..., None]
        cover = cv2.warpPerspective(np.full_like(card, 255), matrix, (1600, 900))[..., None] / 255
        image = (image * (1 - cover) + drawn * cover).astype(np.uint8)
    assert rectify.find_cards(image) is None


def test_a_picture_that_is_none_is_refused():
    with pytest.raises(rectify.PictureError):
        rectify.find_cards(np.zeros((4, 4, 3)))
