"""Sizes are typed as people write them and do not drift."""

import pytest

from tests.conftest import PART, Person


@pytest.mark.parametrize(
    ("typed", "mm"),
    [
        ("29 3/4", 755.65),
        ('29-3/4"', 755.65),
        ("2' 5 3/4\"", 755.65),
        ("755 mm", 755.0),
        ("75.5 cm", 755.0),
        (755, 755.0),
    ],
)
def test_sizes_as_people_write_them(typed: object, mm: float, stranger: Person) -> None:
    """The stranger's workshop measures in inches: bare text is inches, a bare number is always mm."""
    commission = stranger.make("commissions", title="Desk")
    part = stranger.make("parts", commission=commission["id"], **{**PART, "length_mm": typed})
    assert part["length_mm"] == pytest.approx(mm, abs=1e-9)
    read = stranger.client.get(f"/api/parts/{part['id']}/").json()
    saved = stranger.client.put(
        f"/api/parts/{part['id']}/", read, format="json", headers={"If-Match": f'"{read["revision"]}"'}
    )
    assert saved.json()["length_mm"] == read["length_mm"]


@pytest.mark.parametrize(
    "typed", [0, -5, "0", "-3/4", "NaN", float("inf"), "10 km", 10_000_000, "", "long", None, True]
)
def test_odd_sizes_are_refused(typed: object, maker: Person, commission: dict) -> None:
    body = {**PART, "length_mm": typed, "commission": commission["id"]}
    if typed == float("inf"):
        answer = maker.client.generic("POST", "/api/parts/", '{"length_mm": Infinity}', "application/json")
    else:
        answer = maker.client.post("/api/parts/", body, format="json")
    assert answer.status_code == 400
    assert "length_mm" in answer.json().get("errors", {}) or "JSON" in answer.json()["detail"]
    assert maker.client.get("/api/parts/").json()["count"] == 0


def test_unknown_species_names_the_near_ones(maker: Person, commission: dict) -> None:
    answer = maker.client.post(
        "/api/parts/", {**PART, "species": "whit oak", "commission": commission["id"]}, format="json"
    )
    assert answer.status_code == 400
    assert "white oak" in answer.json()["errors"]["species"][0]


def test_species_is_kept_under_one_name(maker: Person, commission: dict) -> None:
    part = maker.make("parts", **{**PART, "species": "Hard Maple"}, commission=commission["id"])
    assert part["species"] == "sugar maple"


def test_home_cannot_be_drier_when_damp(maker: Person, commission: dict) -> None:
    answer = maker.client.patch(
        f"/api/commissions/{commission['id']}/",
        {"home_rh_dry_pct": 60},
        format="json",
        headers={"If-Match": "*"},
    )
    assert answer.status_code == 400
    assert "home_rh_dry_pct" in answer.json()["errors"]


def test_part_stays_with_its_commission(maker: Person, commission: dict) -> None:
    part = maker.make("parts", **PART, commission=commission["id"])
    other = maker.make("commissions", title="Another")
    answer = maker.client.patch(
        f"/api/parts/{part['id']}/", {"commission": other["id"]}, format="json", headers={"If-Match": "*"}
    )
    assert answer.json()["commission"] == commission["id"]


def test_client_with_commissions_is_not_lost(maker: Person) -> None:
    client = maker.make("clients", name="A client")
    maker.make("commissions", title="Desk", client=client["id"])
    answer = maker.client.delete(f"/api/clients/{client['id']}/", headers={"If-Match": "*"})
    assert answer.status_code == 409
    assert maker.client.get(f"/api/clients/{client['id']}/").status_code == 200


BLANK = {"blank_holds": 2, "blank_length_mm": 620, "blank_width_mm": "12 cm"}


def test_several_out_of_one_blank(maker: Person, commission: dict) -> None:
    plain = maker.make("parts", **PART, commission=commission["id"])
    assert (plain["blank_holds"], plain["blank_length_mm"], plain["blank_width_mm"]) == (1, None, None)
    part = maker.make("parts", **PART, **BLANK, commission=commission["id"])
    assert (part["blank_holds"], part["blank_length_mm"], part["blank_width_mm"]) == (2, 620, 120)
    without = {"blank_holds": 1, "blank_length_mm": None, "blank_width_mm": None}
    answer = maker.client.patch(f"/api/parts/{part['id']}/", without, format="json", headers={"If-Match": "*"})
    assert {name: answer.json()[name] for name in without} == without


def test_a_curved_piece_may_have_a_larger_blank_of_its_own(maker: Person, commission: dict) -> None:
    part = maker.make("parts", **{**PART, **BLANK, "blank_holds": 1}, commission=commission["id"])
    assert (part["blank_holds"], part["blank_width_mm"]) == (1, 120)


@pytest.mark.parametrize(
    ("changes", "field", "words"),
    [
        ({"blank_length_mm": 599}, "blank_length_mm", "less long than one piece"),
        ({"blank_width_mm": 79}, "blank_width_mm", "less wide than one piece"),
        ({"length_mm": 700}, "blank_length_mm", "less long than one piece"),
        ({"blank_length_mm": None, "blank_width_mm": None}, "blank_length_mm", "how long the blank is"),
        ({"blank_width_mm": None}, "blank_width_mm", "how wide the blank is"),
        ({"blank_holds": 1, "blank_width_mm": None}, "blank_width_mm", "how wide the blank is"),
        ({"strip_count": 3}, "blank_holds", "Set strips to 1"),
        ({"strip_count": 0}, "blank_holds", "Set strips to 1"),
        ({"blank_holds": 0}, "blank_holds", "1"),
        ({"blank_holds": 21}, "blank_holds", "20"),
    ],
)
def test_blanks_that_cannot_be_are_refused(
    changes: dict, field: str, words: str, maker: Person, commission: dict
) -> None:
    part = maker.make("parts", **PART, **BLANK, commission=commission["id"])
    answers = [
        maker.client.post("/api/parts/", {**PART, **BLANK, **changes, "commission": commission["id"]}, format="json"),
        maker.client.patch(f"/api/parts/{part['id']}/", changes, format="json", headers={"If-Match": "*"}),
    ]
    for answer in answers:
        assert answer.status_code == 400
        assert words in answer.json()["errors"][field][0]
    assert maker.client.get(f"/api/parts/{part['id']}/").json()["revision"] == part["revision"]
