"""The cuts of all boards by machine set-up: every crosscut at one stop, every rip at one fence setting."""

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from typing import Any, Literal

from shopapi.craft.packet.common import Measures
from shopapi.craft.packet.cut_order import BOARD, OFFCUT, labelled_pieces

# A board is crosscut, its sections ripped, their strips crosscut, and what is too wide still is ripped once more.
FIRST_TURN = {"crosscut": 1, "rip": 2}


@dataclass(frozen=True)
class FromPiece:
    """What comes off one piece of a board at this setting: names with how often."""

    board: str
    within: str
    what: tuple[tuple[str, int], ...]


@dataclass(frozen=True)
class Setup:
    """One setting of stop or fence and all that is cut at it. `turn` 1 to 4 is the round of cutting it belongs to."""

    turn: int
    kind: Literal["crosscut", "rip"]
    size_mm: float
    pieces: tuple[FromPiece, ...]

    @property
    def count(self) -> int:
        """How many pieces are cut at this setting. Source: OWN, a sum."""
        return sum(number for piece in self.pieces for _, number in piece.what)


def setups(
    trees: Iterable[tuple[str, Mapping[str, Any]]], names: Mapping[str, str], measures: Measures
) -> tuple[Setup, ...]:
    """The settings in the order in which they are cut: round by round, the largest first.

    trees: tag and cut tree of every board, as `ordered_cuts` takes them. names: part id to the name printed.
    measures: sizes that read the same on the workshop's tape share a setting, which is then that of the largest.
    Source: OWN, reading the trees from the outside in.
    """
    found: dict[tuple[int, str, str], list[tuple[float, str, str, str]]] = {}
    for tag, tree in trees:
        for turn, kind, size_mm, within, what in _freed(tree, BOARD, names, 0, 0):
            found.setdefault((turn, kind, measures.length(size_mm)), []).append((size_mm, tag, within, what))
    rows = [
        Setup(turn, "rip" if kind == "rip" else "crosscut", max(row[0] for row in each), _by_piece(each))
        for (turn, kind, _), each in found.items()
    ]
    return tuple(sorted(rows, key=lambda row: (row.turn, -row.size_mm)))


def _by_piece(rows: list[tuple[float, str, str, str]]) -> tuple[FromPiece, ...]:
    counts: dict[tuple[str, str], Counter[str]] = {}
    for _, tag, within, what in rows:
        counts.setdefault((tag, within), Counter())[what] += 1
    return tuple(FromPiece(tag, within, tuple(each.items())) for (tag, within), each in counts.items())


def _freed(
    node: Mapping[str, Any], label: str, names: Mapping[str, str], depth: int, turn: int
) -> Iterator[tuple[int, str, float, str, str]]:
    """Turn, kind, size along the cut, the piece it comes from and what it is, for all that is not waste."""
    if "pieces" not in node:
        return
    kind = str(node["cut"])
    now = next(each for each in range(turn + 1, turn + 3) if (each - FIRST_TURN[kind]) % 2 == 0)
    side = "length" if kind == "crosscut" else "width"
    for piece, what in labelled_pieces(node["pieces"], label, names, depth):
        if what != OFFCUT:
            yield now, kind, float(piece[side]), label, what
        yield from _freed(piece, what, names, depth + 1, now)
