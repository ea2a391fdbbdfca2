"""Everything a breakdown sheet says, as plain frozen data: where the lines go on each board."""

from dataclasses import dataclass, field
from datetime import date

from shopapi.craft.packet.common import BoardMark, Measures, Paper, Picture, Piece
from shopapi.craft.packet.cut_order import Cut, Section
from shopapi.craft.packet.setups import Setup


@dataclass(frozen=True)
class BoardBreakdown:
    """One board: what it is, how it looks, what lies on it, and the cuts in the order they are made."""

    tag: str
    species: str
    length_mm: float
    width_mm: float
    thickness_mm: float
    place: str = ""
    picture: Picture | None = None
    marks: tuple[BoardMark, ...] = ()
    pieces: tuple[Piece, ...] = ()
    cuts: tuple[Cut, ...] = ()
    sections: tuple[Section, ...] = ()


@dataclass(frozen=True)
class LeftOut:
    """Pieces that found no place, and why."""

    part: str
    count: int
    reason: str


@dataclass(frozen=True)
class BreakdownData:
    """The breakdown sheets of one layout, frozen before they are drawn."""

    workshop: str
    commission: str
    made_on: date
    kerf_mm: float
    end_trim_mm: float
    boards: tuple[BoardBreakdown, ...] = ()
    left_out: tuple[LeftOut, ...] = ()
    paper: Paper = "letter"
    language: str = "en"
    measures: Measures = field(default_factory=Measures)
    warnings: tuple[str, ...] = ()
    setups: tuple[Setup, ...] = ()
