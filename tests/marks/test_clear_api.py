"""Clear wood and grade of a board through the API, against the published rules and worked examples."""

import json
import uuid
from pathlib import Path
from typing import Any

import pytest

from shopapi.craft.measures import MM_PER_FOOT as FT
from shopapi.craft.measures import MM_PER_INCH as IN
from tests.conftest import Person

TABLE = json.loads((Path(__file__).parents[1] / "tables" / "lumber_grades.json").read_text(encoding="utf-8"))
EXAMPLES = {row["id"]: row for row in TABLE["examples"]}


def _board(maker: Person, length_ft: float, width_in: float) -> dict[str, Any]:
    sizes = {"length_mm": length_ft * FT, "width_mm": width_in * IN, "thickness_mm": 27}
    return maker.make("boards", tag=f"G-{uuid.uuid4().hex[:8]}", species="white oak", **sizes)


def _stain(maker: Person, board: dict[str, Any], x0_ft: float, y0_in: float, x1_ft: float, y1_in: float, face: str):
    corners = [[x * FT, y * IN] for x, y in ((x0_ft, y0_in), (x1_ft, y0_in), (x1_ft, y1_in), (x0_ft, y1_in))]
    shape = {"type": "outline", "points": corners}
    return maker.make("marks", board=board["id"], face=face, kind="stain", shape=shape)


def _clear(person: Person, board: dict[str, Any]) -> dict[str, Any]:
    answer = person.client.get(f"/api/boards/{board['id']}/clear/")
    assert answer.status_code == 200, answer.content
    return answer.json()


@pytest.mark.parametrize(("example", "length_ft", "width_in"), [("L1", 8, 6.25), ("L2", 13, 10)])
def test_surface_measure_of_the_published_examples(example: str, length_ft: float, width_in: float, maker: Person):
    assert _clear(maker, _board(maker, length_ft, width_in))["surface_measure"] == EXAMPLES[example]["SM"]


def test_published_example_that_meets_the_fas_yield_exactly(maker: Person) -> None:
    board = _board(maker, 8, 6)
    for face in "AB":
        _stain(maker, board, 80 / 12, 0, 8, 6, face)
    answer = _clear(maker, board)
    row = EXAMPLES["L3"]
    assert (answer["grade"], answer["surface_measure"], answer["proved"]) == ("FAS", row["SM"], True)
    assert len(answer["cuttings"]) == row["cuts_allowed"]
    assert answer["faces"]["A"]["units_needed"] == row["FAS_units_required"]
    (cutting,) = answer["cuttings"]
    assert cutting["length_mm"] * cutting["width_mm"] / (IN * FT) == pytest.approx(row["units_found"])
    assert answer["faces"]["A"]["clear_share"] == pytest.approx(80 / 96)
    assert answer["faces"]["A"]["rectangles"][0] == pytest.approx(cutting)


def test_published_example_that_is_too_narrow_for_fas(maker: Person) -> None:
    board = _board(maker, 10, 5)
    for face in "AB":
        _stain(maker, board, 6.5, 0, 10, 5, face)
    answer = _clear(maker, board)
    row = EXAMPLES["L4"]
    assert (answer["grade"], answer["surface_measure"]) == ("1 Common", row["SM"])
    assert answer["faces"]["A"]["units_needed"] == row["no1C_units_required"]
    assert answer["faces"]["A"]["units_found"] == pytest.approx(row["units_found"])
    assert "FAS" in answer["why"]


@pytest.mark.parametrize("row", [row for row in TABLE["grades"] if row["grade"] in {"FAS", "Selects", "No.1 Common"}])
def test_least_boards_of_the_chart_when_all_is_clear(row: dict[str, Any], maker: Person) -> None:
    width, length = (float(word) for word in row["min_board"].replace(" in x", "").removesuffix(" ft").split())
    assert _clear(maker, _board(maker, length, width))["grade"] == row["grade"].removeprefix("No.")


def test_the_poorer_face_decides_and_shows_its_cuttings(maker: Person) -> None:
    board = _board(maker, 12, 6)
    for x_ft in (3.2, 6.5, 9.8):
        _stain(maker, board, x_ft, 0, x_ft + 0.1, 6, "B")
    answer = _clear(maker, board)
    assert (answer["grade"], answer["graded_face"]) == ("F1F", "B")
    assert (answer["faces"]["A"]["grade"], answer["faces"]["B"]["grade"]) == ("FAS", "1 Common")
    assert answer["cuttings"] == answer["faces"]["B"]["cuttings"] != []
    assert answer["faces"]["A"]["clear_share"] == 1 > answer["faces"]["B"]["clear_share"]


def test_marks_that_were_removed_count_no_more(maker: Person) -> None:
    board = _board(maker, 12, 6)
    stain = _stain(maker, board, 3, 0, 9, 6, "A")
    assert _clear(maker, board)["faces"]["A"]["clear_share"] == pytest.approx(0.5)
    maker.client.delete(f"/api/marks/{stain['id']}/", headers={"If-Match": "*"})
    assert _clear(maker, board)["faces"]["A"]["clear_share"] == 1


def test_a_board_beyond_the_rules_is_refused_in_words(maker: Person) -> None:
    answer = maker.client.get(f"/api/boards/{_board(maker, 8, 90)['id']}/clear/")
    assert answer.status_code == 409
    assert "Width" in answer.json()["detail"]


def test_an_apprentice_sees_clear_wood_and_a_stranger_none(maker: Person, apprentice: Person, stranger: Person) -> None:
    board = _board(maker, 8, 6)
    assert _clear(apprentice, board)["grade"] == "FAS"
    for id in (board["id"], uuid.uuid4()):
        assert stranger.client.get(f"/api/boards/{id}/clear/").status_code == 404


def test_marks_are_read_once(maker: Person, django_assert_max_num_queries: Any) -> None:
    board = _board(maker, 12, 6)
    for number in range(10):
        _stain(maker, board, number, 1, number + 0.2, 2, "A")
    with django_assert_max_num_queries(8):
        _clear(maker, board)
