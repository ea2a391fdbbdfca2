"""Whatever the fields allow is answered, or refused by the name of a field; never a fault, never an infinite number."""

import json
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from shopapi.craft.species import all_species
from shopapi.workings.declare import Field
from shopapi.workings.given import InputRefusalError
from shopapi.workings.kinds import KINDS
from shopapi.workings.services import work_out
from shopapi.workings.spoken import Tape

WOODS = [one.name for one in all_species()]


def typed(field: Field) -> st.SearchStrategy[Any]:
    if field.kind == "species":
        return st.sampled_from(WOODS)
    if field.kind == "choice":
        return st.sampled_from([choice.value for choice in field.choices])
    assert field.least is not None, field.name
    assert field.most is not None, field.name
    if field.whole:
        return st.integers(int(field.least), int(field.most))
    numbers = st.floats(field.least, field.most, allow_subnormal=False)
    ends = st.sampled_from([field.least, field.most])
    some = numbers | ends | st.floats(field.least, field.least + (field.most - field.least) / 50)
    return some if field.need else some | st.none()


@pytest.mark.parametrize("key", KINDS)
@settings(max_examples=60, deadline=None)
@given(data=st.data())
def test_any_inputs_in_range(key: str, data: st.DataObject) -> None:
    kind = KINDS[key]
    inputs = {field.name: data.draw(typed(field), label=field.name) for field in kind.fields}
    tape = data.draw(st.sampled_from([Tape("inch"), Tape("metric")]))
    answer, errors = outcome(key, inputs, tape)
    assert set(errors) <= set(inputs), errors
    assert all(text for texts in errors.values() for text in texts)
    if answer is not None:
        json.dumps(answer, allow_nan=False)
        assert any(line["main"] for line in answer["lines"])


def outcome(key: str, inputs: dict[str, Any], tape: Tape) -> tuple[dict[str, Any] | None, dict[str, list[str]]]:
    try:
        return work_out(kind=KINDS[key], inputs=inputs, tape=tape), {}
    except InputRefusalError as refusal:
        return None, refusal.errors
