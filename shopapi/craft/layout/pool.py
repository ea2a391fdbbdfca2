"""All patterns found so far, by board, and the choice of one per board."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from shopapi.craft.layout.choice import improve_choice
from shopapi.craft.layout.frame import Frame
from shopapi.craft.layout.pricing import Pattern

Choice = list[Pattern | None]


class Pool:
    """Patterns without doubles. A choice is one pattern or None per board."""

    def __init__(self, frame: Frame) -> None:
        self.frame = frame
        self.by_board: list[list[Pattern]] = [[] for _ in frame.boards]
        self._keys: set[tuple[int, bytes]] = set()
        self._arrays: tuple[NDArray, ...] | None = None

    def add(self, pattern: Pattern) -> bool:
        """Keep a pattern; False if its like is there or it is empty."""
        if pattern.key in self._keys or not pattern.counts.any():
            return False
        self._keys.add(pattern.key)
        self.by_board[pattern.board].append(pattern)
        self._arrays = None
        return True

    def __len__(self) -> int:
        return len(self._keys)

    def arrays(self) -> tuple[NDArray, ...]:
        """(first, bonus, ptr, parts, counts): the pool as the compiled search takes it."""
        if self._arrays is None:
            everything = [p for patterns in self.by_board for p in patterns]
            first = np.cumsum([0] + [len(patterns) for patterns in self.by_board]).astype(np.int64)
            used = [np.flatnonzero(p.counts) for p in everything]
            ptr = np.cumsum([0] + [len(u) for u in used]).astype(np.int64)
            parts = np.concatenate(used).astype(np.int64) if used else np.empty(0, np.int64)
            counts = (
                np.concatenate([p.counts[u] for p, u in zip(everything, used, strict=True)]).astype(np.int64)
                if used
                else np.empty(0, np.int64)
            )
            self._arrays = (first, np.zeros(len(everything)), ptr, parts, counts)
        return self._arrays

    def worth(self, choice: Choice) -> float:
        """What the wanted pieces of a choice are worth."""
        got = np.zeros(len(self.frame.quantities), np.int64)
        for pattern in choice:
            if pattern is not None:
                got += pattern.counts
        return float((np.minimum(got, self.frame.quantities) * self.frame.worths).sum())

    def improve(self, choice: Choice, prices: NDArray[np.float64], steps: int, seed: int, heat: float) -> Choice:
        """A choice at least as good, after so many steps of local search."""
        first, bonus, ptr, parts, counts = self.arrays()
        chosen = np.full(len(self.by_board), -1, np.int64)
        for board, pattern in enumerate(choice):
            if pattern is not None:
                same = [n for n, p in enumerate(self.by_board[board]) if p is pattern]
                chosen[board] = first[board] + same[0] if same else -1
        improve_choice(
            chosen, steps, heat, seed, first, bonus, ptr, parts, counts,
            self.frame.quantities, self.frame.worths, prices,
        )  # fmt: skip
        return [self.by_board[board][int(n - first[board])] if n >= 0 else None for board, n in enumerate(chosen)]
