"""Answers kept with a commission or a part: worked out by the service, kept with their inputs, seen by the workshop."""

import uuid
from collections.abc import Callable
from typing import Any

import pytest

from tests.conftest import PART, Person

SLOT = {"species": "white oak", "distance_mm": 400, "mc_built_pct": 8, "mc_dry_pct": 6, "mc_damp_pct": 11}


@pytest.fixture
def keep(maker: Person, commission: dict[str, Any]) -> Callable[..., dict[str, Any]]:
    def make(**body: Any) -> dict[str, Any]:
        return maker.make("workings", **{"kind": "screw_slot", "commission": commission["id"], "inputs": SLOT, **body})

    return make


def slot_of(row: dict[str, Any]) -> float:
    return next(line["value"] for line in row["answer"]["lines"] if line["main"])


def test_kept_with_inputs_formula_sources_and_cautions(keep: Callable[..., dict[str, Any]]) -> None:
    row = keep(title="Slots under the top")
    assert row["title"] == "Slots under the top"
    assert slot_of(row) == pytest.approx(400 * 0.00365 * 5 + 6)
    assert row["inputs"]["distance_mm"] == 400
    assert row["inputs"]["shank_mm"] == 5, "a default that was used is an input too"
    assert row["answer"]["formula"]
    assert row["answer"]["sources"][0]["key"] == "WOOD-HANDBOOK"
    assert row["answer"]["cautions"]
    assert {"name": "species", "label": "Wood", "kind": "text", "unit": "", "value": None, "text": "white oak"} in row[
        "answer"
    ]["inputs"]


def test_a_posted_answer_is_never_trusted(keep: Callable[..., dict[str, Any]]) -> None:
    row = keep(answer={"lines": [{"label": "Slot", "value": 1, "main": True}]})
    assert slot_of(row) == pytest.approx(400 * 0.00365 * 5 + 6)


def test_it_is_called_by_its_kind_where_nobody_named_it(keep: Callable[..., dict[str, Any]]) -> None:
    assert keep()["title"] == "Slot for a screw or bolt"


def test_it_stays_as_it_was_but_for_its_name_and_part(
    keep: Callable[..., dict[str, Any]], maker: Person, commission: dict[str, Any]
) -> None:
    row, part = keep(), maker.make("parts", commission=commission["id"], **PART)
    changed = maker.client.patch(
        f"/api/workings/{row['id']}/",
        {"title": "Apron", "part": part["id"], "kind": "mass", "inputs": {}, "answer": {}},
        format="json",
        headers={"If-Match": f'"{row["revision"]}"'},
    )
    assert changed.status_code == 200, changed.content
    after = changed.json()
    assert (after["title"], after["part"]) == ("Apron", part["id"])
    assert (after["kind"], after["inputs"], after["answer"]) == (row["kind"], row["inputs"], row["answer"])


def test_a_part_of_another_commission_is_refused(keep: Callable[..., dict[str, Any]], maker: Person) -> None:
    other = maker.make("commissions", title="Chest")
    part = maker.make("parts", commission=other["id"], **PART)
    row = keep()
    answer = maker.client.patch(
        f"/api/workings/{row['id']}/", {"part": part["id"]}, format="json", headers={"If-Match": "*"}
    )
    assert answer.status_code == 400
    assert "another commission" in answer.json()["errors"]["part"][0]


def test_when_its_part_goes_it_stays_and_with_its_commission_it_goes(
    keep: Callable[..., dict[str, Any]], maker: Person, commission: dict[str, Any]
) -> None:
    part = maker.make("parts", commission=commission["id"], **PART)
    row = keep(part=part["id"])
    assert maker.client.delete(f"/api/parts/{part['id']}/", headers={"If-Match": "*"}).status_code == 204
    assert maker.client.get(f"/api/workings/{row['id']}/").status_code == 200
    assert maker.client.delete(f"/api/commissions/{commission['id']}/", headers={"If-Match": "*"}).status_code == 204
    assert maker.client.get(f"/api/workings/{row['id']}/").status_code == 404
    gone = [one for one in maker.client.get("/api/changes/").json()["entries"] if one["id"] == row["id"]]
    assert [one["gone"] for one in gone] == [True]


def test_bad_inputs_keep_nothing_and_are_named(maker: Person, commission: dict[str, Any]) -> None:
    body = {"id": str(uuid.uuid4()), "kind": "screw_slot", "commission": commission["id"]}
    answer = maker.client.post(
        "/api/workings/", {**body, "inputs": {**SLOT, "mc_damp_pct": 44}}, format="json"
    )  # fmt: skip
    assert answer.status_code == 400
    assert "44 %" in answer.json()["errors"]["inputs.mc_damp_pct"][0]
    assert maker.client.post("/api/workings/", {**body, "inputs": [1]}, format="json").status_code == 400
    assert maker.client.post("/api/workings/", {**body, "kind": "flying", "inputs": {}}, format="json").json()[
        "errors"
    ]["kind"]
    assert maker.client.get("/api/workings/").json()["results"] == []


def test_the_whole_workshop_sees_it_and_it_is_found_by_commission(
    keep: Callable[..., dict[str, Any]], apprentice: Person, stranger: Person, commission: dict[str, Any]
) -> None:
    row = keep()
    listed = apprentice.client.get(f"/api/workings/?commission={commission['id']}").json()["results"]
    assert [one["id"] for one in listed] == [row["id"]]
    feed = [one for one in apprentice.client.get("/api/changes/").json()["entries"] if one["kind"] == "working"]
    assert feed[0]["row"]["answer"]["lines"] == row["answer"]["lines"]
    assert stranger.client.get(f"/api/workings/{row['id']}/").status_code == 404
    assert stranger.client.get("/api/workings/").json()["results"] == []


def test_a_helper_may_keep_one_too(apprentice: Person, commission: dict[str, Any]) -> None:
    apprentice.make("workings", kind="screw_slot", commission=commission["id"], inputs=SLOT)


def test_the_same_write_twice_keeps_one(maker: Person, commission: dict[str, Any]) -> None:
    body = {"id": str(uuid.uuid4()), "kind": "screw_slot", "commission": commission["id"], "inputs": SLOT}
    for _ in range(2):
        answer = maker.client.post("/api/workings/", body, format="json", headers={"Idempotency-Key": "one"})
        assert answer.status_code == 201
    assert len(maker.client.get("/api/workings/").json()["results"]) == 1
