"""When a step may start: by the cases shared with the phone, and what must hold of any of them."""

import json
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shopapi.craft.turns import Done, PlanStep, turn_of

VECTORS = json.loads((Path(__file__).parents[1] / "vectors" / "turns.json").read_text("utf-8"))
STEPS = [PlanStep(**step) for step in VECTORS["steps"]]
START = datetime(2026, 3, 2, 8, tzinfo=UTC)


def log_of(case: dict) -> list[Done]:
    return [Done(**{**done, "done_at": datetime.fromisoformat(done["done_at"])}) for done in case["log"]]


@pytest.mark.parametrize("case", VECTORS["cases"], ids=lambda case: case["name"])
def test_shared_cases(case: dict) -> None:
    turn = turn_of(case["step"], STEPS, log_of(case), case["finish"])
    if case["turn"] is None:
        assert turn is None
        return
    assert turn is not None
    assert turn.before.step == case["turn"]["before"]
    slack = timedelta(seconds=VECTORS["tolerance_s"])
    assert abs(turn.earliest - datetime.fromisoformat(case["turn"]["earliest"])) <= slack
    latest = case["turn"]["latest"]
    assert (turn.latest is None) == (latest is None)
    if latest:
        assert turn.latest
        assert abs(turn.latest - datetime.fromisoformat(latest)) <= slack


def test_by_hand() -> None:
    """12 h at 20 °C and 50 % RH; twice that at 10 °C (common practice, no source); a quarter more at 75 % RH."""
    steps = [PlanStep("coat", 1, "coat", 0, None), PlanStep("next", 2, "coat", 12, None)]
    for temp_c, rh_pct, hours in ((20, 50, 12), (10, 50, 24), (20, 75, 15)):
        turn = turn_of("next", steps, [Done("coat", START, temp_c, rh_pct)], "oil_urethane")
        assert turn is not None
        assert turn.earliest == START + timedelta(hours=hours)


@given(
    ticked=st.sets(st.sampled_from([step.id for step in STEPS[:-1]]), min_size=1),
    temp_c=st.floats(0, 45),
    rh_pct=st.floats(0, 100),
)
def test_leaving_steps_out_never_shortens_the_wait(ticked: set[str], temp_c: float, rh_pct: float) -> None:
    """Everything done at once, then the last step: with fewer ticks it never comes earlier."""
    last = STEPS[-1].id
    log = [Done(step, START, temp_c, rh_pct) for step in ticked]
    everything = [Done(step.id, START, temp_c, rh_pct) for step in STEPS[:-1]]
    turn, shortest = turn_of(last, STEPS, log, "shellac"), turn_of(last, STEPS, everything, "shellac")
    assert turn is not None
    assert shortest is not None
    assert turn.earliest >= shortest.earliest
