"""Boards cut into smaller ones through the API: what the pieces keep, what is refused, and undoing."""

import io
import uuid
from typing import Any

import numpy as np
import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from PIL import Image

from tests.conftest import PICTURE_CORNERS, Person, work_on_photographs

KNOT = {"type": "ellipse", "cx_mm": 300, "cy_mm": 90, "rx_mm": 12, "ry_mm": 9}
LONG_KNOT = {"type": "ellipse", "cx_mm": 1001.6, "cy_mm": 90, "rx_mm": 20, "ry_mm": 9}
CHECK = {"type": "line", "points": [[2300, 100], [2400, 104]], "width_mm": 3}


def _piece(tag: str, x: float, y: float, length: float, width: float) -> dict[str, Any]:
    return {"id": str(uuid.uuid4()), "tag": tag, "x_mm": x, "y_mm": y, "length_mm": length, "width_mm": width}


def _halves() -> list[dict[str, Any]]:
    return [_piece("B1a", 0, 0, 1000, 200), _piece("B1b", 1003.2, 0, 1396.8, 200)]


def _crosscut(board: dict[str, Any], **changes: Any) -> dict[str, Any]:
    return {"board": board["id"], "kind": "crosscut", "at_mm": 1000, "kerf_mm": 3.2, "pieces": _halves(), **changes}


def _rows(person: Person, path: str, board: str) -> list[dict[str, Any]]:
    return person.client.get(f"/api/{path}/?board={board}").json()["results"]


def _board(person: Person, board: str) -> dict[str, Any]:
    return person.client.get(f"/api/boards/{board}/").json()


def _photograph(maker: Person, board: dict[str, Any], picture: bytes, face: str = "A") -> dict[str, Any]:
    made = maker.client.post(
        "/api/shots/",
        {"board": board["id"], "face": face, "photo": SimpleUploadedFile("b.jpg", picture)},
        format="multipart",
    ).json()
    answer = maker.client.patch(
        f"/api/shots/{made['id']}/", {"corners": PICTURE_CORNERS}, format="json", headers={"If-Match": "*"}
    )
    assert answer.status_code == 200, answer.content
    work_on_photographs()
    return maker.client.get(f"/api/shots/{made['id']}/").json()


def test_pieces_are_boards_that_keep_what_is_known_of_them(maker: Person) -> None:
    board = maker.make(
        "boards", tag="B1", species="white oak", length_mm=2400, width_mm=200, thickness_mm=27, flitch="F7", price="50"
    )
    maker.make("readings", board=board["id"], mc_pct=8.2, read_on="2026-03-04", meter="pins")
    for shape in (KNOT, LONG_KNOT, CHECK):
        maker.make("marks", board=board["id"], face="A", kind="other", shape=shape, note="seen")
    cut = maker.make("cuts", **_crosscut(board))
    assert _board(maker, board["id"])["status"] == "used"
    near, far = (_board(maker, piece["id"]) for piece in cut["pieces"])
    assert (near["tag"], near["length_mm"], near["parent"], near["flitch"]) == ("B1a", 1000, board["id"], "F7")
    assert (far["origin_x_mm"], far["origin_y_mm"], far["status"]) == (1003.2, 0, "in_rack")
    assert float(near["price"]) + float(far["price"]) == 50
    assert [row["mc_pct"] for row in _rows(maker, "readings", near["id"])] == [8.2]
    knot, rest = _rows(maker, "marks", near["id"])
    assert (knot["shape"], knot["note"]) == (KNOT, "seen")
    assert rest["shape"]["type"] == "outline"
    assert max(x for x, _ in rest["shape"]["points"]) == pytest.approx(1000)
    other_rest, check = _rows(maker, "marks", far["id"])
    assert min(x for x, _ in other_rest["shape"]["points"]) == pytest.approx(0)
    assert check["shape"]["points"] == [pytest.approx([1296.8, 100]), pytest.approx([1396.8, 104])]


@pytest.mark.parametrize("face", ["A", "B"])
def test_pieces_keep_their_stretch_of_the_picture(face: str, maker: Person, board: dict[str, Any]) -> None:
    """The picture of face B has the upper edge of face A below."""
    shot = _photograph(maker, board, _slope(), face)
    strips = [_piece("low", 0, 0, 2400, 60), _piece("high", 1200, 63, 1200, 137)]
    maker.make("cuts", board=board["id"], kind="rip", at_mm=60, kerf_mm=3, pieces=strips)
    whole = np.asarray(Image.open(io.BytesIO(_squared(maker, shot["id"]))), float)
    for strip in strips:
        (kept,) = _rows(maker, "shots", strip["id"])
        assert (kept["state"], kept["face"]) == ("squared", face)
        part = np.asarray(Image.open(io.BytesIO(_squared(maker, kept["id"]))), float)
        assert part.shape[1] * kept["mm_per_px"] == pytest.approx(strip["length_mm"])
        low = strip["y_mm"] if face == "A" else 200 - strip["y_mm"] - strip["width_mm"]
        left, top = strip["x_mm"] / shot["mm_per_px"], (200 - low - strip["width_mm"]) / shot["mm_per_px"]
        there = whole[round(top) :, round(left) :][: part.shape[0] - 1, : part.shape[1] - 1]
        assert np.abs(part[: there.shape[0], : there.shape[1]] - there).mean() < 3
        # The photo's own points lie on the piece where they lay on the board, less the origin.
        moved = np.array(kept["homography"]) @ [400, 220, 1]
        stood = np.array(shot["homography"]) @ [400, 220, 1]
        assert moved[:2] / moved[2] == pytest.approx(stood[:2] / stood[2] - [strip["x_mm"], low])


def _slope() -> bytes:
    """A photograph whose every place has its own colour."""
    across, down = np.meshgrid(np.linspace(0, 255, 800), np.linspace(0, 255, 400) * 3 % 256)
    out = io.BytesIO()
    Image.fromarray(np.dstack([across, down, np.full_like(across, 90)]).astype(np.uint8)).save(out, "JPEG", quality=95)
    return out.getvalue()


def _squared(person: Person, shot: str) -> bytes:
    return b"".join(person.client.get(f"/api/shots/{shot}/squared/").streaming_content)


def test_a_cut_is_undone_while_the_pieces_are_untouched(maker: Person, board: dict[str, Any]) -> None:
    maker.make("marks", board=board["id"], face="A", kind="knot", shape=KNOT)
    cut = maker.make("cuts", **_crosscut(board))
    gone = maker.client.delete(f"/api/cuts/{cut['id']}/", headers={"If-Match": f'"{cut["revision"]}"'})
    assert gone.status_code == 204
    assert _board(maker, board["id"])["status"] == "in_rack"
    for piece in cut["pieces"]:
        assert maker.client.get(f"/api/boards/{piece['id']}/").status_code == 404
        assert _rows(maker, "marks", piece["id"]) == []
    assert len(_rows(maker, "marks", board["id"])) == 1
    maker.make("cuts", **_crosscut(board))  # the tags are free again


@pytest.mark.parametrize("what", ["mark", "place", "reading", "cut"])
def test_a_cut_stays_once_a_piece_was_worked_on(what: str, maker: Person, board: dict[str, Any]) -> None:
    cut = maker.make("cuts", **_crosscut(board))
    piece = cut["pieces"][0]["id"]
    if what == "mark":
        maker.make("marks", board=piece, face="A", kind="knot", shape=KNOT)
    elif what == "reading":
        maker.make("readings", board=piece, mc_pct=8, read_on="2026-03-04")
    elif what == "cut":
        maker.make("cuts", board=piece, kind="layout", pieces=[_piece("B1aa", 0, 0, 400, 200)])
    else:
        maker.client.patch(f"/api/boards/{piece}/", {"place": "top"}, format="json", headers={"If-Match": "*"})
    answer = maker.client.delete(f"/api/cuts/{cut['id']}/", headers={"If-Match": "*"})
    assert answer.status_code == 409
    assert "B1a was worked on" in answer.json()["detail"]
    assert _board(maker, piece)["tag"] == "B1a"


@pytest.mark.parametrize(
    ("changes", "field", "words"),
    [
        ({"pieces": []}, "pieces", ""),
        ({"pieces": [_piece("x", 2000, 0, 401, 200)]}, "pieces", "reaches beyond B1"),
        ({"pieces": [_piece("x", 0, 0, 990, 200), _piece("y", 980, 0, 20, 200)]}, "pieces", "the same wood"),
        ({"pieces": [_piece("x", 0, 0, 1010, 200)]}, "pieces", "saw would go through x"),
        ({"pieces": [_piece("x", 0, 0, 500, 200), _piece("x", 600, 0, 300, 200)]}, "pieces", "Two of the pieces"),
        ({"pieces": [_piece("B1", 0, 0, 500, 200)]}, "pieces", "Another board"),
        ({"pieces": [_piece("x", 0, 0, -5, 200)]}, "pieces.0.length_mm", ""),
        ({"at_mm": None}, "at_mm", "where the saw"),
        ({"kerf_mm": -1}, "kerf_mm", ""),
        ({"kind": "axe"}, "kind", ""),
    ],
)
def test_impossible_cuts_are_refused_in_words(
    changes: dict[str, Any], field: str, words: str, maker: Person, board: dict[str, Any]
) -> None:
    answer = maker.client.post("/api/cuts/", _crosscut(board, **changes), format="json")
    assert answer.status_code == 400, answer.content
    assert any(name.startswith(field) for name in answer.json()["errors"])
    assert words in answer.json()["detail"]
    assert _board(maker, board["id"])["status"] == "in_rack"
    assert maker.client.get("/api/boards/").json()["count"] == 1


def test_a_board_is_cut_once(maker: Person, board: dict[str, Any]) -> None:
    maker.make("cuts", **_crosscut(board))
    again = _crosscut(board, pieces=[_piece("other", 0, 0, 900, 200)])
    answer = maker.client.post("/api/cuts/", again, format="json")
    assert answer.status_code == 409
    assert "not in the rack any more" in answer.json()["detail"]


def test_a_cut_sent_twice_happens_once(maker: Person, board: dict[str, Any]) -> None:
    body = _crosscut(board) | {"id": str(uuid.uuid4())}
    first, second = (
        maker.client.post("/api/cuts/", body, format="json", headers={"Idempotency-Key": "one"}) for _ in range(2)
    )
    assert (first.status_code, second.status_code) == (201, 201)
    assert maker.client.get("/api/boards/").json()["count"] == 3


def test_an_apprentice_cuts_without_seeing_money(maker: Person, apprentice: Person) -> None:
    board = maker.make(
        "boards", tag="B1", species="white oak", length_mm=2400, width_mm=200, thickness_mm=27, price="50"
    )
    cut = apprentice.make("cuts", **_crosscut(board))
    assert "price" not in _board(apprentice, cut["pieces"][0]["id"])
    assert _board(maker, cut["pieces"][0]["id"])["price"] == "20.86"


def test_a_mark_on_a_removed_board_is_refused_in_words(maker: Person, board: dict[str, Any]) -> None:
    maker.client.delete(f"/api/boards/{board['id']}/", headers={"If-Match": "*"})
    body = {"board": board["id"], "face": "A", "kind": "knot", "shape": KNOT}
    answer = maker.client.post("/api/marks/", body, format="json")
    assert answer.status_code == 400
    assert "removed meanwhile" in answer.json()["errors"]["board"][0]
