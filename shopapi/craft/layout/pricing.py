"""One board at given worths of the parts: its best pattern and how much better any pattern could be."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from shopapi.craft.layout.board_search import build_tables, search_board
from shopapi.craft.layout.filling import PIECE_COLUMNS, fill_board
from shopapi.craft.layout.frame import Frame, Ints, Strips

TOP_SCALED = 2**29
X_COLUMNS = [1, 3, 4]
Window = tuple[int, int]


@dataclass(frozen=True)
class Pattern:
    """One way to cut one board: pieces as rows (item, x, y, section from, section to, strip y, strip width row)."""

    board: int
    pieces: Ints
    counts: NDArray[np.int32]

    @property
    def key(self) -> tuple[int, bytes]:
        """Equal for patterns that give the same parts from the same board."""
        return self.board, self.counts.tobytes()


FIRST_BRACKET_MM = 128
SPLIT = 2
SHARE_PCT = 20
WIDTH = 48
MOST_SECTIONS = 30_000  # boards full of equal choices may need more; their bound is then a little high


class Pricer:
    """Searches boards at the worths it was last given; the tables are shared by all boards."""

    def __init__(self, frame: Frame) -> None:
        self.frame = frame
        items = frame.items
        self.items = np.array([(i.length, i.row, i.strictness, i.part) for i in items], np.int32).reshape(-1, 4)
        self.part_of = self.items[:, 3]
        self.tables = np.zeros((frame.forbidden_row + 1, frame.longest + 1), np.int32)
        # a strip that runs past a stretch it may not is worth less than nothing, however much else it holds
        self.top_scaled = TOP_SCALED // (1 + max(len(b.pins.pins) for b in frame.boards))
        self.tables[frame.forbidden_row, 1:] = -self.top_scaled
        areas = np.array([i.length * i.width for i in items], np.float64)
        self.areas = areas
        self.largest = max([b.length * b.width for b in frame.boards] + [1])
        self.classes = sorted({i.strictness for i in items} | {0}) if self._has_show() else [0]
        self.scale = 1.0
        self.worked = 0
        self.worths = np.zeros(len(items), np.int64)
        self.fill_worths = np.zeros(len(items), np.int64)

    def _has_show(self) -> bool:
        return any((b.flaws[:, 4] < 4).any() for b in self.frame.boards)

    def set_worths(self, part_worths: NDArray[np.float64], limits: NDArray[np.int64], small: float = 1e-6) -> None:
        """Take these worths per part, at most `limits` pieces of each in one stretch; `small` x value breaks ties."""
        worths = part_worths[self.part_of]
        most = float((worths / self.areas).max() * self.largest) if len(worths) else 0.0
        self.scale = min(self.top_scaled / most, 1000.0) if most > 0 else 1.0
        # rounded up, so that the bound stays one
        self.worths = np.maximum(np.ceil(worths * self.scale - 1e-7), 0).astype(np.int64)
        self.fill_worths = np.where(
            worths >= 0, (np.maximum(worths, 0) + self.frame.worths[self.part_of] * small) * 2**20 / max(most, 1), 0
        ).astype(np.int64)
        item_limits = limits[self.part_of]
        per = len(self.frame.widths)
        for strictness in self.classes:
            fits = self.items[:, 2] >= strictness
            build_tables(
                self.tables,
                self.items[fits, 0].astype(np.int64),
                self.items[fits, 1].astype(np.int64) + strictness * per,
                item_limits[fits],
                self.worths[fits],
                strictness * per,
                (strictness + 1) * per - 1,
                not self.frame.exact,
            )

    def search(self, board: int, window: Window | None = None) -> tuple[float, float, Ints]:
        """Best sum of worths on a board, or on a window [x0, x1) of it, its upper bound, and the crosscuts."""
        x0, x1 = window or (0, self.frame.boards[board].length)
        strips = self._strips(board, window)
        if strips.seg_from.size == 0:
            return 0.0, 0.0, np.empty((0, 2), np.int32)
        cell = FIRST_BRACKET_MM
        while cell > 1 and 2 * cell > self.frame.shortest:
            cell //= 2
        gaps = self.frame.boards[board].pins.gaps(self.frame.boards[board].length)
        lows, highs = [], []
        for low, high in gaps:
            starts = range(max(low, x0), min(high, x1) + 1, max(cell, 1))
            lows += [start - x0 for start in starts]
            highs += [min(start + max(cell, 1) - 1, high, x1) - x0 for start in starts]
        value, bound, cuts, worked = search_board(
            x1 - x0, self.frame.shortest, np.array(lows), np.array(highs), SPLIT, SHARE_PCT, WIDTH, 0, MOST_SECTIONS,
            self.tables, *strips.arrays,
        )  # fmt: skip
        self.worked += worked
        return value / self.scale, bound / self.scale, cuts + x0

    def _strips(self, board: int, window: Window | None) -> Strips:
        strips = self.frame.strips(board)
        return strips.window(*window) if window else strips

    def fill(
        self, board: int, cuts: Ints, left: NDArray[np.int64], *, shared: bool = True, window: Window | None = None
    ) -> Ints:
        """Pieces that fill these sections with no more than `left` of each part (left itself stays).

        Not shared: each stretch may use all of what is left, as the search supposes; only good for bounds.
        """
        x0, x1 = window or (0, self.frame.boards[board].length)
        room = 64 + (x1 - x0) * self.frame.boards[board].width // int(self.areas.min())
        pieces = np.empty((room, PIECE_COLUMNS), np.int32)
        count = fill_board(
            cuts - x0, self.frame.exact, len(self.frame.widths), shared,
            self.tables, *self._strips(board, window).arrays,
            self.items, self.fill_worths, left.copy(), pieces,
        )  # fmt: skip
        pieces = pieces[:count].copy()
        pieces[:, X_COLUMNS] += x0
        return pieces

    def counts(self, pieces: Ints) -> NDArray[np.int32]:
        """How many of each part these pieces are."""
        return np.bincount(self.part_of[pieces[:, 0]], minlength=len(self.frame.worths)).astype(np.int32)

    def pattern(
        self, board: int, cuts: Ints, left: NDArray[np.int64], *, shared: bool = True, window: Window | None = None
    ) -> Pattern:
        """The pattern that `fill` gives."""
        pieces = self.fill(board, cuts, left, shared=shared, window=window)
        return Pattern(board, pieces, self.counts(pieces))
