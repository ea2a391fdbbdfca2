"""Boards, their photographs and corners, through the API."""

import uuid
from typing import Any

import numpy as np
import pytest
from django.core.files.uploadedfile import SimpleUploadedFile

from tests.conftest import BOARD, PICTURE_CORNERS, Person, work_on_photographs


def upload(person: Person, board: dict[str, Any], photo: bytes, **more: Any) -> Any:
    body = {"board": board["id"], "face": "A", "photo": SimpleUploadedFile("IMG_1.jpg", photo), **more}
    return person.client.post("/api/shots/", body, format="multipart")


def square(person: Person, shot: dict[str, Any], corners: Any) -> Any:
    return person.client.patch(
        f"/api/shots/{shot['id']}/", {"corners": corners}, format="json", headers={"If-Match": "*"}
    )


def shot_now(person: Person, shot: dict[str, Any]) -> dict[str, Any]:
    return person.client.get(f"/api/shots/{shot['id']}/").json()


def test_photo_is_kept_squared_and_shown(maker: Person, board: dict, picture_of_board: bytes) -> None:
    shot = upload(maker, board, picture_of_board).json()
    assert (shot["state"], shot["width_px"], shot["height_px"]) == ("received", 800, 400)
    assert maker.client.get(f"/api/shots/{shot['id']}/preview/").status_code == 404
    work_on_photographs()
    assert shot_now(maker, shot)["state"] == "ready"
    assert maker.client.get(f"/api/shots/{shot['id']}/squared/").status_code == 404
    assert square(maker, shot, PICTURE_CORNERS).json()["state"] == "squaring"
    work_on_photographs()
    squared = shot_now(maker, shot)
    assert (squared["state"], squared["problem"]) == ("squared", "")
    assert squared["residual_mm"] == pytest.approx(0, abs=1e-6)
    assert squared["slip_mm"] > 0
    matrix = np.array(squared["homography"])
    for (x, y), corner in zip(PICTURE_CORNERS, [(0, 0), (2400, 0), (2400, 200), (0, 200)], strict=True):
        u, v, w = matrix @ (x, y, 1)
        assert (u / w, v / w) == pytest.approx(corner, abs=1e-6)
    for action in ("preview", "squared", "original"):
        picture = maker.client.get(f"/api/shots/{shot['id']}/{action}/", headers={"Accept": "image/avif,image/webp"})
        assert picture.status_code == 200
        assert b"".join(picture.streaming_content).startswith(b"\xff\xd8")


@pytest.mark.parametrize(
    ("corners", "said"),
    [
        ([[40, 260], [760, 190], [760, 250], [40, 180]], "cross"),
        ([[40, 260], [300, 260], [760, 260], [40, 180]], "line"),
        ([[40, 260], [760, 250]], "four corners"),
        ("nonsense", "pairs of numbers"),
    ],
)
def test_corners_that_cannot_be_are_refused(
    corners: Any, said: str, maker: Person, board: dict, picture_of_board: bytes
) -> None:
    shot = upload(maker, board, picture_of_board).json()
    answer = square(maker, shot, corners)
    assert answer.status_code == 400
    assert said in answer.json()["errors"]["corners"][0]
    assert maker.client.get(f"/api/shots/{shot['id']}/").json() == shot


@pytest.mark.parametrize("photo", [b"", b"not a picture at all", b"\xff\xd8\xff\xe0 half a header"])
def test_what_is_no_picture_is_refused(photo: bytes, maker: Person, board: dict) -> None:
    answer = upload(maker, board, photo)
    assert answer.status_code == 400
    assert answer.json()["errors"]["photo"]
    assert maker.client.get("/api/shots/").json()["count"] == 0


def test_photo_that_arrives_twice_is_kept_once(maker: Person, board: dict, picture_of_board: bytes) -> None:
    """Even where the phone lost its key: the same id and the same bytes are the same photograph."""
    shot_id = str(uuid.uuid4())
    first = upload(maker, board, picture_of_board, id=shot_id)
    second = upload(maker, board, picture_of_board, id=shot_id)
    assert (first.status_code, second.status_code) == (201, 200)
    assert first.json() == second.json()
    other = upload(maker, board, picture_of_board + b"\0", id=shot_id)
    assert other.status_code == 409


def test_photo_for_a_strangers_board_is_refused(stranger: Person, board: dict, picture_of_board: bytes) -> None:
    answer = upload(stranger, board, picture_of_board)
    assert answer.status_code == 400
    assert "board" in answer.json()["errors"]


def test_corrected_tape_sizes_carry_photo_and_marks_along(maker: Person, board: dict, picture_of_board: bytes) -> None:
    """A board taped 2400 mm that is 2500 mm long: what was marked at its far end stays at its far end."""
    shot = upload(maker, board, picture_of_board).json()
    square(maker, shot, PICTURE_CORNERS)
    work_on_photographs()
    shape = {"type": "line", "points": [[2300, 50], [2400, 50]], "width_mm": 4}
    mark = maker.make("marks", board=board["id"], face="A", kind="check", shape=shape)
    maker.client.patch(f"/api/boards/{board['id']}/", {"length_mm": 2500}, format="json", headers={"If-Match": "*"})
    assert shot_now(maker, shot)["state"] == "squaring"
    work_on_photographs()
    moved = maker.client.get(f"/api/marks/{mark['id']}/").json()["shape"]["points"]
    assert np.allclose(moved, [[2300 * 25 / 24, 50], [2500, 50]])
    matrix = np.array(maker.client.get(f"/api/shots/{shot['id']}/").json()["homography"])
    u, v, w = matrix @ (*PICTURE_CORNERS[2], 1)
    assert (u / w, v / w) == pytest.approx((2500, 200))


def test_tag_is_chalked_once(maker: Person, board: dict) -> None:
    answer = maker.client.post("/api/boards/", {"tag": "B1", **BOARD}, format="json")
    assert answer.status_code == 400
    assert "B1" in answer.json()["errors"]["tag"][0]


def test_reading_has_limits(maker: Person, board: dict) -> None:
    body = {"board": board["id"], "read_on": "2026-03-04", "mc_pct": 201}
    assert maker.client.post("/api/readings/", body, format="json").status_code == 400
