"""All patterns found so far, by board, and the choice of one per board."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from shopapi.craft.layout.choice import improve_choice
from shopapi.craft.layout.frame import Frame
from shopapi.craft.layout.pricing import Pattern

Choice = list[Pattern | None]
Floats = NDArray[np.float64]


class Pool:
    """Patterns without doubles, numbered as they come. A choice is one pattern or None per board."""

    def __init__(self, frame: Frame) -> None:
        self.frame = frame
        self.patterns: list[Pattern] = []
        self.by_board: list[list[int]] = [[] for _ in frame.boards]
        self._numbers: dict[tuple[int, bytes], int] = {}
        # the parts of pattern n and their counts: _ptr[n]:_ptr[n + 1] of the other two
        self._ptr = np.zeros(1024, np.int64)
        self._parts = np.zeros(8192, np.int64)
        self._counts = np.zeros(8192, np.int64)

    def __len__(self) -> int:
        return len(self.patterns)

    def add(self, pattern: Pattern) -> bool:
        """Keep a pattern; False if its like is there or it is empty."""
        parts = np.flatnonzero(pattern.counts)
        if pattern.key in self._numbers or not parts.size:
            return False
        number = len(self.patterns)
        start = int(self._ptr[number])
        end = start + parts.size
        if number + 2 > self._ptr.size:
            self._ptr = np.resize(self._ptr, 2 * self._ptr.size)
        if end > self._parts.size:
            self._parts = np.resize(self._parts, 2 * end)
            self._counts = np.resize(self._counts, 2 * end)
        self._parts[start:end] = parts
        self._counts[start:end] = pattern.counts[parts]
        self._ptr[number + 1] = end
        self._numbers[pattern.key] = number
        self.by_board[pattern.board].append(number)
        self.patterns.append(pattern)
        return True

    def worth(self, choice: Choice) -> float:
        """What the wanted pieces of a choice are worth."""
        got = np.zeros(len(self.frame.quantities), np.int64)
        for pattern in choice:
            if pattern is not None:
                got += pattern.counts
        return float((np.minimum(got, self.frame.quantities) * self.frame.worths).sum())

    def net_worths(self, prices: Floats) -> Floats:
        """Value less price of every pattern."""
        if not self.patterns:
            return np.zeros(0)
        end = int(self._ptr[len(self)])
        net = (self.frame.worths - prices)[self._parts[:end]] * self._counts[:end]
        return np.add.reduceat(net, self._ptr[: len(self)])

    def losses(self, choice: Choice, prices: Floats) -> Floats:
        """How far each board's pattern is behind the best of its patterns at these prices."""
        net = self.net_worths(prices)
        losses = np.zeros(len(self.by_board))
        for board, numbers in enumerate(self.by_board):
            if numbers:
                now = choice[board]
                losses[board] = net[numbers].max() - (0.0 if now is None else net[self._numbers[now.key]])
        return np.maximum(losses, 0.0)

    def improve(
        self, choice: Choice, prices: Floats, slack: float, steps: int, seed: int, heat: float, boards: list[int]
    ) -> Choice:
        """A choice at least as good, after so many steps of local search over these boards; the others stay.

        Patterns that are more than `slack` behind their board's best at these prices stay out: with slack at the gap
        between bound and value, no better choice holds one.
        """
        net = self.net_worths(prices)
        chosen = np.full(len(self.by_board), -1, np.int64)
        kept = []
        free = set(boards)
        for board, numbers in enumerate(self.by_board):
            every = np.array(numbers if board in free else [], np.int64)
            if every.size:
                every = every[net[every] >= net[every].max() - slack]
            now = choice[board]
            if now is not None:
                chosen[board] = self._numbers[now.key]
                if chosen[board] not in every:
                    every = np.append(every, chosen[board])
            kept.append(every)
        first = np.cumsum([0] + [k.size for k in kept]).astype(np.int64)
        improve_choice(
            chosen, steps, heat, seed, first, np.concatenate(kept), self._ptr, self._parts, self._counts,
            self.frame.quantities, self.frame.worths, prices,
        )  # fmt: skip
        return [self.patterns[n] if n >= 0 else None for n in chosen]
