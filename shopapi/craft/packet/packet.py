"""Everything a client's packet says, as plain frozen data."""

from dataclasses import dataclass, field
from datetime import date, datetime

from shopapi.craft.packet.common import Maker, Measures, Paper, Picture, Piece
from shopapi.craft.packet.seasons import MovementYear


@dataclass(frozen=True)
class BoardUsed:
    """A board the piece was made from, with its picture and the pieces that came out of it."""

    tag: str
    species: str
    length_mm: float
    width_mm: float
    thickness_mm: float
    origin: str = ""
    picture: Picture | None = None
    pieces: tuple[Piece, ...] = ()

    @property
    def parts(self) -> tuple[str, ...]:
        """The names of the parts that came from it, each once, in the order they lie. Source: OWN."""
        return tuple(dict.fromkeys(piece.part for piece in self.pieces))


@dataclass(frozen=True)
class PartLine:
    """A part of the piece: how many, its finished size [mm], its wood, and the strips it is glued from."""

    name: str
    quantity: int
    length_mm: float
    width_mm: float
    thickness_mm: float
    species: str
    strips: int = 1


@dataclass(frozen=True)
class FinishEntry:
    """A line of the bench log: what was done, when, by whom, in what air; why early, where it was early."""

    done_at: datetime
    what: str
    detail: str = ""
    by: str = ""
    temp_c: float | None = None
    rh_pct: float | None = None
    note: str = ""
    early_reason: str = ""


@dataclass(frozen=True)
class FinishRecord:
    """The finish as it went on; `kind` is the generic class in words."""

    kind: str = ""
    entries: tuple[FinishEntry, ...] = ()


@dataclass(frozen=True)
class UseDates:
    """When the finish bears light and full use, reckoned from the last coat; `basis` says how."""

    last_coat_on: date
    light_use_on: date
    full_use_on: date
    basis: str = ""
    source: str = ""


@dataclass(frozen=True)
class CareDue:
    """Something to do to the piece in later years, and when it is first due."""

    what: str
    first_on: date | None = None
    every: str = ""


@dataclass(frozen=True)
class CarePlan:
    """How to look after the finish: every day, after accidents, in the years to come."""

    every_day: tuple[str, ...] = ()
    accidents: tuple[str, ...] = ()
    due: tuple[CareDue, ...] = ()
    repair: str = ""
    source: str = ""


@dataclass(frozen=True)
class Caution:
    """A warning with the word it is found by."""

    title: str
    text: str


@dataclass(frozen=True)
class PacketData:
    """A client's packet, frozen before it is drawn."""

    maker: Maker
    piece: str
    made_on: date
    client: str = ""
    description: str = ""
    reference: str = ""
    ordered_on: date | None = None
    home_place: str = ""
    paper: Paper = "letter"
    language: str = "en"
    measures: Measures = field(default_factory=Measures)
    boards: tuple[BoardUsed, ...] = ()
    parts: tuple[PartLine, ...] = ()
    finish: FinishRecord = field(default_factory=FinishRecord)
    use: UseDates | None = None
    care: CarePlan = field(default_factory=CarePlan)
    movement: MovementYear | None = None
    cautions: tuple[Caution, ...] = ()
    warnings: tuple[str, ...] = ()
