"""What a layout is asked and what it answers: stock, flaws, wanted parts, rules, placements, cuts.

Everything is whole millimetres. x runs along the grain from the butt end, y across from the lower edge as seen on
face A; flaws of face B are given in face A's coordinates.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from operator import index
from typing import Any, Literal

Blocks = Literal["all", "show"]
CleanFaces = Literal["both", "one", "none"]
CutType = Literal["exact", "trimmed"]
FirstCut = Literal["crosscut", "rip", "any"]
CutTree = dict[str, Any]
Progress = Callable[["Answer"], None]

LONGEST_MM = 20_000
MOST_PIECES = 20_000
GREATEST_VALUE = 10**9


class LayoutError(ValueError):
    """A layout problem that cannot be worked on, said in a maker's words."""


def _whole(value: object, what: str, least: int, most: int) -> int:
    """The value as an int between least and most, or a LayoutError that says what would do."""
    try:
        if isinstance(value, bool):
            raise TypeError
        number = index(value)  # type: ignore[arg-type]
    except TypeError:
        raise LayoutError(f"{what} must be a whole number, not {value!r}.") from None
    if not least <= number <= most:
        raise LayoutError(f"{what} must be from {least} to {most}, not {number}.")
    return number


def _one_of(value: object, what: str, choices: tuple[str, ...]) -> None:
    if value not in choices:
        raise LayoutError(f"{what} must be one of {', '.join(choices)}, not {value!r}.")


@dataclass(frozen=True)
class Flaw:
    """The bounding rectangle of a mark that keeps parts away. [mm]

    `faces` are the faces it shows on (a through flaw has both). blocks "all" keeps every part off it; "show" keeps
    off parts whose clean face it would spoil.
    """

    x: int
    y: int
    length: int
    width: int
    faces: frozenset[str] = frozenset({"A", "B"})
    blocks: Blocks = "all"

    def __post_init__(self) -> None:
        for name in ("x", "y"):
            _whole(getattr(self, name), f"A flaw's {name}", -10 * LONGEST_MM, 10 * LONGEST_MM)
        for name in ("length", "width"):
            _whole(getattr(self, name), f"A flaw's {name}", 1, 10 * LONGEST_MM)
        if not self.faces or not set(self.faces) <= {"A", "B"}:
            raise LayoutError(f"A flaw lies on face A, face B or both, not on {sorted(self.faces)}.")
        _one_of(self.blocks, "What a flaw blocks", ("all", "show"))


@dataclass(frozen=True)
class Stock:
    """A board as measured with a tape, with its flaws. [mm]"""

    id: str
    length: int
    width: int
    flaws: tuple[Flaw, ...] = ()

    def __post_init__(self) -> None:
        _whole(self.length, f"Board {self.id}: length", 1, LONGEST_MM)
        _whole(self.width, f"Board {self.id}: width", 1, LONGEST_MM)
        object.__setattr__(self, "flaws", tuple(self.flaws))


@dataclass(frozen=True)
class Wanted:
    """A part wanted so many times, at its rough size (as cut from the board). [mm]

    `value` is what one piece is worth to the layout; `clean_faces` says how many faces must be free of "show" flaws;
    `any_grain` lets the piece lie across the board as well.
    """

    id: str
    length: int
    width: int
    quantity: int
    value: int
    clean_faces: CleanFaces = "both"
    any_grain: bool = False

    def __post_init__(self) -> None:
        _whole(self.length, f"Part {self.id}: length", 1, LONGEST_MM)
        _whole(self.width, f"Part {self.id}: width", 1, LONGEST_MM)
        _whole(self.quantity, f"Part {self.id}: quantity", 1, MOST_PIECES)
        _whole(self.value, f"Part {self.id}: value", 0, GREATEST_VALUE)
        _one_of(self.clean_faces, f"Part {self.id}: clean faces", ("both", "one", "none"))


@dataclass(frozen=True)
class Rules:
    """How the boards may be cut. [mm]

    A board is crosscut into sections, a section ripped into strips, a strip crosscut into parts. "exact": every part
    is then at its size; "trimmed": one more rip may bring it to width. `stages` and `first_cut` describe published
    cutting problems (None: as many turns as one likes).
    """

    kerf: int = 3
    trim_left: int = 0
    trim_right: int = 0
    trim_bottom: int = 0
    trim_top: int = 0
    cut_type: CutType = "trimmed"
    stages: int | None = 3
    first_cut: FirstCut = "crosscut"

    def __post_init__(self) -> None:
        _whole(self.kerf, "Kerf", 0, 100)
        for name in ("trim_left", "trim_right", "trim_bottom", "trim_top"):
            _whole(getattr(self, name), name.replace("_", " ").capitalize(), 0, LONGEST_MM)
        _one_of(self.cut_type, "Cut type", ("exact", "trimmed"))
        if self.stages is not None:
            _whole(self.stages, "Number of stages", 2, 3)
        _one_of(self.first_cut, "First cut", ("crosscut", "rip", "any"))


@dataclass(frozen=True)
class Problem:
    """Boards, parts and rules of one layout.

    Raises LayoutError when there is no board, when two boards or two parts share an id, or when there are more than
    20 000 pieces.
    """

    stocks: tuple[Stock, ...]
    wanted: tuple[Wanted, ...]
    rules: Rules = field(default_factory=Rules)

    def __post_init__(self) -> None:
        object.__setattr__(self, "stocks", tuple(self.stocks))
        object.__setattr__(self, "wanted", tuple(self.wanted))
        if not self.stocks:
            raise LayoutError("There is no board to lay out on: add one to the rack, or choose other boards.")
        if not self.wanted:
            raise LayoutError("There is no part to lay out: add parts first.")
        for what, rows in (("boards", self.stocks), ("parts", self.wanted)):
            ids = [row.id for row in rows]
            twice = sorted({str(i) for i in ids if ids.count(i) > 1}) if len(set(ids)) < len(ids) else []
            if twice:
                raise LayoutError(f"Two {what} have the same id: {', '.join(twice)}.")
        pieces = sum(w.quantity for w in self.wanted)
        if pieces > MOST_PIECES:
            raise LayoutError(f"{pieces} pieces are more than one layout can hold; {MOST_PIECES} is the most.")


@dataclass(frozen=True)
class Placement:
    """One piece on a board: lower left corner and size as it lies [mm], and the face that is clear for it."""

    stock: str
    wanted: str
    x: int
    y: int
    length: int
    width: int
    face: str = "A"


@dataclass(frozen=True)
class Unplaced:
    """Pieces that did not find a place, and why, in a maker's words."""

    wanted: str
    count: int
    reason: str


@dataclass(frozen=True)
class Answer:
    """The best layout found, what it is worth, and how much better any layout could be.

    `bound` is a value that no layout of the kind named in `bound_covers` can exceed, or None; `proved_best` says that
    the value reaches it. `cuts` holds a tree per board that carries at least one part: every node has x, y, length
    and width, a leaf its `part` (None: offcut), any other node its `cut` ("crosscut" or "rip"), `at` (where each kerf
    begins) and `pieces` in order.
    """

    value: int
    bound: int | None
    proved_best: bool
    bound_covers: str
    seconds: float
    placements: tuple[Placement, ...]
    cuts: dict[str, CutTree]
    unplaced: tuple[Unplaced, ...]
