"""Turns of steps, by the cases the phone's port runs too: tests/vectors/turns.json."""

import json
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

import pytest

from shopapi.craft.finish import finish_class
from shopapi.craft.turns import Done, PlanStep, turn_of

VECTORS = json.loads((Path(__file__).parents[1] / "vectors" / "turns.json").read_text(encoding="utf-8"))
START = datetime(2027, 3, 1, 8, tzinfo=UTC)


def _hours(moment: datetime | None) -> float | None:
    return None if moment is None else (moment - START) / timedelta(hours=1)


@pytest.mark.parametrize("case", VECTORS["cases"], ids=lambda case: case["name"])
def test_a_turn_by_hand(case: dict[str, Any]) -> None:
    assert finish_class(case["finish"]).drying == case["drying"]
    steps = [PlanStep(*step) for step in case["steps"]]
    log = [Done(step, START + timedelta(hours=hours), temp, rh) for step, hours, temp, rh in case["log"]]
    turn = turn_of(case["step"], steps, log, case["finish"])
    got = (None, None) if turn is None else (_hours(turn.earliest), _hours(turn.latest))
    assert got == pytest.approx((case["earliest"], case["latest"]), abs=VECTORS["tolerance_hours"])
