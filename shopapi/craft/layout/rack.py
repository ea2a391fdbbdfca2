"""The state of a search over all boards: patterns found, best choice so far, best bound so far, prices of parts."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
from numpy.typing import NDArray

from shopapi.craft.layout.clock import SECTION_UNITS, STEP_UNITS, Clock
from shopapi.craft.layout.frame import Frame, Ints
from shopapi.craft.layout.pool import Choice, Pool
from shopapi.craft.layout.pricing import Pattern, Pricer, Window

Floats = NDArray[np.float64]
STEP, EASE = 0.4, 0.8  # how fast an overused part becomes dearer, and cheaper again


class Rack:
    """Everything the stages of a search share. `on_better` is called whenever value or bound improves."""

    def __init__(self, frame: Frame, clock: Clock, seed: int, on_better: Callable[[Rack], None] | None = None) -> None:
        self.frame = frame
        self.clock = clock
        self.random = np.random.default_rng(seed)
        self.pricer = Pricer(frame)
        self.pool = Pool(frame)
        self.best: Choice = [None] * len(frame.boards)
        self.value = 0.0
        self.all_parts = float((frame.worths * frame.quantities).sum())
        self.bound = self.all_parts
        self.prices: Floats = np.zeros(len(frame.worths))
        self.grown_areas: Floats = np.array([b.length * b.width for b in frame.boards], np.float64)
        self.in_play = [n for n in range(len(frame.boards)) if frame.strips(n).seg_from.size]
        self._on_better = on_better

    def only(self, boards: list[int]) -> None:
        """From now on recreation and local search leave all boards but these uncut."""
        self.in_play = [n for n in boards if self.frame.strips(n).seg_from.size]

    def settle(self, choice: Choice) -> None:
        """Take a choice that is worth as much as the best and better in another way."""
        self.best = list(choice)
        if self._on_better:
            self._on_better(self)

    @property
    def proved(self) -> bool:
        """Whether no layout that the bound covers is worth more; values are whole numbers."""
        return self.value >= self.bound - 0.5

    @property
    def gap(self) -> float:
        """How far the bound is above the value, as a share of the bound."""
        return (self.bound - self.value) / self.bound if self.bound > 0 else 0.0

    def offer(self, choice: Choice) -> bool:
        """Take a choice if it is the best so far."""
        value = self.pool.worth(choice)
        if value <= self.value + 1e-6:
            return False
        self.value, self.best = value, list(choice)
        if self._on_better:
            self._on_better(self)
        return True

    def offer_bound(self, bound: float) -> bool:
        """Take a bound if it is the best so far."""
        if bound >= self.bound - 1e-9:
            return False
        self.bound = bound
        if self._on_better:
            self._on_better(self)
        return True

    def counted_search(self, board: int, window: Window | None = None) -> tuple[float, float, Ints]:
        """The pricer's search, with its work counted."""
        before = self.pricer.worked
        found = self.pricer.search(board, window)
        self.clock.count((self.pricer.worked - before) * SECTION_UNITS + 500)
        return found

    def search(self, board: int, left: NDArray[np.int64], window: Window | None = None) -> tuple[Pattern, Ints, float]:
        """Best pattern of a board at the pricer's worths, with the crosscuts and the upper bound of its worth."""
        _, bound, cuts = self.counted_search(board, window)
        pattern = self.pricer.pattern(board, cuts, left, window=window)
        self.pool.add(pattern)
        return pattern, cuts, bound

    def cut(
        self, board: int, worths: Floats, limits: NDArray[np.int64], turns: int, window: Window | None = None
    ) -> Pattern | None:
        """A good pattern of a board with no more than `limits` of each part.

        The search heeds quantities inside one stretch only: a part taken too often becomes dearer in the next turn.
        """
        best: Pattern | None = None
        most = 0.0
        dearer = np.zeros(len(worths))
        for _ in range(turns):
            self.pricer.set_worths(np.maximum(worths - dearer, 0.0), limits)
            pattern, cuts, _ = self.search(board, limits, window)
            worth = float((pattern.counts * worths).sum())
            if worth > most:
                best, most = pattern, worth
            if turns > 1:
                wished = self.pricer.pattern(board, cuts, limits, shared=False, window=window).counts
                over = np.maximum(wished - limits, 0)
                if not over.any() or self.clock.over:
                    break
                dearer = np.where(over > 0, dearer + STEP * worths * over / np.maximum(wished, 1), EASE * dearer)
        return best

    def improve(self, choice: Choice, steps: int, heat: float = 0.002) -> Choice:
        """Local search over the pool from a choice; gives what it came to and keeps what is better than the best."""
        if steps <= 0 or not len(self.pool):
            return choice
        seed = int(self.random.integers(1, 2**31))
        self.clock.count(steps * STEP_UNITS)
        slack = max(self.bound - self.value, 0.002 * self.bound)
        better = self.pool.improve(choice, self.prices, slack, steps, seed, heat, self.in_play)
        self.offer(better)
        return better

    def left_over(self, choice: Choice) -> NDArray[np.int64]:
        """How many pieces of each part a choice leaves wanting."""
        got = np.zeros(len(self.frame.quantities), np.int64)
        for pattern in choice:
            if pattern is not None:
                got += pattern.counts
        return np.maximum(self.frame.quantities - got, 0)
