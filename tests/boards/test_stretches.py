"""Shots of a stretch of a board, squared by ticks on its edges; corners and sizes proposed from the photo."""

import io
from typing import Any

import numpy as np
import pytest
from PIL import Image

from shopapi.craft import rectify
from tests.boards.test_boards_api import shot_now, upload
from tests.conftest import PICTURE_CORNERS, Person, work_on_photographs
from tests.craft.rectify.shots import Seen, dotted, shoot, ticks
from tests.craft.rectify.test_cards import photo_of

LENGTH, WIDTH = 3000.0, 180.0
SPOTS = [(x, y) for x in range(70, 3000, 130) for y in (38, 131)]
FACE = dotted(LENGTH, WIDTH, 1.0, np.random.default_rng(1), SPOTS)


def as_jpeg(bgr: np.ndarray) -> bytes:
    out = io.BytesIO()
    Image.fromarray(np.ascontiguousarray(bgr[:, :, ::-1])).save(out, "JPEG", quality=92)
    return out.getvalue()


def points_of(seen: Seen, x0: float, x1: float, rng: np.random.Generator, slip_px: float = 0.5) -> list[dict[str, Any]]:
    px, mm = ticks(seen, x0, x1, WIDTH, rng, slip_px)
    return [{"px": a, "mm": b} for a, b in zip(px.tolist(), mm.tolist(), strict=True)]


def set_points(person: Person, shot: dict[str, Any], points: Any, **more: Any) -> Any:
    body = {"points": points, **more}
    return person.client.patch(f"/api/shots/{shot['id']}/", body, format="json", headers={"If-Match": "*"})


@pytest.fixture
def long_board(maker: Person) -> dict[str, Any]:
    return maker.make("boards", tag="L1", species="white oak", length_mm=LENGTH, width_mm=WIDTH, thickness_mm=27)


def shoot_stretch(x0: float, x1: float, seed: int, k: float = 0.0) -> tuple[Seen, list[dict[str, Any]]]:
    rng = np.random.default_rng(seed)
    seen = shoot(FACE, LENGTH, WIDTH, x0, x1, rng, size=(1200, 900), k=k)
    return seen, points_of(seen, x0, x1, rng)


def test_a_stretch_is_squared_by_its_ticks(maker: Person, long_board: dict[str, Any]) -> None:
    seen, points = shoot_stretch(950, 2100, 4)
    shot = upload(maker, long_board, as_jpeg(seen.image)).json()
    assert set_points(maker, shot, points).status_code == 200
    work_on_photographs()
    now = shot_now(maker, shot)
    assert (now["state"], now["corners"], now["points"]) == ("squared", None, points)
    assert (now["x0_mm"], now["x1_mm"]) == (pytest.approx(950, abs=2), pytest.approx(2100, abs=2))
    assert len(now["point_residuals_mm"]) == len(points)
    assert 0 < max(now["point_residuals_mm"]) < 3
    assert 0 < now["slip_mm"] < 20
    truth = np.array([(1000, 20), (1500, 90), (2080, 170)], float)
    found = rectify.apply_homography(now["homography"], seen.see(truth))
    assert np.abs(found - truth).max() < 3
    assert now["squared_width_px"] * now["mm_per_px"] == pytest.approx(1150, abs=3)


def test_a_bending_lens_is_straightened_where_the_residual_asks_for_it(maker: Person, long_board: dict) -> None:
    seen, points = shoot_stretch(0, 1500, 5, k=0.12)
    shot = upload(maker, long_board, as_jpeg(seen.image)).json()
    set_points(maker, shot, points)
    work_on_photographs()
    now = shot_now(maker, shot)
    assert now["lens_k"] == pytest.approx(0.12, abs=0.05)
    assert max(now["point_residuals_mm"]) < 3


def test_edges_taken_for_each_other_are_put_right_silently(maker: Person, long_board: dict[str, Any]) -> None:
    seen, points = shoot_stretch(0, 1200, 6)
    shot = upload(maker, long_board, as_jpeg(seen.image)).json()
    swapped = [{"px": point["px"], "mm": [point["mm"][0], WIDTH - point["mm"][1]]} for point in points]
    assert set_points(maker, shot, swapped).json()["points"] == points


def test_points_that_cannot_be_are_refused_and_nothing_is_lost(maker: Person, long_board: dict[str, Any]) -> None:
    seen, points = shoot_stretch(0, 1200, 6)
    shot = upload(maker, long_board, as_jpeg(seen.image)).json()
    for bad, says in [
        (points[:3], "Four points"),
        ([*points, points[0]], "same spot"),
        ([*points[:-1], {"px": points[-1]["px"], "mm": [9000, 180]}], "9000 mm from the butt end"),
        ([*points[:-1], {"px": [5000, 10], "mm": points[-1]["mm"]}], "outside the photo"),
    ]:
        answer = set_points(maker, shot, bad)
        assert answer.status_code == 400
        assert says in answer.json()["errors"]["points"][0]
    both = set_points(maker, shot, points, corners=PICTURE_CORNERS)
    assert "not both" in both.json()["errors"]["points"][0]
    assert set_points(maker, shot, [{"px": [1, 2]}] * 4).status_code == 400
    assert shot_now(maker, shot) == shot


def test_a_board_taped_anew_takes_the_points_at_its_end_along(maker: Person, long_board: dict[str, Any]) -> None:
    seen, points = shoot_stretch(1900, 3000, 7)
    shot = upload(maker, long_board, as_jpeg(seen.image)).json()
    set_points(maker, shot, points)
    work_on_photographs()
    change = {"length_mm": 3040}
    maker.client.patch(f"/api/boards/{long_board['id']}/", change, format="json", headers={"If-Match": "*"})
    work_on_photographs()
    now = shot_now(maker, shot)
    assert now["state"] == "squared"
    assert sorted({point["mm"][0] for point in now["points"]}) == [1900, 2000, 2500, 3040]


def test_corners_are_proposed_where_the_board_stands_out(maker: Person, board: dict, picture_of_board: bytes) -> None:
    shot = upload(maker, board, picture_of_board).json()
    work_on_photographs()
    proposal = shot_now(maker, shot)["proposal"]
    assert proposal["from"] == "outline"
    assert 0 < proposal["sure"] <= 1
    assert proposal["length_mm"] is None
    assert np.abs(np.array(proposal["corners"]) - PICTURE_CORNERS).max() < 3


def test_a_photo_of_something_else_leaves_the_corners_to_the_maker(maker: Person, board: dict[str, Any]) -> None:
    noise = np.random.default_rng(2).integers(0, 255, (300, 400, 3), dtype=np.uint8)
    shot = upload(maker, board, as_jpeg(noise)).json()
    work_on_photographs()
    now = shot_now(maker, shot)
    assert (now["state"], now["proposal"]) == ("ready", None)


def test_two_scale_cards_tell_the_size_too(maker: Person, board: dict[str, Any]) -> None:
    photo, seen = photo_of(31, "white oak", 2400, 200)
    shot = upload(maker, board, as_jpeg(photo)).json()
    work_on_photographs()
    proposal = shot_now(maker, shot)["proposal"]
    assert proposal["from"] == "cards"
    assert proposal["length_mm"] == pytest.approx(2400, rel=0.005)
    assert proposal["width_mm"] == pytest.approx(200, rel=0.015)
    assert np.abs(np.array(proposal["corners"]) - seen.corners_px).max() < 8
