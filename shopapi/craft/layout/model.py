"""What a layout is asked and what it answers: stock, flaws, wanted parts, rules, placements, cuts.

Everything is whole millimetres. x runs along the grain from the butt end, y across from the lower edge as seen on
face A; flaws of face B are given in face A's coordinates.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from math import isfinite
from operator import index
from typing import Any, Literal

Blocks = Literal["all", "show"]
CleanFaces = Literal["both", "one", "none"]
CutType = Literal["exact", "trimmed"]
KeptLevel = Literal["board", "flitch", "tone", "apart"]
Aim = Literal["", "looks", "yield"]
Wish = Literal["", "figure"]
FirstCut = Literal["crosscut", "rip", "any"]
CutTree = dict[str, Any]
Progress = Callable[["Answer"], None]

LONGEST_MM = 20_000
MOST_PIECES = 20_000
MOST_STRIPS = 100
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
    """A board as measured with a tape, with its flaws. [mm]

    `flitch` names the log it comes from ("": unknown); `tone` is its mean colour as L*, a*, b* (None: not seen);
    `figures` are the places where prized figure lies.
    """

    id: str
    length: int
    width: int
    flaws: tuple[Flaw, ...] = ()
    flitch: str = ""
    tone: tuple[float, float, float] | None = None
    figures: tuple[Flaw, ...] = ()

    def __post_init__(self) -> None:
        _whole(self.length, f"Board {self.id}: length", 1, LONGEST_MM)
        _whole(self.width, f"Board {self.id}: width", 1, LONGEST_MM)
        object.__setattr__(self, "flaws", tuple(self.flaws))
        object.__setattr__(self, "figures", tuple(self.figures))
        if self.tone is not None:
            object.__setattr__(self, "tone", tuple(float(v) for v in self.tone))
            if len(self.tone) != 3 or not all(isfinite(v) for v in self.tone):
                raise LayoutError(f"Board {self.id}: a tone is three numbers (L*, a*, b*), not {self.tone!r}.")


@dataclass(frozen=True)
class Wanted:
    """A part wanted so many times, at its rough size (as cut from the board). [mm]

    `value` is what one piece is worth to the layout; `clean_faces` says how many faces must be free of "show" flaws;
    `any_grain` lets the piece lie across the board as well. Pieces whose `together` is the same word should come from
    one board, else from boards of one flitch, else from boards of like tone. `wish` "figure" asks for figured wood.
    `value_on` says what a piece is worth on the boards that it names; on the others it is worth `value`.
    """

    id: str
    length: int
    width: int
    quantity: int
    value: int
    clean_faces: CleanFaces = "both"
    any_grain: bool = False
    together: str = ""
    wish: Wish = ""
    value_on: Mapping[str, int] | None = None

    def __post_init__(self) -> None:
        _whole(self.length, f"Part {self.id}: length", 1, LONGEST_MM)
        _whole(self.width, f"Part {self.id}: width", 1, LONGEST_MM)
        _whole(self.quantity, f"Part {self.id}: quantity", 1, MOST_PIECES)
        _whole(self.value, f"Part {self.id}: value", 0, GREATEST_VALUE)
        _one_of(self.clean_faces, f"Part {self.id}: clean faces", ("both", "one", "none"))
        _one_of(self.wish, f"Part {self.id}: wish", ("", "figure"))
        for stock, worth in (self.value_on or {}).items():
            _whole(worth, f"Part {self.id}: value on board {stock}", 0, GREATEST_VALUE)

    def worth_on(self, stock: str) -> int:
        """What one piece is worth on this board."""
        return self.value if self.value_on is None else self.value_on.get(stock, self.value)


@dataclass(frozen=True)
class Panel:
    """A panel to be glued from strips whose number and widths are free. [mm]

    `width` is to be covered `count` times over: the widths of a panel's strips, less `strip_loss` for each strip (what
    jointing its two edges takes), add up to it. A single strip needs no joint and loses nothing. Strips are from
    `strip_least` to `strip_most` wide as sawn and all `length` long. `value` is that of one whole panel.
    """

    id: str
    length: int
    width: int
    count: int
    value: int
    strip_least: int
    strip_most: int
    strip_loss: int = 0
    clean_faces: CleanFaces = "both"
    together: str = ""
    wish: Wish = ""

    def __post_init__(self) -> None:
        for name in ("length", "width", "strip_least", "strip_most"):
            _whole(getattr(self, name), f"Panel {self.id}: {name.replace('_', ' ')}", 1, LONGEST_MM)
        _whole(self.count, f"Panel {self.id}: count", 1, MOST_PIECES)
        _whole(self.value, f"Panel {self.id}: value", 0, GREATEST_VALUE)
        _whole(self.strip_loss, f"Panel {self.id}: loss of a strip", 0, LONGEST_MM)
        _one_of(self.clean_faces, f"Panel {self.id}: clean faces", ("both", "one", "none"))
        _one_of(self.wish, f"Panel {self.id}: wish", ("", "figure"))
        if not self.strip_counts:
            raise LayoutError(
                f"Panel {self.id}: strips from {self.strip_least} to {self.strip_most} mm cannot make a panel "
                f"{self.width} mm wide, with {self.strip_loss} mm lost to the joints of each. "
                "Allow wider or narrower strips."
            )

    def loss_of(self, strips: int) -> int:
        """What jointing takes from the width of one of so many strips. [mm]"""
        return self.strip_loss if strips > 1 else 0

    def strip(self, strips: int) -> Wanted:
        """One of so many strips of equal width that just cover the panel, as a part of its own."""
        width = -(-self.width // strips) + self.loss_of(strips)
        value = self.value // strips
        return Wanted(
            self.id, self.length, width, self.count * strips, value, self.clean_faces,
            together=self.together, wish=self.wish,
        )  # fmt: skip

    @property
    def strip_counts(self) -> tuple[int, ...]:
        """The numbers of strips that one panel may have, least first."""
        return tuple(
            n
            for n in range(1, MOST_STRIPS + 1)
            if n * (self.strip_least - self.loss_of(n)) <= self.width <= n * (self.strip_most - self.loss_of(n))
        )


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
class Placement:
    """One piece on a board: lower left corner and size as it lies [mm], and the face that is clear for it.

    `wanted` names the part or the panel that it is for.
    """

    stock: str
    wanted: str
    x: int
    y: int
    length: int
    width: int
    face: str = "A"


@dataclass(frozen=True)
class Problem:
    """Boards, parts and rules of one layout.

    `pins` are pieces whose places are given: they stay, and count among the pieces that are wanted. `aim` "looks" looks
    for a handsomer layout that places as much; "yield" heeds no wish for figured wood. Raises LayoutError
    when there is no board, when two boards or two parts share an id, when a pin names a board or part that is not
    there, or when there are more than 20 000 pieces.
    """

    stocks: tuple[Stock, ...]
    wanted: tuple[Wanted, ...]
    rules: Rules = field(default_factory=Rules)
    pins: tuple[Placement, ...] = ()
    panels: tuple[Panel, ...] = ()
    aim: Aim = ""

    @property
    def parts(self) -> tuple[Wanted | Panel, ...]:
        """Parts and panels."""
        return self.wanted + self.panels

    def __post_init__(self) -> None:
        if self.aim not in ("", "looks", "yield"):
            raise LayoutError(f"The aim of a layout must be looks or yield, not {self.aim!r}.")
        object.__setattr__(self, "stocks", tuple(self.stocks))
        for name in ("wanted", "pins", "panels"):
            object.__setattr__(self, name, tuple(getattr(self, name)))
        if not self.stocks:
            raise LayoutError("There is no board to lay out on: add one to the rack, or choose other boards.")
        if not self.wanted and not self.panels:
            raise LayoutError("There is no part to lay out: add parts first.")
        for what, ids in (
            ("boards", [s.id for s in self.stocks]),
            ("parts", [p.id for p in self.parts]),
        ):
            twice = sorted({str(i) for i in ids if ids.count(i) > 1}) if len(set(ids)) < len(ids) else []
            if twice:
                raise LayoutError(f"Two {what} have the same id: {', '.join(twice)}.")
        for what, known, named in (
            ("board", {s.id for s in self.stocks}, {p.stock for p in self.pins}),
            ("part", {part.id for part in self.parts}, {p.wanted for p in self.pins}),
        ):
            if strange := sorted(named - known):
                raise LayoutError(f"A pinned piece names a {what} that is not in this layout: {', '.join(strange)}.")
        pieces = sum(w.quantity for w in self.wanted) + sum(p.count * p.strip_counts[0] for p in self.panels)
        if pieces > MOST_PIECES:
            raise LayoutError(f"{pieces} pieces are more than one layout can hold; {MOST_PIECES} is the most.")


@dataclass(frozen=True)
class Unplaced:
    """Pieces that did not find a place, and why, in a maker's words."""

    wanted: str
    count: int
    reason: str


@dataclass(frozen=True)
class GluedPanel:
    """The strips of one panel, each at the width to which it is sawn."""

    panel: str
    strips: tuple[Placement, ...]


@dataclass(frozen=True)
class KeptTogether:
    """How near to one another the placed pieces of a group come from, and from which boards.

    `level`: "board" (one board), "flitch" (boards of one log), "tone" (boards of like colour) or "apart".
    """

    group: str
    level: KeptLevel
    stocks: tuple[str, ...]


@dataclass(frozen=True)
class Answer:
    """The best layout found, what it is worth, and how much better any layout could be.

    `bound` is a value that no layout of the kind named in `bound_covers` can exceed, or None; `proved_best` says that
    the value reaches it. `cuts` holds a tree per board that carries at least one part: every node has x, y, length
    and width, a leaf its `part` (None: offcut), any other node its `cut` ("crosscut" or "rip"), `at` (where each kerf
    begins) and `pieces` in order. `together` says how well each group of parts was kept together, `glued` which
    strips make which panel, `looks` how handsome it is, from 0 to 1.
    """

    value: int
    bound: int | None
    proved_best: bool
    bound_covers: str
    seconds: float
    placements: tuple[Placement, ...]
    cuts: dict[str, CutTree]
    unplaced: tuple[Unplaced, ...]
    together: tuple[KeptTogether, ...] = ()
    glued: tuple[GluedPanel, ...] = ()
    looks: float | None = None
