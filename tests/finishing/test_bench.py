"""A surface plan from what the maker picks, and the bench log that holds to it."""

from datetime import datetime, timedelta
from typing import Any

import pytest
from django.utils import timezone

from shopapi.finishing.models import BenchEntry
from tests.conftest import Person


@pytest.fixture
def plan(maker: Person, commission: dict) -> dict[str, Any]:
    return maker.make(
        "surface-plans",
        commission=commission["id"],
        finish_class="shellac",
        coats=3,
        start_grit=120,
        final_grit=220,
        raise_grain=True,
    )


def steps(person: Person, plan: dict) -> list[dict[str, Any]]:
    rows = person.client.get(f"/api/steps/?plan={plan['id']}&page_size=200").json()["results"]
    return sorted(rows, key=lambda step: step["position"])


def tick(person: Person, step: dict, done_at: datetime, **more: Any) -> Any:
    body = {"step": step["id"], "done_at": done_at.isoformat(), **more}
    return person.client.post("/api/bench-entries/", body, format="json")


def test_steps_are_made_from_the_choice(maker: Person, plan: dict) -> None:
    made = steps(maker, plan)
    kinds = [step["kind"] for step in made]
    assert kinds.count("coat") == 3
    assert kinds.index("raise_grain") < kinds.index("coat")
    assert kinds[-1] == "cure"
    coats = [step for step in made if step["kind"] == "coat"]
    assert any("flammable" in caution.lower() for c in coats for caution in c["cautions"])


def test_coat_that_is_not_dry_cannot_be_ticked_without_saying_so(maker: Person, plan: dict) -> None:
    start = timezone.now() - timedelta(days=2)
    made = steps(maker, plan)
    coats = [step for step in made if step["kind"] == "coat"]
    for step in made[: made.index(coats[0]) + 1]:
        assert tick(maker, step, start, temp_c=20, rh_pct=50).status_code in {201, 409}
    waiting = next(step for step in made[made.index(coats[0]) + 1 :] if step["wait_hours"] > 0)
    early = tick(maker, waiting, start + timedelta(minutes=1))
    assert early.status_code == 409
    assert "dry enough" in early.json()["detail"]
    ready = datetime.fromisoformat(early.json()["ready_at"])
    assert ready > start
    assert not BenchEntry.objects.filter(step_id=waiting["id"]).exists()
    with_reason = tick(maker, waiting, start + timedelta(minutes=1), early_reason="test piece was dry")
    assert with_reason.status_code == 201
    assert with_reason.json()["early_reason"] == "test piece was dry"


def test_dry_coat_is_ticked(maker: Person, plan: dict) -> None:
    start = timezone.now() - timedelta(days=9)
    moment = start
    for step in steps(maker, plan):
        moment += timedelta(hours=step["wait_hours"] * 1.01 + 0.1)
        if moment > timezone.now():
            break
        assert tick(maker, step, moment, temp_c=20, rh_pct=50).status_code == 201, step
    assert BenchEntry.objects.count() > 5


def test_cold_and_damp_air_makes_it_wait_longer(maker: Person, commission: dict) -> None:
    ready = {}
    for name, air in {"warm": {"temp_c": 24, "rh_pct": 40}, "cold": {"temp_c": 12, "rh_pct": 75}}.items():
        plan = maker.make("surface-plans", commission=commission["id"], finish_class="waterborne_polyurethane")
        made = steps(maker, plan)
        coat = next(step for step in made if step["kind"] == "coat")
        waiting = next(s for s in made if s["position"] > coat["position"] and s["wait_hours"] > 0)
        start = timezone.now() - timedelta(hours=1)
        tick(maker, coat, start, early_reason="first", **air)
        answer = tick(maker, waiting, start + timedelta(seconds=1))
        ready[name] = datetime.fromisoformat(answer.json()["ready_at"]) - start
    assert ready["cold"] > ready["warm"]


def test_removed_abrading_leaves_its_wait_to_the_next_coat(maker: Person, commission: dict) -> None:
    """The wait for the first coat stands on the abrading; who leaves that out must still let the coat dry."""
    plan = maker.make("surface-plans", commission=commission["id"], finish_class="oil_urethane")
    made = steps(maker, plan)
    abrade = next(step for step in made if step["kind"] == "abrade")
    gone = maker.client.delete(f"/api/steps/{abrade['id']}/", headers={"If-Match": f'"{abrade["revision"]}"'})
    assert gone.status_code == 204
    first, second = [step for step in steps(maker, plan) if step["kind"] == "coat"][:2]
    assert second["wait_hours"] == abrade["wait_hours"] > 0
    start = timezone.now() - timedelta(hours=1)
    assert tick(maker, first, start, early_reason="first").status_code == 201
    assert tick(maker, second, start + timedelta(minutes=30)).status_code == 409


def test_log_says_who(apprentice: Person, maker: Person, plan: dict) -> None:
    step = steps(maker, plan)[0]
    entry = tick(apprentice, step, timezone.now()).json()
    assert entry["done_by_name"] == apprentice.member.name


def test_the_future_cannot_be_logged(maker: Person, plan: dict) -> None:
    assert tick(maker, steps(maker, plan)[0], timezone.now() + timedelta(hours=2)).status_code == 409


def test_unknown_finish_is_refused(maker: Person, commission: dict) -> None:
    body = {"commission": commission["id"], "finish_class": "varnish of secrets"}
    answer = maker.client.post("/api/surface-plans/", body, format="json")
    assert answer.status_code == 400
    assert "finish_class" in answer.json()["errors"]


def test_steps_are_the_makers_to_edit(maker: Person, plan: dict) -> None:
    first = steps(maker, plan)[0]
    answer = maker.client.patch(
        f"/api/steps/{first['id']}/", {"title": "Scrape", "position": 1.5}, format="json", headers={"If-Match": "*"}
    )
    assert (answer.json()["title"], answer.json()["position"]) == ("Scrape", 1.5)
    bad = maker.client.patch(
        f"/api/steps/{first['id']}/",
        {"wait_hours": 10, "window_hours": 4},
        format="json",
        headers={"If-Match": "*"},
    )
    assert bad.status_code == 400
