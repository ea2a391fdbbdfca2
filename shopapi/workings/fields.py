"""The fields that workings ask again and again, so that a field of one sort asks the same way everywhere."""

from collections.abc import Iterable

from shopapi.craft.adhesive import all_glue_classes
from shopapi.craft.finish import all_finish_classes
from shopapi.workings.declare import Choice, Field

INCH = 25.4
POUND = 0.45359237
SQ_FT = 0.09290304
LONGEST_MM = 20_000.0

_NO_LONGER_MOVES = "Above that (fibre saturation) wood no longer moves."


def wood() -> Field:
    return Field("species", "Wood", "species", hint="Any name in the book of woods, such as white oak or hard maple")


def length(
    name: str,
    label: str,
    *,
    default: float | None = None,
    inch: float | None = None,
    least: float = 0.0,
    most: float = LONGEST_MM,
    zero_ok: bool = False,
    need: bool = True,
    hint: str = "",
) -> Field:
    """A length [mm]; `inch` is the default in inches where the workshop measures so."""
    return Field(
        name, label, "length", default=default, inch_default=None if inch is None else inch * INCH, least=least,
        most=most, zero_ok=zero_ok, need=need, hint=hint,
    )  # fmt: skip


def moisture(name: str, label: str, default: float | None = None, hint: str = "") -> Field:
    return Field(
        name, label, "percent", default=default, least=0, most=30, hint=hint or "% of dry mass", beyond=_NO_LONGER_MOVES
    )


def moisture_of_seasons() -> tuple[Field, Field, Field]:
    """On the day of building and at either end of the year; the defaults are a heated home's, common practice."""
    return (
        moisture("mc_built_pct", "Moisture on the day of building", 8, "By the meter; 8 is usual in a heated shop"),
        moisture("mc_dry_pct", "Driest it will be", 6, "About 6 in a heated home in winter"),
        moisture("mc_damp_pct", "Dampest it will be", 11, "About 11 in a home in summer"),
    )


def ring_angle() -> Field:
    return Field(
        "ring_angle_deg", "Ring angle", "angle", default=0, least=0, most=90,
        hint="Between growth rings and face, seen on the end: 0 flatsawn, 90 quartersawn",
    )  # fmt: skip


def humidity(name: str, label: str, default: float | None = None, hint: str = "") -> Field:
    return Field(name, label, "percent", default=default, least=0, most=100, hint=hint or "% relative humidity")


def temperature(
    name: str, label: str, least: float, most: float, default: float | None = 20.0, inch: float | None = None
) -> Field:
    """A temperature [°C]; `inch` is the default in °F where the workshop measures in inches."""
    return Field(
        name, label, "temperature", default=default, inch_default=None if inch is None else (inch - 32) / 1.8,
        least=least, most=most,
    )  # fmt: skip


def angle(name: str, label: str, least: float, most: float, default: float | None = None, hint: str = "") -> Field:
    return Field(name, label, "angle", default=default, least=least, most=most, hint=hint)


def mass(
    name: str, label: str, most: float, default: float | None = None, pounds: float | None = None, hint: str = "",
    least: float = 0.0,
) -> Field:  # fmt: skip
    """A mass [kg]; `pounds` is the default where the workshop measures in inches."""
    return Field(
        name, label, "mass", default=default, inch_default=None if pounds is None else pounds * POUND, least=least,
        most=most, hint=hint,
    )  # fmt: skip


def percent(
    name: str, label: str, least: float, most: float, default: float | None, hint: str = "", *, need: bool = True
) -> Field:
    return Field(name, label, "percent", default=default, least=least, most=most, need=need, hint=hint)


def number(name: str, label: str, unit: str, least: float, most: float, default: float, hint: str = "") -> Field:
    return Field(name, label, "number", default=default, least=least, most=most, own_unit=unit, hint=hint)


def area(name: str, label: str, most: float, *, need: bool = True, hint: str = "") -> Field:
    """An area [m2]."""
    return Field(name, label, "area", least=0.001, most=most, need=need, hint=hint)


def count(name: str, label: str, most: int, default: int | None = None, least: int = 1, hint: str = "") -> Field:
    return Field(name, label, "number", default=default, least=least, most=most, whole=True, hint=hint)


def choice(name: str, label: str, choices: Iterable[tuple[str, str]], default: str | None, hint: str = "") -> Field:
    return Field(
        name, label, "choice", default=default, hint=hint, choices=tuple(Choice(value, word) for value, word in choices)
    )


def yes_no(name: str, label: str, *, default: bool = False, hint: str = "") -> Field:
    return choice(name, label, (("yes", "Yes"), ("no", "No")), "yes" if default else "no", hint)


def glue() -> Field:
    return choice("glue", "Glue", [(one.name, one.label) for one in all_glue_classes()], "yellow")


def finish(name: str = "finish", label: str = "Finish") -> Field:
    return choice(name, label, [(one.name, one.label) for one in all_finish_classes()], "oil_urethane")
