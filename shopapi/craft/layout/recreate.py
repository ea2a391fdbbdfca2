"""Ruin and recreate: free a few boards, cut them anew for what is then wanted, and choose again."""

from __future__ import annotations

import numpy as np

from shopapi.craft.layout.dive import dive
from shopapi.craft.layout.pool import Choice
from shopapi.craft.layout.rack import Rack
from shopapi.craft.layout.section_dive import dive_by_sections

TURNS = 3
DIVES = 0.2  # share of boards cut section by section
FEW = 4
PROGRAMS = 0.4  # share of tries that choose by linear program
SPREAD = 0.03  # of the worths


class Recreation:
    """Walks from choice to choice; a slightly worse one is accepted too, so that it does not stick."""

    def __init__(self, rack: Rack) -> None:
        self.rack = rack
        self.now: Choice = list(rack.best)
        self.worth = rack.value
        # with few boards nothing but the worths brings new patterns
        self.wide = max(SPREAD, 0.4 / len(self.now))
        self.dives = DIVES if len(self.now) > FEW else 0.5
        self.usable = rack.in_play

    def spend(self, units: float, tolerance: float = 0.1) -> None:
        """Tries for so much counted work. tolerance: share of the open gap that a step may lose."""
        rack = self.rack
        until = rack.clock.done + units
        while rack.clock.done < until and not rack.clock.over and not rack.proved:
            if rack.value > self.worth + 3 * tolerance * (rack.bound - rack.value):
                self.now, self.worth = list(rack.best), rack.value
            choice = self.step()
            worth = rack.pool.worth(choice)
            if worth >= self.worth - tolerance * (rack.bound - rack.value) * rack.random.random():
                self.now, self.worth = choice, worth

    def step(self) -> Choice:
        """One try on one to four boards, drawn by how far they are behind."""
        rack = self.rack
        losses = rack.pool.losses(self.now, rack.prices)[self.usable]
        chance = losses + 0.3 * losses.mean() + 1e-9
        size = min(len(self.usable), 1 + int(rack.random.integers(0, 4)))
        picked = rack.random.choice(self.usable, size=size, replace=False, p=chance / chance.sum())
        if size > 1 and rack.random.random() < PROGRAMS:
            boards = sorted(int(b) for b in picked)
            prices = rack.prices * rack.random.uniform(0.5, 1.0)
            dived = dive(rack, self.now, boards, prices, rounds=int(rack.random.integers(0, 3)), columns=15)
            if dived is None:
                return self.now
            rack.offer(dived)
            return rack.improve(dived, 60, heat=0.001)
        choice: Choice = list(self.now)
        for board in picked:
            choice[board] = None
        for board in picked:
            if rack.clock.over:
                break
            self._recut(choice, int(board), alone=size == 1)
        rack.offer(choice)
        return rack.improve(choice, 60, heat=0.001)

    def _recut(self, choice: Choice, board: int, *, alone: bool) -> None:
        """Cut one board for what the choice leaves wanting."""
        rack = self.rack
        frame = rack.frame
        left = rack.left_over(choice)
        pull = rack.random.random()
        # what the boards still free could give as well is worth less; what is sold out may be swapped for its price
        fresh = frame.worths if alone else np.maximum(frame.worths - pull * rack.prices, 0.0)
        worths = np.where(left > 0, fresh, np.maximum(frame.worths - rack.prices, 0.0) * pull)
        limits = np.where(left > 0, left, frame.quantities)
        spread = SPREAD if rack.random.random() < 0.5 else self.wide
        noisy = worths * rack.random.uniform(1 - spread, 1 + spread, len(worths))
        if rack.random.random() < self.dives:
            choice[board] = dive_by_sections(rack, board, noisy, limits)
        else:
            choice[board] = rack.cut(board, noisy, limits, TURNS)
