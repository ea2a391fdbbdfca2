"""How a kind of working is declared: what it asks, what it answers, and what stands beside the answer."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Literal

from shopapi.workings.given import Given

FieldKind = Literal["length", "angle", "percent", "temperature", "mass", "area", "force", "number", "species", "choice"]
FigureKind = Literal[
    "length", "angle", "percent", "temperature", "mass", "grams", "area", "volume", "force", "pressure", "stiffness",
    "density", "hours", "number", "text",
]  # fmt: skip
FIELD_KINDS: tuple[str, ...] = FieldKind.__args__  # type: ignore[attr-defined]
FIGURE_KINDS: tuple[str, ...] = FigureKind.__args__  # type: ignore[attr-defined]

# In what every value of a kind is counted, in questions and in answers.
UNITS: dict[str, str] = {
    "length": "mm", "angle": "degrees", "percent": "%", "temperature": "°C", "mass": "kg", "grams": "g", "area": "m2",
    "volume": "litres", "force": "N", "pressure": "MPa", "stiffness": "GPa", "density": "kg/m3", "hours": "h",
}  # fmt: skip


@dataclass(frozen=True)
class Choice:
    value: str
    word: str


@dataclass(frozen=True)
class Field:
    """One thing that is asked. `default` stands where nothing is given; without one it must be given if `need`.

    `inch_default` is the default of a workshop that measures in inches, so that it is a round number there too; both
    in the kind's own unit. `least` and `most` may be given themselves, but a length of 0 only where `zero_ok`.
    `beyond` says why there is nothing outside of the range.
    """

    name: str
    label: str
    kind: FieldKind
    default: float | str | None = None
    inch_default: float | None = None
    least: float | None = None
    most: float | None = None
    zero_ok: bool = False
    whole: bool = False
    need: bool = True
    own_unit: str = ""
    hint: str = ""
    beyond: str = ""
    choices: tuple[Choice, ...] = ()

    @property
    def unit(self) -> str:
        return self.own_unit or UNITS.get(self.kind, "")

    def default_for(self, *, inch: bool) -> float | str | None:
        return self.inch_default if inch and self.inch_default is not None else self.default


@dataclass(frozen=True)
class Line:
    """One labelled value of an answer, in its kind's own unit. `main` ones are the answer, shown largest.

    `fine`: a length that moves or fits, told finer than a tape is divided. A line of words has the kind "text".
    """

    label: str
    kind: FigureKind
    value: float | None = None
    text: str = ""
    own_unit: str = ""
    digits: int = 0
    fine: bool = False
    main: bool = False

    @property
    def unit(self) -> str:
        return self.own_unit or UNITS.get(self.kind, "")


def words(label: str, text: str, *, main: bool = False) -> Line:
    return Line(label, "text", text=text, main=main)


@dataclass(frozen=True)
class Column:
    label: str
    kind: FigureKind = "text"
    digits: int = 0
    fine: bool = False


@dataclass(frozen=True)
class Table:
    columns: tuple[Column, ...]
    rows: tuple[tuple[float | str, ...], ...]


@dataclass(frozen=True)
class Found:
    """What a calculation found; `cautions` must be shown wherever its numbers are."""

    lines: tuple[Line, ...]
    cautions: tuple[str, ...] = ()
    method: str = ""
    table: Table | None = None


def all_of(*cautions: Sequence[str]) -> tuple[str, ...]:
    """Each caution once, in order."""
    return tuple(dict.fromkeys(caution for some in cautions for caution in some))


@dataclass(frozen=True)
class Cited:
    """A source of craft's bibliography, and the place in it."""

    key: str
    place: str = ""


@dataclass(frozen=True)
class WorkingKind:
    """One of the trade's calculations: what it is called in the shop, asks and answers, and what it rests on."""

    key: str
    family: str
    title: str
    purpose: str
    formula: str
    cited: tuple[Cited, ...]
    limits: str
    fields: tuple[Field, ...]
    run: Callable[[Given], Found]
