"""Turns what was printed into JSON and back, so that a paper can be drawn again from what it said."""

import base64
import dataclasses
import types
import typing
from datetime import date, datetime
from functools import cache
from typing import Any, TypeVar

Record = TypeVar("Record")

VERSION = 1


class FrozenError(ValueError):
    """Stored data that this version cannot read; the message says which field and why."""


def to_json(record: object) -> dict[str, Any]:
    """Plain JSON values of a frozen record, with the version of the shape. Source: OWN, the shape of the dataclasses.

    record: an instance of a dataclass of this package. Dates become ISO text, bytes base64 text.
    """
    return {"version": VERSION, **_plain(record)}


def from_json(kind: type[Record], stored: dict[str, Any]) -> Record:
    """The record that `to_json` was given. Source: OWN, the inverse of `to_json`.

    kind: the dataclass wanted. stored: what was kept. Fields that were added since take their defaults.
    Raises FrozenError for another version, a missing field or a value of the wrong kind.
    """
    if not isinstance(stored, dict) or stored.get("version") != VERSION:
        raise FrozenError(f"This was stored in another form than version {VERSION}; print it anew.")
    record: Record = _record(kind, {key: value for key, value in stored.items() if key != "version"}, kind.__name__)
    return record


def _plain(value: object) -> Any:
    if dataclasses.is_dataclass(value) and not isinstance(value, type):
        return {field.name: _plain(getattr(value, field.name)) for field in dataclasses.fields(value)}
    if isinstance(value, tuple):
        return [_plain(item) for item in value]
    if isinstance(value, date):
        return value.isoformat()
    if isinstance(value, bytes):
        return base64.b64encode(value).decode("ascii")
    return value


@cache
def _types(kind: Any) -> dict[str, Any]:
    return typing.get_type_hints(kind)


def _record(kind: Any, stored: Any, where: str) -> Any:
    if not isinstance(stored, dict):
        raise FrozenError(f"{where} should be a record, not {type(stored).__name__}.")
    hints = _types(kind)
    fields = {name: _value(hints[name], value, f"{where}.{name}") for name, value in stored.items() if name in hints}
    try:
        return kind(**fields)
    except (TypeError, ValueError) as error:
        raise FrozenError(f"{where} cannot be read: {error}") from error


def _value(kind: Any, stored: Any, where: str) -> Any:
    origin, arguments = typing.get_origin(kind), typing.get_args(kind)
    if origin in (types.UnionType, typing.Union):
        if stored is None:
            return None
        return _value(next(argument for argument in arguments if argument is not type(None)), stored, where)
    if origin is tuple:
        return _tuple(arguments, stored, where)
    if dataclasses.is_dataclass(kind):
        return _record(kind, stored, where)
    if origin is typing.Literal:
        return _checked(stored in arguments, stored, where)
    return _simple(kind, stored, where)


def _tuple(arguments: tuple[Any, ...], stored: Any, where: str) -> tuple[Any, ...]:
    _checked(isinstance(stored, list), stored, where)
    if len(arguments) == 2 and arguments[1] is Ellipsis:
        return tuple(_value(arguments[0], item, f"{where}[{at}]") for at, item in enumerate(stored))
    _checked(len(arguments) == len(stored), stored, where)
    pairs = zip(arguments, stored, strict=True)
    return tuple(_value(kind, item, f"{where}[{at}]") for at, (kind, item) in enumerate(pairs))


def _simple(kind: Any, stored: Any, where: str) -> Any:
    if kind in (date, datetime, bytes):
        _checked(isinstance(stored, str), stored, where)
        try:
            return base64.b64decode(stored, validate=True) if kind is bytes else kind.fromisoformat(stored)
        except ValueError as error:
            raise FrozenError(f"{where} cannot be read: {error}") from error
    if kind is float and isinstance(stored, int) and not isinstance(stored, bool):
        return float(stored)
    return _checked(isinstance(stored, kind) and not (kind is int and isinstance(stored, bool)), stored, where)


def _checked(fits: bool, stored: Any, where: str) -> Any:  # noqa: FBT001 - the condition is the argument
    if not fits:
        raise FrozenError(f"{where} cannot be {str(stored)[:60]!r}.")
    return stored
