"""What every printed paper shares: measures, the maker, pictures, marks and pieces on a board."""

from dataclasses import dataclass
from typing import Literal

from shopapi.craft.measures import Unit, format_length

Paper = Literal["letter", "a4"]


@dataclass(frozen=True)
class Measures:
    """How this paper writes lengths: the workshop's unit and the parts of an inch on its tape."""

    unit: Unit = "metric"
    denominator: int = 16

    def length(self, length_mm: float) -> str:
        """A length [mm] as a tape shows it. Source: OWN, through `format_length`."""
        return format_length(length_mm, self.unit, self.denominator)

    def change(self, length_mm: float) -> str:
        """A small change of length [mm], one step finer than the tape: 0.1 mm or 1/32 inch. Source: OWN."""
        return format_length(length_mm, self.unit, max(self.denominator, 32), decimals=1)

    def number(self, length_mm: float) -> str:
        """The same as `length` without its unit, for rows that name the unit once. Source: OWN."""
        return self.length(length_mm).removesuffix(" mm").removesuffix('"')

    def size(self, *lengths_mm: float) -> str:
        """Several lengths [mm] as "a × b × c", the unit once where that is how it is read. Source: OWN."""
        if self.unit == "inch":
            return " × ".join(self.length(each) for each in lengths_mm)
        return " × ".join(self.number(each) for each in lengths_mm) + " mm"


@dataclass(frozen=True)
class Maker:
    """Who made it and how to reach them."""

    workshop: str
    maker: str = ""
    phone: str = ""
    email: str = ""
    address: str = ""
    website: str = ""


@dataclass(frozen=True)
class Picture:
    """A photograph, by its bytes or by the name under which it is kept; sha256 says which picture it was."""

    path: str = ""
    content: bytes = b""
    sha256: str = ""


@dataclass(frozen=True)
class BoardMark:
    """A mark as drawn: kind, its outline in board millimetres (or a line with its width), what it blocks."""

    kind: str
    outline: tuple[tuple[float, float], ...]
    blocks: Literal["all", "show", "none"] = "all"
    face: Literal["A", "B"] = "A"
    through: bool = False
    note: str = ""
    open_line: bool = False
    width_mm: float = 0.0


@dataclass(frozen=True)
class Piece:
    """A part where it lies on a board: lower butt-end corner and rough size [mm]."""

    part: str
    x_mm: float
    y_mm: float
    length_mm: float
    width_mm: float
    face: str = "A"
