"""What somebody typed into a working: read field by field, refused by name, and handed to its calculation."""

import math
from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager
from typing import TYPE_CHECKING, Any, NoReturn, cast

from shopapi.craft.limits import OutOfRangeError
from shopapi.craft.measures import MeasureError, parse_length
from shopapi.craft.movement.change import moisture_of
from shopapi.craft.species import Species, UnknownSpeciesError, species
from shopapi.workings.spoken import Tape, retold, spoken

if TYPE_CHECKING:
    from shopapi.workings.declare import Field

Value = float | str | None
# Less is nothing in a workshop, and would only send numbers to infinity.
_THINNEST_MM = 0.01


class InputRefusalError(ValueError):
    """Inputs that cannot be worked with: texts by field; a text of no single field stands under ""."""

    def __init__(self, errors: dict[str, list[str]]) -> None:
        super().__init__(" ".join(text for texts in errors.values() for text in texts))
        self.errors = errors


class Given:
    """The inputs of one calculation, every one of them read and in range; numbers in their field's own unit."""

    def __init__(self, values: Mapping[str, Value], tape: Tape) -> None:
        self.values = dict(values)
        self.tape = tape

    def number(self, name: str) -> float:
        return float(cast(float, self.values[name]))

    def maybe(self, name: str) -> float | None:
        """The number, or None where nothing was given."""
        return None if self.values[name] is None else self.number(name)

    def count(self, name: str) -> int:
        return round(self.number(name))

    def word(self, name: str) -> str:
        return str(self.values[name])

    def wood(self) -> Species:
        return species(self.word("species"))

    def moisture(self, name: str) -> float:
        """A moisture between which this wood moves; some woods stop moving sooner than most."""
        with self.about(name):
            moisture_of(self.wood(), self.number(name))
        return self.number(name)

    @contextmanager
    def about(self, name: str) -> Iterator[None]:
        """What craft refuses in here is a matter of this field."""
        try:
            yield
        except (OutOfRangeError, MeasureError) as refusal:
            raise InputRefusalError({name: [retold(str(refusal), self.tape)]}) from refusal

    def refuse(self, name: str, text: str) -> NoReturn:
        raise InputRefusalError({name: [text]})


def read_inputs(fields: Sequence["Field"], body: Any, tape: Tape) -> dict[str, Value]:
    """The inputs of a working from a posted body; what was left out has its default. Raises InputRefusalError."""
    if not isinstance(body, Mapping):
        raise InputRefusalError({"": ['Send the inputs by name, such as {"width_mm": 300}.']})
    errors: dict[str, list[str]] = {}
    values: dict[str, Value] = {}
    known = [field.name for field in fields]
    for name in body:
        if name not in known:
            errors[str(name)] = [f"Nothing of that name is asked here. Asked: {', '.join(known)}."]
    for field in fields:
        try:
            values[field.name] = _read(field, body.get(field.name), tape)
        except _RefusedError as refusal:
            errors[field.name] = [str(refusal)]
    if errors:
        raise InputRefusalError(errors)
    return values


class _RefusedError(ValueError):
    pass


def _read(field: "Field", given: Any, tape: Tape) -> Value:
    if given is None or (isinstance(given, str) and not given.strip()):
        default = field.default_for(inch=tape.unit == "inch")
        if default is None and field.need:
            raise _RefusedError(f"{field.label} is missing.")
        return default
    if field.kind == "species":
        return _wood(field, given)
    if field.kind == "choice":
        return _choice(field, given)
    return _in_range(field, _number(field, given, tape), tape)


def _wood(field: "Field", given: Any) -> str:
    try:
        return species(str(given)).name
    except UnknownSpeciesError as error:
        raise _RefusedError(f"{field.label}: {error}") from error


def _choice(field: "Field", given: Any) -> str:
    for choice in field.choices:
        if str(given) in (choice.value, choice.word):
            return choice.value
    known = ", ".join(choice.value for choice in field.choices)
    raise _RefusedError(f'{field.label}: "{given}" is not one of them. Choose from: {known}.')


def _number(field: "Field", given: Any, tape: Tape) -> float:
    if isinstance(given, str):
        return _typed(field, given, tape)
    if isinstance(given, bool) or not isinstance(given, int | float):
        raise _RefusedError(f"{field.label} must be a number, not {given!r}.")
    try:
        return float(given)
    except OverflowError:
        return math.copysign(math.inf, given)


def _typed(field: "Field", given: str, tape: Tape) -> float:
    if field.kind == "length":
        try:
            return parse_length(given, tape.unit, zero_ok=field.zero_ok)
        except MeasureError as error:
            raise _RefusedError(f"{field.label}: {error}") from error
    try:
        return float(given.strip().replace(",", "."))
    except ValueError:
        example = "3" if field.whole else "7.5"
        raise _RefusedError(f'{field.label}: "{given.strip()}" is not a number. Write it like {example}.') from None


def _in_range(field: "Field", value: float, tape: Tape) -> float:
    if not math.isfinite(value):
        raise _RefusedError(f"{field.label} must be a finite number, not {value}.")
    if field.whole and value != int(value):
        raise _RefusedError(f"{field.label} {value:g} is not a whole number. Write it like {math.ceil(value)}.")
    least = -math.inf if field.least is None else field.least
    most = math.inf if field.most is None else field.most
    more_than_least = field.kind == "length" and not field.zero_ok and least == 0
    if least <= value <= most and not (more_than_least and value < _THINNEST_MM):
        return value

    def said(number: float) -> str:
        return spoken(number, field.kind, tape, field.unit if field.kind == "number" else "")

    span = f"more than 0 and at most {said(most)}" if more_than_least else f"from {said(least)} to {said(most)}"
    if math.isinf(most):
        span = "more than 0" if more_than_least else f"{said(least)} or more"
    why = f" {field.beyond}" if field.beyond else ""
    raise _RefusedError(f"{field.label} {said(value)} is out of range: it must be {span}.{why}")
