"""The linear program over the pool: what a fractional choice of patterns is worth, and the prices it puts on parts."""

from __future__ import annotations

import numpy as np
from ortools.linear_solver import pywraplp

from shopapi.craft.layout.frame import Frame
from shopapi.craft.layout.pool import Pool
from shopapi.craft.layout.pricing import Pattern
from shopapi.craft.layout.rack import Floats


class Master:
    """Grows with the pool. Pieces beyond what is wanted may be dropped, so no price exceeds its part's value."""

    def __init__(self, frame: Frame) -> None:
        self.frame = frame
        self.solver = pywraplp.Solver.CreateSolver("GLOP")
        infinity = self.solver.infinity()
        self.objective = self.solver.Objective()
        self.objective.SetMaximization()
        self.part_rows = [self.solver.Constraint(-infinity, float(q)) for q in frame.quantities]
        self.board_rows = [self.solver.Constraint(-infinity, 1.0) for _ in frame.boards]
        for row, worth in zip(self.part_rows, frame.worths, strict=True):
            drop = self.solver.NumVar(0, infinity, "")
            row.SetCoefficient(drop, -1.0)
            self.objective.SetCoefficient(drop, -float(worth))
        self._taken = [0] * len(frame.boards)

    def _add(self, pattern: Pattern) -> None:
        variable = self.solver.NumVar(0, self.solver.infinity(), "")
        self.board_rows[pattern.board].SetCoefficient(variable, 1.0)
        for part in np.flatnonzero(pattern.counts):
            self.part_rows[part].SetCoefficient(variable, float(pattern.counts[part]))
        self.objective.SetCoefficient(variable, float((pattern.counts * self.frame.worths).sum()))

    def solve(self, pool: Pool) -> tuple[float, Floats] | None:
        """Value of the program over the pool as it is now, and the price of each part; None if it was not solved."""
        for board, patterns in enumerate(pool.by_board):
            for pattern in patterns[self._taken[board] :]:
                self._add(pattern)
            self._taken[board] = len(patterns)
        if self.solver.Solve() != pywraplp.Solver.OPTIMAL:
            return None
        prices = np.array([row.dual_value() for row in self.part_rows])
        return self.objective.Value(), np.clip(prices, 0.0, self.frame.worths)
