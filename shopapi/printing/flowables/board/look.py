"""What is drawn of a board, for whom, and where its millimetres fall on the page."""

from dataclasses import dataclass

from shopapi.craft.packet import BoardMark, Cut, Picture, Piece, Section
from shopapi.printing.flowables.labels import Box
from shopapi.printing.styles import SHOP_MEASURE_PT


@dataclass(frozen=True)
class DrawnBoard:
    """What is drawn of a board; every length in millimetres."""

    length_mm: float
    width_mm: float
    picture: Picture | None = None
    marks: tuple[BoardMark, ...] = ()
    pieces: tuple[Piece, ...] = ()
    cuts: tuple[Cut, ...] = ()
    sections: tuple[Section, ...] = ()


@dataclass(frozen=True)
class Look:
    """How a board is drawn for its reader. Sizes in points; veil: how far the picture is paled, 0 to 1.

    longest_mm: most of a board that one drawing shows.
    """

    veil: float = 0.0
    name: float = 9.0
    least_name: float = 7.0
    tape: float = 6.5
    distance: float = 0.0
    longest_mm: float = 1700.0
    numbered: bool = False
    butt_end: bool = False


CLIENT = Look()
SHOP = Look(veil=0.38, name=14, least_name=11, tape=9, distance=SHOP_MEASURE_PT, numbered=True, butt_end=True)


@dataclass(frozen=True)
class Window:
    """A stretch of the board and its place on the page: the lower butt-end corner is at (0, 0)."""

    start_mm: float
    end_mm: float
    board_mm: float
    width_mm: float
    pt_per_mm: float

    @property
    def long(self) -> float:
        return (self.end_mm - self.start_mm) * self.pt_per_mm

    @property
    def high(self) -> float:
        return self.width_mm * self.pt_per_mm

    @property
    def is_first(self) -> bool:
        return self.start_mm <= 0

    @property
    def is_last(self) -> bool:
        return self.end_mm >= self.board_mm - 1e-6

    def at(self, x_mm: float, y_mm: float) -> tuple[float, float]:
        """Where a place on the board lies on the page."""
        return (x_mm - self.start_mm) * self.pt_per_mm, y_mm * self.pt_per_mm

    def box(self, x_mm: float, y_mm: float, length_mm: float, width_mm: float) -> Box:
        """Left, low, long and high on the page; it may reach out of the window."""
        return (*self.at(x_mm, y_mm), length_mm * self.pt_per_mm, width_mm * self.pt_per_mm)

    def seen(self, from_mm: float, to_mm: float) -> tuple[float, float]:
        """The part of a stretch that lies in the window, on the page; its end is not after its start if none does."""
        return self.at(max(from_mm, self.start_mm), 0)[0], self.at(min(to_mm, self.end_mm), 0)[0]

    def reaches(self, from_mm: float, to_mm: float) -> bool:
        return from_mm < self.end_mm and to_mm > self.start_mm

    def holds(self, x_mm: float) -> bool:
        return self.start_mm <= x_mm < self.end_mm or (self.is_last and x_mm >= self.end_mm)

    def is_best_for(self, from_mm: float, to_mm: float, room: float) -> bool:
        """Whether words about a line are written here: the first window of the board that has room for them."""
        each = self.end_mm - self.start_mm
        count = max(1, round(self.board_mm / each))
        shown = [(min(to_mm, each * (n + 1)) - max(from_mm, each * n)) * self.pt_per_mm for n in range(count)]
        best = next((n for n, length in enumerate(shown) if length >= room), shown.index(max(shown)))
        return best == round(self.start_mm / each)
