"""What came out of boards, the waste learned from it, and the purchase that reckons with it."""

from typing import Any

import pytest

from tests.conftest import BOARD, PART, Person
from tests.layouts.test_by_hand import by_hand, pin
from tests.layouts.test_layouts_api import worked_out

WHOLE_MM2 = 2400 * 200


def waste(person: Person) -> list[dict[str, Any]]:
    answer = person.client.get("/api/waste/")
    assert answer.status_code == 200
    return answer.json()


def test_waste_is_a_plain_average_by_species_and_grade(maker: Person, apprentice: Person, board: dict) -> None:
    for share, grade in ((0.6, "FAS"), (0.8, "FAS"), (0.5, "")):
        apprentice.make("outcomes", board=board["id"], got_mm2=share * WHOLE_MM2, grade=grade)
    maple = maker.make("boards", tag="M", **{**BOARD, "species": "hard maple"})
    maker.make("outcomes", board=maple["id"], board_mm2=1000, got_mm2=1000)
    assert waste(maker) == waste(apprentice)
    assert [(row["species"], row["grade"], row["waste_pct"], row["count"]) for row in waste(maker)] == [
        ("sugar maple", "", 0, 1),
        ("white oak", "", 50, 1),
        ("white oak", "FAS", 30, 2),
    ]
    assert waste(maker)[2]["words"] == "30 % of white oak, FAS became waste: the plain average of 2 boards."


def test_the_areas_are_those_of_the_layout(maker: Person, commission: dict, board: dict) -> None:
    rail = maker.make("parts", commission=commission["id"], **{**PART, "quantity": 2})
    layout = by_hand(maker, commission, [pin(board, rail), pin(board, rail, 2, y=90)])
    outcome = maker.make("outcomes", board=board["id"], layout=layout["id"])
    kept = sum(row["length_mm"] * row["width_mm"] for row in layout["figures"]["leftovers"])
    assert outcome["species"] == "white oak"
    assert outcome["got_mm2"] == 2 * 625 * 86
    assert outcome["board_mm2"] == pytest.approx(WHOLE_MM2 - kept)
    assert outcome["made_on"]


def test_an_outcome_can_be_set_right_and_taken_away(maker: Person, board: dict) -> None:
    made = maker.make("outcomes", board=board["id"], got_mm2=100)
    address = f"/api/outcomes/{made['id']}/"
    better = maker.client.patch(address, {"got_mm2": 0.9 * WHOLE_MM2}, format="json", headers={"If-Match": "*"})
    assert better.status_code == 200
    assert waste(maker)[0]["waste_pct"] == 10
    maker.client.delete(address, headers={"If-Match": "*"})
    assert waste(maker) == []


@pytest.mark.parametrize(
    ("body", "field", "words"),
    [
        ({}, "got_mm2", "how much came out"),
        ({"got_mm2": 2 * WHOLE_MM2}, "got_mm2", "More came out than there was wood"),
        ({"got_mm2": -1}, "got_mm2", ""),
        ({"got_mm2": 1, "board_mm2": 0}, "board_mm2", ""),
        ({"got_mm2": 1, "made_on": "soon"}, "made_on", ""),
    ],
)
def test_what_cannot_be_is_refused(body: dict, field: str, words: str, maker: Person, board: dict) -> None:
    answer = maker.client.post("/api/outcomes/", {"board": board["id"], **body}, format="json")
    assert answer.status_code == 400
    assert words in answer.json()["errors"][field][0]


def test_a_layout_that_cuts_nothing_from_the_board_gives_no_areas(maker: Person, commission: dict, board: dict) -> None:
    rail = maker.make("parts", commission=commission["id"], **PART)
    other = maker.make("boards", tag="B2", **BOARD)
    layout = by_hand(maker, commission, [pin(other, rail)])
    body = {"board": board["id"], "layout": layout["id"]}
    answer = maker.client.post("/api/outcomes/", body, format="json")
    assert "cuts nothing from B1" in answer.json()["errors"]["layout"][0]


def test_strangers_learn_nothing(stranger: Person, maker: Person, board: dict) -> None:
    maker.make("outcomes", board=board["id"], got_mm2=100)
    assert waste(stranger) == []
    stranger.client.logout()
    assert stranger.client.get("/api/waste/").status_code == 401


def test_what_finds_no_place_says_what_to_buy(maker: Person, commission: dict, board: dict) -> None:
    """Reckoned here by hand: 3 wide panels of 625 x 306 mm, two in a row of a 2400 mm board and one more."""
    maker.make("parts", commission=commission["id"], **{**PART, "width_mm": 300, "quantity": 3})
    (left,) = worked_out(maker, commission)["unplaced"]
    purchase = left["purchase"]
    assert (purchase["least_clear_length_mm"], purchase["least_clear_width_mm"]) == (625, 306)
    assert (purchase["thickness_mm"], purchase["species"]) == (25, "white oak")
    assert purchase["waste_pct"] == 30
    assert "common practice" in purchase["waste_words"]
    # Three pieces with three kerfs but the last, the trims of one row, one kerf beside it; 30 % more as waste.
    least_mm2 = (50 + 3 * (625 + 4) - 4) * (306 + 4) / 0.7
    assert purchase["m3"] == pytest.approx(least_mm2 * 25 / 1e9, abs=1e-4)
    assert purchase["board_feet"] == pytest.approx(least_mm2 * 25.4 / 25.4**3 / 144, abs=0.1)


def test_what_was_learned_is_reckoned_in(maker: Person, commission: dict, board: dict) -> None:
    maker.make("parts", commission=commission["id"], **{**PART, "width_mm": 300})
    (before,) = worked_out(maker, commission)["unplaced"]
    maker.make("outcomes", board=board["id"], got_mm2=0.4 * WHOLE_MM2)
    (after,) = worked_out(maker, commission)["unplaced"]
    assert after["purchase"]["waste_pct"] == 60
    assert "one board" in after["purchase"]["waste_words"]
    assert after["purchase"]["m3"] == pytest.approx(before["purchase"]["m3"] * 0.7 / 0.4, rel=0.01)


def test_wood_that_is_not_in_the_rack_is_to_buy_too(maker: Person, commission: dict, board: dict) -> None:
    maker.make("parts", commission=commission["id"], **PART)
    leg = maker.make("parts", commission=commission["id"], **{**PART, "species": "black walnut", "thickness_mm": 45})
    (left,) = worked_out(maker, commission)["unplaced"]
    assert left["part"] == leg["id"]
    assert (left["purchase"]["species"], left["purchase"]["thickness_mm"]) == ("black walnut", 50)
    assert left["purchase"]["board_feet"] > 0


def test_looks_are_told_and_a_mark_beside_a_seen_part_costs_some(maker: Person, commission: dict, board: dict) -> None:
    rail = maker.make("parts", commission=commission["id"], **{**PART, "show_faces": "both"})
    clean = by_hand(maker, commission, [pin(board, rail)])
    shape = {"type": "ellipse", "cx_mm": 300, "cy_mm": 104, "rx_mm": 12, "ry_mm": 9}
    maker.make("marks", board=board["id"], face="A", kind="stain", shape=shape)
    close = by_hand(maker, commission, [pin(board, rail)])
    assert 0 <= close["figures"]["looks"] < clean["figures"]["looks"] <= 1
