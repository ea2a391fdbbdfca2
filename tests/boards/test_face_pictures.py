"""Face pictures: joined of whatever shots of a face there are, told honestly, kept up to date."""

import io
from typing import Any

import numpy as np
import pytest
from PIL import Image

from shopapi.boards import services
from shopapi.boards.models import FacePicture, Shot
from tests.boards.test_boards_api import square, upload
from tests.boards.test_stretches import FACE, LENGTH, WIDTH, as_jpeg, set_points, shoot_stretch
from tests.conftest import PICTURE_CORNERS, Person, work_on_photographs
from tests.craft.rectify.shots import shoot
from tests.craft.rectify.test_joining import errors_mm

SPOTS = [(x, y) for x in range(70, 3000, 130) for y in (38, 131)]


@pytest.fixture
def long_board(maker: Person) -> dict[str, Any]:
    return maker.make("boards", tag="L1", species="white oak", length_mm=LENGTH, width_mm=WIDTH, thickness_mm=27)


def take(person: Person, board: dict[str, Any], x0: float, x1: float, seed: int, change: Any = None) -> dict[str, Any]:
    seen, points = shoot_stretch(x0, x1, seed)
    shot = upload(person, board, as_jpeg(seen.image)).json()
    answer = set_points(person, shot, [change(point) for point in points] if change else points)
    assert answer.status_code == 200, answer.content
    return answer.json()


def face_of(person: Person, board: dict[str, Any], face: str = "A") -> dict[str, Any] | None:
    rows = person.client.get(f"/api/face-pictures/?board={board['id']}").json()["results"]
    return next((row for row in rows if row["face"] == face), None)


def picture_of(person: Person, face: dict[str, Any]) -> np.ndarray:
    answer = person.client.get(f"/api/face-pictures/{face['id']}/picture/")
    return np.asarray(Image.open(io.BytesIO(b"".join(answer.streaming_content))).convert("RGB"))


def test_one_shot_of_the_whole_board_is_the_face(maker: Person, board: dict, picture_of_board: bytes) -> None:
    shot = upload(maker, board, picture_of_board).json()
    square(maker, shot, PICTURE_CORNERS)
    work_on_photographs()
    face = face_of(maker, board)
    assert (face["state"], face["problem"], face["gaps"], face["overlaps"]) == ("joined", "", [], [])
    assert face["stretches"] == [{"shot": shot["id"], "x0_mm": 0, "x1_mm": 2400, "righted": None}]
    row = Shot.objects.get(pk=shot["id"])
    assert (face["width_px"], face["height_px"]) == (row.squared_width_px, row.squared_height_px)
    assert picture_of(maker, face).shape == (row.squared_height_px, row.squared_width_px, 3)
    assert FacePicture.objects.get(pk=face["id"]).picture.name == row.squared.name


def test_shots_in_any_order_make_one_picture(maker: Person, long_board: dict[str, Any]) -> None:
    """Every dot on the joined picture within 3 mm of where it is on the wood."""
    for x0, x1, seed in [(1900, 3000, 11), (0, 1150, 12), (950, 2100, 13)]:
        take(maker, long_board, x0, x1, seed)
    work_on_photographs()
    face = face_of(maker, long_board)
    assert (face["state"], face["gaps"], face["remarks"]) == ("joined", [], [])
    assert [round(stretch["x0_mm"]) for stretch in face["stretches"]] == [0, 950, 1900]
    assert [(round(x0), round(x1)) for x0, x1, _ in face["overlaps"]] == [(950, 1150), (1900, 2100)]
    assert all(apart < 3 for _, _, apart in face["overlaps"])

    class Joined:
        picture = picture_of(maker, face)
        mm_per_px = face["mm_per_px"]

    assert errors_mm(Joined, SPOTS, WIDTH).max() < 3


def test_gap_is_told_until_a_shot_fills_it(maker: Person, long_board: dict[str, Any]) -> None:
    take(maker, long_board, 0, 1000, 21)
    take(maker, long_board, 2000, 3000, 22)
    work_on_photographs()
    face = face_of(maker, long_board)
    assert np.allclose(face["gaps"], [[1000, 2000]], atol=3)
    take(maker, long_board, 900, 2100, 23)
    work_on_photographs()
    filled = face_of(maker, long_board)
    assert (filled["id"], filled["gaps"]) == (face["id"], [])
    assert filled["revision"] > face["revision"]


def test_overlaps_that_disagree_say_by_how_much(maker: Person, long_board: dict[str, Any]) -> None:
    take(maker, long_board, 0, 1150, 8)
    take(maker, long_board, 900, 2100, 9, lambda p: {"px": p["px"], "mm": [p["mm"][0] + 25, p["mm"][1]]})
    work_on_photographs()
    face = face_of(maker, long_board)
    assert face["overlaps"][0][2] == pytest.approx(25, abs=2)
    assert len(face["remarks"]) == 1
    assert "same wood" in face["remarks"][0]
    assert "mm apart" in face["remarks"][0]


def test_a_shot_labelled_upside_down_is_put_right_and_said(maker: Person, long_board: dict[str, Any]) -> None:
    def turned(point: dict[str, Any]) -> dict[str, Any]:
        return {"px": point["px"], "mm": [950 + 2100 - point["mm"][0], WIDTH - point["mm"][1]]}

    take(maker, long_board, 0, 1150, 31)
    take(maker, long_board, 950, 2100, 32, turned)
    take(maker, long_board, 1900, 3000, 33)
    work_on_photographs()
    face = face_of(maker, long_board)
    assert [stretch["righted"] for stretch in face["stretches"]] == [None, "turned", None]
    assert "upside down" in face["remarks"][0]


def test_shots_that_mirror_each_other_are_refused_in_words(maker: Person, long_board: dict[str, Any]) -> None:
    """Of two, the second saved as in a mirror: nothing tells which of them is right."""
    take(maker, long_board, 0, 1150, 41)
    seen, points = shoot_stretch(950, 2100, 42)
    width = seen.image.shape[1]
    mirrored = [{"px": [width - p["px"][0], p["px"][1]], "mm": p["mm"]} for p in points]
    shot = upload(maker, long_board, as_jpeg(seen.image[:, ::-1])).json()
    assert set_points(maker, shot, mirrored).status_code == 200
    work_on_photographs()
    face = face_of(maker, long_board)
    assert face["state"] == "failed"
    assert "mirrored" in face["problem"]
    assert "950 mm" in face["problem"]


def test_the_face_follows_its_shots(maker: Person, board: dict[str, Any], picture_of_board: bytes) -> None:
    """Turned over, removed, photographed again: the same id, gone and back, what was dismissed stays so."""
    shot = upload(maker, board, picture_of_board).json()
    square(maker, shot, PICTURE_CORNERS)
    work_on_photographs()
    face = face_of(maker, board)
    address = f"/api/face-pictures/{face['id']}/"
    headers = {"If-Match": f'"{face["revision"]}"'}
    answer = maker.client.patch(address, {"dismissed": ["knot-5-5"], "state": "failed"}, format="json", headers=headers)
    assert (answer.status_code, answer.json()["state"]) == (200, "joined")
    over = {"face": "B"}
    maker.client.patch(f"/api/shots/{shot['id']}/", over, format="json", headers={"If-Match": "*"})
    work_on_photographs()
    assert face_of(maker, board) is None
    assert face_of(maker, board, "B")["state"] == "joined"
    maker.client.delete(f"/api/shots/{shot['id']}/", headers={"If-Match": "*"})
    assert face_of(maker, board, "B") is None
    again = upload(maker, board, picture_of_board).json()
    square(maker, again, PICTURE_CORNERS)
    work_on_photographs()
    back = face_of(maker, board)
    assert (back["id"], back["dismissed"]) == (face["id"], ["knot-5-5"])
    assert maker.client.delete(address, headers={"If-Match": "*"}).status_code == 405
    assert maker.client.post("/api/face-pictures/", {"board": board["id"]}, format="json").status_code == 405


def test_faces_squared_before_there_were_pictures_get_theirs(
    maker: Person, board: dict, picture_of_board: bytes
) -> None:
    shot = upload(maker, board, picture_of_board).json()
    square(maker, shot, PICTURE_CORNERS)
    work_on_photographs()
    FacePicture.objects.all().delete()
    assert services.photographs_left_behind() == 1
    work_on_photographs()
    assert face_of(maker, board)["state"] == "joined"
    assert services.photographs_left_behind() == 0


def test_a_board_removed_while_its_face_is_joined_stays_removed(maker: Person, long_board: dict[str, Any]) -> None:
    take(maker, long_board, 0, 1000, 21)
    work_on_photographs()
    face = FacePicture.objects.select_related("board").get()
    services.face_ask(board=face.board, face="A")
    face.refresh_from_db()
    maker.client.delete(f"/api/boards/{long_board['id']}/", headers={"If-Match": "*"})
    services.face_work(face=face)
    assert FacePicture.objects.get().gone_at is not None


def test_dark_knots_are_suggested_in_the_coordinates_of_marks(maker: Person, long_board: dict[str, Any]) -> None:
    """The face with dots, as face B: a dot drawn 38 mm from its lower edge lies 142 mm from face A's."""
    rng = np.random.default_rng(3)
    seen = shoot(FACE, LENGTH, WIDTH, 0, LENGTH, rng, size=(2400, 1800), tilt_deg=10)
    shot = upload(maker, long_board, as_jpeg(seen.image), face="B").json()
    corners = seen.see(np.array([(0, 0), (LENGTH, 0), (LENGTH, WIDTH), (0, WIDTH)], float))
    square(maker, shot, corners.tolist())
    work_on_photographs()
    suggestions = face_of(maker, long_board, "B")["suggestions"]
    assert suggestions
    assert len({each["key"] for each in suggestions}) == len(suggestions)
    shape = next(each["shape"] for each in suggestions if each["kind"] == "knot")
    mark = maker.make("marks", board=long_board["id"], face="B", kind="knot", shape=shape)
    assert mark["shape"] == shape


def test_pieces_keep_their_stretch_of_the_face(maker: Person, long_board: dict[str, Any]) -> None:
    take(maker, long_board, 0, 1000, 21)
    take(maker, long_board, 2000, 3000, 22)
    work_on_photographs()
    cut_in_two(maker, long_board)
    _check_pieces(maker, long_board)


def test_pieces_of_a_board_cut_before_the_worker_got_to_it_get_their_picture(maker: Person, long_board: dict) -> None:
    take(maker, long_board, 0, 1000, 21)
    take(maker, long_board, 2000, 3000, 22)
    cut = cut_in_two(maker, long_board)
    assert all(face_of(maker, piece) is None for piece in cut["pieces"])
    work_on_photographs()
    _check_pieces(maker, long_board)
    undone = maker.client.delete(f"/api/cuts/{cut['id']}/", headers={"If-Match": "*"})
    assert undone.status_code == 204, undone.content


def cut_in_two(person: Person, board: dict[str, Any]) -> dict[str, Any]:
    ids = ("00000000-0000-4000-8000-00000000000a", "00000000-0000-4000-8000-00000000000b")
    sizes = {"y_mm": 0, "length_mm": 1500, "width_mm": WIDTH}
    pieces = [{"id": key, "tag": f"L1{key[-1]}", "x_mm": x, **sizes} for key, x in zip(ids, (0, 1500), strict=True)]
    return person.make("cuts", board=board["id"], kind="crosscut", at_mm=1500, kerf_mm=0, pieces=pieces)


def _check_pieces(person: Person, board: dict[str, Any]) -> None:
    whole = picture_of(person, face_of(person, board)).astype(float)
    for number, last in enumerate("ab"):
        piece = {"id": f"00000000-0000-4000-8000-00000000000{last}"}
        face = face_of(person, piece)
        assert np.allclose(face["gaps"], [[[1000, 1500], [0, 500]][number]], atol=3)
        part = picture_of(person, face).astype(float)
        there = np.array_split(whole, 2, axis=1)[number][: part.shape[0], : part.shape[1]]
        assert np.abs(part[: there.shape[0], : there.shape[1]] - there).mean() < 6
        (shot,) = person.client.get(f"/api/shots/?board={piece['id']}").json()["results"]
        assert [shot["x0_mm"], shot["x1_mm"]] == pytest.approx([500 * number, 1000 + 500 * number], abs=3)
