"""How bad numbers are refused, and that an answer's caution travels with it."""

import copy
import json
import math
import pickle

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from shopapi.craft.limits import Answer, OutOfRangeError, require, require_all, require_more_than_zero
from shopapi.craft.movement import width_change


@given(value=st.floats(0, 100))
def test_what_lies_in_the_range_comes_back(value):
    assert require("Humidity", value, 0, 100, "%") == value
    assert require_all("Humidity", [value, 0.0], 0, 100, "%")[0] == value


@pytest.mark.parametrize("value", [-0.001, 100.001, math.nan, math.inf, -math.inf])
def test_what_lies_outside_is_named_with_the_range(value):
    with pytest.raises(OutOfRangeError, match=r"^Humidity .*%? is out of range: it must be from 0 to 100 %\.$"):
        require("Humidity", value, 0, 100, "%")
    with pytest.raises(OutOfRangeError, match="from 0 to 100"):
        require_all("Humidity", np.array([50.0, value]), 0, 100, "%")


@pytest.mark.parametrize("value", [None, "12", True, [1]])
def test_what_is_no_number_is_refused_as_such(value):
    with pytest.raises(OutOfRangeError, match="must be a number"):
        require("Humidity", value, 0, 100)


@pytest.mark.parametrize("value", [0, -1, math.nan, math.inf])
def test_more_than_zero(value):
    with pytest.raises(OutOfRangeError):
        require_more_than_zero("Length", value, unit="mm")
    with pytest.raises(OutOfRangeError, match="at most 10 mm"):
        require_more_than_zero("Length", 11, 10, "mm")


def test_ranges_open_on_one_side_are_said_so():
    with pytest.raises(OutOfRangeError, match="2 mm or more"):
        require("Length", 1, 2, math.inf, "mm")
    with pytest.raises(OutOfRangeError, match="2 mm or less"):
        require("Length", 3, -math.inf, 2, "mm")


def test_an_answer_is_a_number_that_keeps_its_words():
    answer = Answer(1.5, "mm", "by hand", ["mind this"])
    assert answer + 1 == 2.5
    assert json.dumps({"value": answer}) == '{"value": 1.5}'
    for twin in (copy.deepcopy(answer), pickle.loads(pickle.dumps(answer))):  # noqa: S301 - our own bytes
        assert (twin, twin.unit, twin.method, twin.cautions) == (1.5, "mm", "by hand", ("mind this",))


def test_a_caution_reaches_whoever_holds_the_answer():
    assert any("6 to 14" in caution for caution in width_change(100, "white oak", 4, 16).cautions)
