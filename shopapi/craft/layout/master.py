"""The linear program over the pool: what a fractional choice of patterns is worth, and the prices it puts on parts."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray
from ortools.linear_solver import pywraplp

from shopapi.craft.layout.frame import Frame
from shopapi.craft.layout.pricing import Pattern
from shopapi.craft.layout.rack import Floats


class Master:
    """Grows with the pool. Pieces beyond what is wanted may be dropped, so no price exceeds its part's value."""

    def __init__(self, frame: Frame, boards: list[int], quantities: NDArray[np.int64]) -> None:
        self.frame = frame
        self.solver = pywraplp.Solver.CreateSolver("GLOP")
        infinity = self.solver.infinity()
        self.objective = self.solver.Objective()
        self.objective.SetMaximization()
        self.part_rows = [self.solver.Constraint(-infinity, float(q)) for q in quantities]
        self.board_rows = {board: self.solver.Constraint(-infinity, 1.0) for board in boards}
        self.drops, self.extras = [], []
        for row, worth in zip(self.part_rows, frame.worths, strict=True):
            drop, extra = self.solver.NumVar(0, infinity, ""), self.solver.NumVar(0, infinity, "")
            row.SetCoefficient(drop, -1.0)
            row.SetCoefficient(extra, 1.0)
            self.objective.SetCoefficient(drop, -float(worth))
            self.drops.append(drop)
            self.extras.append(extra)
        self.columns: dict[tuple[int, bytes], tuple[Pattern, pywraplp.Variable]] = {}

    def add(self, pattern: Pattern) -> None:
        """One more column; patterns that give the same parts from the same board count once."""
        if pattern.key in self.columns:
            return
        variable = self.solver.NumVar(0, self.solver.infinity(), "")
        self.columns[pattern.key] = pattern, variable
        self.board_rows[pattern.board].SetCoefficient(variable, 1.0)
        for part in np.flatnonzero(pattern.counts):
            self.part_rows[part].SetCoefficient(variable, float(pattern.counts[part]))
        self.objective.SetCoefficient(variable, float((pattern.counts * self.frame.worths).sum()))

    def keep_prices(self, least: Floats, most: Floats) -> None:
        """From now on prices stay between these."""
        for drop, extra, low, high in zip(self.drops, self.extras, least, most, strict=True):
            self.objective.SetCoefficient(drop, -float(high))
            self.objective.SetCoefficient(extra, float(low))

    def solve(self) -> tuple[float, Floats] | None:
        """Value of the program and the price of each part; None if it was not solved."""
        if self.solver.Solve() != pywraplp.Solver.OPTIMAL:
            return None
        prices = np.array([row.dual_value() for row in self.part_rows])
        return self.objective.Value(), np.clip(prices, 0.0, self.frame.worths)

    def shares(self, boards: set[int]) -> list[tuple[float, Pattern]]:
        """The columns of these boards that the last solution uses, the most used first."""
        used = [(v.solution_value(), p) for p, v in self.columns.values() if p.board in boards]
        return sorted((u for u in used if u[0] > 1e-6), key=lambda u: -u[0])

    def fix(self, pattern: Pattern) -> None:
        """Settle for this column of its board."""
        self.columns[pattern.key][1].SetLb(1.0)
