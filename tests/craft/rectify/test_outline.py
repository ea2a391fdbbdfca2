"""Proposed corners against cameras that know where the corners are, and against pictures that show no board."""

from functools import cache

import cv2
import numpy as np
import pytest

from shopapi.craft import rectify
from shopapi.demo.sawn import draw_board, photograph

# Seed, species, length, width, thickness, face: pale, red and dark wood, thin and thick, on three floors.
BOARDS = [
    (3, "white oak", 2400, 190, 27.0, "A"),
    (4, "sugar maple", 1500, 240, 27.0, "B"),
    (5, "black cherry", 1001, 125, 52.0, "A"),
    (6, "black walnut", 2100, 160, 34.0, "A"),
]
GREY = np.full((900, 1200, 3), 120, np.uint8)
WOOD = (60, 90, 140)


@cache
def photo_of(seed, species, length, width, thickness, face):
    board = draw_board(seed, species, length, width, thickness_mm=thickness, mm_per_px=1.0)
    shot = photograph(board, face, seed, size=(2000, 1500))
    return np.ascontiguousarray(shot.image[:, :, ::-1]), shot.corners_px


def off_mm(proposal, corners_px, length, width):
    squaring = rectify.square_corners(corners_px, length, width)
    return np.hypot(*(squaring.to_board_mm(proposal.corners_px) - rectify.corner_points_mm(length, width)).T)


@pytest.mark.parametrize("board", BOARDS, ids=lambda board: board[1])
def test_a_board_on_a_floor_needs_no_nudge(board):
    """The face's own corners, not those of the side below it: within 3 mm on the board."""
    image, corners = photo_of(*board)
    proposal = rectify.propose_corners(image, length_mm=board[2], width_mm=board[3])
    assert proposal.how == "outline"
    assert proposal.sure > 0.3
    assert off_mm(proposal, corners, board[2], board[3]).max() < 3.0


def test_real_wood_seen_in_perspective(reference_dir):
    """Source: the corners that SOURCES.json gives for composite_3.jpg, y down there."""
    image = cv2.imread(str(reference_dir / "photos" / "composite_3.jpg"))
    proposal = rectify.propose_corners(image)
    truth = [[170, 1110], [3060, 1120], [2980, 980], [260, 820]]
    assert off_mm(proposal, truth, 2592, 140).max() < 1.0


def test_scans_that_show_nothing_but_wood_have_no_outline(reference_dir):
    scans = sorted((reference_dir / "photos").glob("boardscan_*.jpg"))
    assert len(scans) == 12
    assert [rectify.propose_corners(cv2.imread(str(scan))).corners_px for scan in scans] == [None] * 12


@pytest.mark.parametrize("turns", [1, 2, 3])
def test_a_photo_turned_shows_the_same_corners(turns):
    """The butt end is the left one, or the nearer one: which corner comes first changes, the four places do not."""
    image, _ = photo_of(*BOARDS[0])
    image = cv2.resize(image, None, fx=0.5, fy=0.5, interpolation=cv2.INTER_AREA)
    height, width = image.shape[:2]
    straight = rectify.propose_corners(image).corners_px
    turned = rectify.propose_corners(np.ascontiguousarray(np.rot90(image, -turns))).corners_px
    back = {
        1: np.column_stack([turned[:, 1], height - turned[:, 0]]),
        2: np.array([width, height]) - turned,
        3: np.column_stack([width - turned[:, 1], turned[:, 0]]),
    }[turns]
    # A board's side is told from its face only below the face, so the edge above it may differ by that much.
    assert min(np.abs(np.roll(back, by, axis=0) - straight).max() for by in range(4)) < 15
    butt, middle = turned[[0, 3]].mean(axis=0), turned.mean(axis=0)
    assert butt[0] < middle[0] if turns == 2 else butt[1] > middle[1]


def test_the_order_is_that_of_squaring():
    image, _ = photo_of(*BOARDS[1])
    corners = rectify.propose_corners(image).corners_px
    assert (rectify.corners_in_order(corners, 1500, 240) == corners).all()


def drawn(*points):
    return cv2.fillPoly(GREY.copy(), [np.array(points)], WOOD)


@pytest.mark.parametrize(
    "image",
    [
        GREY,
        np.random.default_rng(0).integers(0, 255, (900, 1200, 3), dtype=np.uint8),
        drawn((200, 700), (600, 200), (1000, 700)),
        cv2.circle(GREY.copy(), (600, 450), 250, WOOD, -1),
        drawn((-50, 500), (1300, 480), (1300, 300), (-50, 300)),
        np.zeros((3, 3, 3), np.uint8),
        np.zeros((1, 50, 3), np.uint8),
    ],
    ids=["floor", "noise", "triangle", "disc", "cut off at both ends", "tiny", "one row"],
)
def test_where_there_is_no_board_nothing_is_proposed(image):
    proposal = rectify.propose_corners(image)
    assert proposal.corners_px is None
    assert proposal.sure == 0
    assert proposal.how == "none"


def test_grey_wood_on_a_grey_floor_is_found_by_its_lightness():
    corners = [(100, 500), (1100, 480), (1100, 300), (100, 300)]
    image = cv2.fillPoly(GREY.copy(), [np.array(corners)], (170, 170, 170))
    assert np.abs(rectify.propose_corners(image).corners_px - corners).max() < 2
    grey = cv2.cvtColor(image, cv2.COLOR_BGR2GRAY)
    assert np.abs(rectify.propose_corners(grey).corners_px - corners).max() < 2


def test_sizes_that_the_outline_cannot_have_leave_the_corners_to_the_maker():
    image, _ = photo_of(*BOARDS[0])
    assert rectify.propose_corners(image, length_mm=190, width_mm=2400).corners_px is None


def test_pictures_that_are_none_are_refused():
    for image in (np.zeros((4, 4, 3)), np.zeros((4, 4, 2), np.uint8), np.zeros((0, 4, 3), np.uint8), None):
        with pytest.raises(rectify.PictureError):
            rectify.propose_corners(image)


def test_traced_edges_show_how_a_lens_bends():
    lens = rectify.Lens.of_photo(0.12, (1200, 900))
    corners = np.array([(150, 700), (1050, 690), (1050, 420), (150, 400)], float)
    ring = np.concatenate([np.linspace(corners[i], corners[(i + 1) % 4], 60) for i in range(4)])
    image = cv2.fillPoly(GREY.copy(), [(lens.bent(ring) * 16).round().astype(np.int32)], WOOD, cv2.LINE_AA, 4)
    edges = rectify.trace_edges(image, lens.bent(corners))
    assert len(edges) == 2
    fitted = rectify.straighten(lens.bent(corners), rectify.corner_points_mm(900, 285), (1200, 900), edges)
    assert fitted.lens
    assert fitted.lens.k == pytest.approx(0.12, abs=0.02)
