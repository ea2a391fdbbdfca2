"""How craft refuses bad numbers and how an answer beyond a formula's validated range carries its warning."""

import math
import warnings
from collections.abc import Iterable
from typing import Any

import numpy as np
from numpy.typing import ArrayLike, NDArray

Numbers = NDArray[np.float64]


class OutOfRangeError(ValueError):
    """A value no formula here can answer for; the message names the value and the range."""


class BeyondRange(UserWarning):
    """An array answer reaches beyond the range its formula was validated in."""


class Answer(float):
    """A number that says how it was got and what to beware of; it computes like any float.

    `unit` is its unit, `method` the formula used, `cautions` what must be shown wherever the number is shown.
    """

    unit: str
    method: str
    cautions: tuple[str, ...]

    def __new__(cls, value: float, unit: str = "", method: str = "", cautions: Iterable[str] = ()) -> "Answer":
        answer = super().__new__(cls, value)
        answer.unit, answer.method, answer.cautions = unit, method, tuple(cautions)
        return answer


def require(what: str, value: float, low: float, high: float, unit: str = "") -> float:
    """Give the value back if it lies in [low, high].

    Raises OutOfRangeError naming the value and the range. Source: OWN, refusal in the maker's words.
    """
    if not isinstance(value, (int, float, np.integer, np.floating)) or isinstance(value, bool):
        raise OutOfRangeError(f"{what} must be a number, not {value!r}.")
    if math.isnan(value) or not low <= value <= high:
        raise OutOfRangeError(f"{what} {_number(value, unit)} is out of range: {_span(low, high, unit)}.")
    return float(value)


def require_more_than_zero(what: str, value: float, high: float = math.inf, unit: str = "") -> float:
    """Give the value back if it lies in (0, high].

    Raises OutOfRangeError naming the value and the range. Source: OWN, refusal in the maker's words.
    """
    require(what, value, -math.inf, math.inf, unit)
    if not 0 < value <= high or math.isinf(value):
        upper = "" if math.isinf(high) else f" and at most {_number(high, unit)}"
        raise OutOfRangeError(f"{what} {_number(value, unit)} is out of range: it must be more than 0{upper}.")
    return float(value)


def require_all(what: str, values: ArrayLike, low: float, high: float, unit: str = "") -> Numbers:
    """The values as an array of floats, if every one lies in [low, high].

    Raises OutOfRangeError naming the first value that does not. Source: OWN, refusal in the maker's words.
    """
    numbers = np.asarray(values, dtype=np.float64)
    # One pass each for least and greatest; NaN fails both comparisons.
    if numbers.size and not (numbers.min() >= low and numbers.max() <= high):
        bad = numbers[~((numbers >= low) & (numbers <= high))].flat[0]
        raise OutOfRangeError(f"{what} {_number(float(bad), unit)} is out of range: {_span(low, high, unit)}.")
    return numbers


def warn_beyond(message: str) -> None:
    """Raise Python's own warning: arrays carry no text, so this is how their caution travels. Source: OWN."""
    warnings.warn(message, BeyondRange, stacklevel=3)


def is_scalar(*values: Any) -> bool:
    """Whether every value is a single number. Source: OWN."""
    return all(np.ndim(value) == 0 for value in values)


def _number(value: float, unit: str) -> str:
    return f"{value:g} {unit}".strip()


def _span(low: float, high: float, unit: str) -> str:
    if math.isinf(low) and math.isinf(high):
        return "it must be a finite number"
    if math.isinf(high):
        return f"it must be {_number(low, unit)} or more"
    if math.isinf(low):
        return f"it must be {_number(high, unit)} or less"
    return f"it must be from {low:g} to {_number(high, unit)}"
