"""Labels for boards and for the parts of a layout, as plain data, and sheets of labels described by their measures."""

from dataclasses import dataclass

from shopapi.craft.packet.common import Measures, Paper

PAPER_MM: dict[Paper, tuple[float, float]] = {"letter": (215.9, 279.4), "a4": (210.0, 297.0)}
MOST_ACROSS, MOST_DOWN = 12, 40
LEAST_WIDTH_MM, LEAST_HEIGHT_MM = 30.0, 15.0  # what a name and a size can still be read on
_SLACK_MM = 0.5


class SheetError(ValueError):
    """Measures that make no sheet of labels, said in a maker's words."""


@dataclass(frozen=True)
class LabelSheet:
    """A sheet of equal labels in rows and columns. [mm]

    left_mm, top_mm: from the paper's edge to the first label. across_mm, down_mm: from the edge of one label to the
    same edge of the next. Raises SheetError where labels overlap, are too small, or run off the paper.
    """

    paper: Paper
    columns: int
    rows: int
    width_mm: float
    height_mm: float
    left_mm: float
    top_mm: float
    across_mm: float
    down_mm: float

    def __post_init__(self) -> None:
        if not (1 <= self.columns <= MOST_ACROSS and 1 <= self.rows <= MOST_DOWN):
            raise SheetError(f"A sheet has 1 to {MOST_ACROSS} labels across and 1 to {MOST_DOWN} down.")
        if self.width_mm < LEAST_WIDTH_MM or self.height_mm < LEAST_HEIGHT_MM:
            raise SheetError(
                f"A label is at least {LEAST_WIDTH_MM:g} by {LEAST_HEIGHT_MM:g} mm, else nobody can read it."
            )
        if self.left_mm < 0 or self.top_mm < 0:
            raise SheetError("The first label cannot begin off the paper.")
        if (self.columns > 1 and self.across_mm < self.width_mm) or (self.rows > 1 and self.down_mm < self.height_mm):
            raise SheetError("The labels overlap: measure from the edge of one label to the same edge of the next.")
        wide = self.left_mm + (self.columns - 1) * self.across_mm + self.width_mm
        high = self.top_mm + (self.rows - 1) * self.down_mm + self.height_mm
        paper_wide, paper_high = PAPER_MM[self.paper]
        if wide > paper_wide + _SLACK_MM or high > paper_high + _SLACK_MM:
            raise SheetError(
                f"These labels need {wide:.0f} by {high:.0f} mm; the paper has {paper_wide:.0f} by {paper_high:.0f} mm."
            )

    @property
    def count(self) -> int:
        """How many labels a sheet has. Source: OWN, a product."""
        return self.columns * self.rows


# Common sizes of label, named by paper, columns and rows; common practice, from memory.
SHEETS: dict[str, LabelSheet] = {
    "letter-3x10": LabelSheet("letter", 3, 10, 66.7, 25.4, 4.8, 12.7, 69.8, 25.4),
    "letter-2x5": LabelSheet("letter", 2, 5, 101.6, 50.8, 4.0, 12.7, 106.4, 50.8),
    "a4-3x7": LabelSheet("a4", 3, 7, 63.5, 38.1, 7.2, 15.1, 66.0, 38.1),
    "a4-2x7": LabelSheet("a4", 2, 7, 99.1, 38.1, 4.6, 15.1, 101.6, 38.1),
    "a4-2x4": LabelSheet("a4", 2, 4, 99.1, 67.7, 4.6, 13.1, 101.6, 67.7),
}
USUAL_SHEETS: dict[Paper, LabelSheet] = {"letter": SHEETS["letter-3x10"], "a4": SHEETS["a4-3x7"]}


@dataclass(frozen=True)
class PartLabel:
    """One piece: what it is, which of how many, where it comes from, its sizes as sawn and finished. [mm]"""

    part: str
    which: str
    board: str
    rough_mm: tuple[float, float]
    finished_mm: tuple[float, float, float]
    note: str = ""


@dataclass(frozen=True)
class LabelsData:
    """Everything the label sheets of one layout say."""

    workshop: str
    commission: str
    labels: tuple[PartLabel, ...]
    sheet: LabelSheet
    measures: Measures
    used: int = 0  # labels already taken from the first sheet


@dataclass(frozen=True)
class BoardLabel:
    """A board's tag: what is chalked on it, what it is, and the address its code opens. [mm]"""

    tag: str
    species: str
    size_mm: tuple[float, float, float]
    address: str
    quarters: int | None = None
    flitch: str = ""


@dataclass(frozen=True)
class BoardLabelsData:
    """Everything that sheets of board tags say."""

    workshop: str
    labels: tuple[BoardLabel, ...]
    sheet: LabelSheet
    measures: Measures
    used: int = 0  # labels already taken from the first sheet
