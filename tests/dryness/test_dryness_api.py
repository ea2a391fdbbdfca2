"""Dryness of a board through the API: what it reads, what it refuses, who sees it."""

import uuid
from datetime import timedelta
from typing import Any

import pytest
from django.utils import timezone

from shopapi.finishing.models import BenchEntry, Step
from tests.conftest import Person


def _reading(person: Person, board: dict[str, Any], **fields: Any) -> dict[str, Any]:
    given = {"mc_pct": 12, "read_on": timezone.localdate().isoformat(), "meter": "Pin meter"}
    return person.make("readings", board=board["id"], **{**given, **fields})


def _ask(person: Person, board: dict[str, Any], commission: dict[str, Any]) -> dict[str, Any]:
    answer = person.client.get(f"/api/boards/{board['id']}/dryness/?commission={commission['id']}")
    assert answer.status_code == 200, answer.content
    return answer.json()


def _note_air(maker: Person, commission: dict[str, Any], temp_c: float, rh_pct: float, days_ago: int = 1) -> None:
    plan = maker.make("surface-plans", commission=commission["id"], finish_class="shellac")
    step = Step.objects.filter(plan_id=plan["id"]).order_by("position")[0]
    BenchEntry(
        workshop=maker.workshop,
        step=step,
        done_at=timezone.now() - timedelta(days=days_ago),
        temp_c=temp_c,
        rh_pct=rh_pct,
    ).save()


def test_reading_keeps_where_and_how_warm(maker: Person, board: dict, commission: dict) -> None:
    kept = _reading(maker, board, place="by the stove", temp_c=18.5)
    assert (kept["place"], kept["temp_c"]) == ("by the stove", 18.5)
    plain = _reading(maker, board)
    assert (plain["place"], plain["temp_c"]) == ("", None)
    body = {"board": board["id"], "mc_pct": 8, "read_on": "2026-03-04", "temp_c": 180}
    refused = maker.client.post("/api/readings/", body, format="json")
    assert refused.status_code == 400
    assert "temp_c" in refused.json()["errors"]


def test_days_yet_in_the_air_of_the_bench_log(maker: Person, board: dict, commission: dict) -> None:
    reading = _reading(maker, board)
    _note_air(maker, commission, 20, 40)
    answer = _ask(maker, board, commission)
    assert (answer["mc_pct"], answer["reading"], answer["ready"]) == (12, reading["id"], False)
    assert answer["shop_pct"] == pytest.approx(7.7, abs=0.1)
    assert answer["days"] > 7
    assert "days yet" in answer["words"]
    _note_air(maker, commission, 18, 80, days_ago=0)
    damp = _ask(maker, board, commission)
    assert damp["days"] is None
    assert "damper than the home" in damp["words"]


def test_air_of_long_ago_does_not_count(maker: Person, board: dict, commission: dict) -> None:
    _reading(maker, board)
    _note_air(maker, commission, 18, 80, days_ago=90)
    answer = _ask(maker, board, commission)
    assert answer["shop_pct"] is None
    assert any("No air is noted" in caution for caution in answer["cautions"])


def test_newest_reading_counts(maker: Person, board: dict, commission: dict) -> None:
    _reading(maker, board, mc_pct=8)
    _reading(maker, board, mc_pct=14, read_on="2026-01-04")
    answer = _ask(maker, board, commission)
    assert (answer["mc_pct"], answer["ready"], answer["days"]) == (8, True, 0)


def test_home_of_the_commission_is_the_target(maker: Person, board: dict, commission: dict) -> None:
    _reading(maker, board, mc_pct=8)
    damp_home = maker.make("commissions", title="Bench by the sea", home_rh_dry_pct=60, home_rh_damp_pct=75)
    assert _ask(maker, board, commission)["ready"]
    assert not _ask(maker, board, damp_home)["ready"]


@pytest.mark.parametrize(
    ("meter", "corrected"),
    [("pin meter", True), ("Two pins, 8 mm", True), ("pinless", False), ("pin-less meter", False), ("", False)],
)
def test_cold_wood_under_a_pin_meter_is_damper_than_shown(
    meter: str, corrected: bool, maker: Person, board: dict, commission: dict
) -> None:
    _reading(maker, board, mc_pct=9.5, temp_c=-5, meter=meter)
    answer = _ask(maker, board, commission)
    assert answer["mc_pct"] == 9.5
    assert (answer["wood_mc_pct"] > 9.5) is corrected
    assert answer["ready"] is not corrected


def test_board_that_was_never_measured(maker: Person, board: dict, commission: dict) -> None:
    answer = _ask(maker, board, commission)
    assert (answer["mc_pct"], answer["reading"], answer["ready"]) == (None, None, False)
    assert "Not measured" in answer["words"]


def test_odd_questions_are_refused_in_words(maker: Person, board: dict, commission: dict) -> None:
    address = f"/api/boards/{board['id']}/dryness/"
    for query, words in (("", "which commission"), ("?commission=desk", "no commission's id")):
        answer = maker.client.get(f"{address}{query}")
        assert answer.status_code == 400
        assert words in answer.json()["detail"]
    assert maker.client.get(f"{address}?commission={uuid.uuid4()}").status_code == 404


def test_an_apprentice_asks_too_and_a_stranger_finds_nothing(
    maker: Person, apprentice: Person, stranger: Person, board: dict, commission: dict
) -> None:
    _reading(apprentice, board, mc_pct=8)
    assert _ask(apprentice, board, commission)["ready"]
    theirs = stranger.make("commissions", title="Desk")
    own_board = stranger.make("boards", tag="S1", species="ash", length_mm=900, width_mm=90, thickness_mm=27)
    for one, other in ((board, commission), (board, theirs), (own_board, commission)):
        answer = stranger.client.get(f"/api/boards/{one['id']}/dryness/?commission={other['id']}")
        assert answer.status_code == 404
