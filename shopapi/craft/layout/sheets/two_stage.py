"""Two-stage sheets by an integer program over sections, with every section that a better layout could hold.

Prices come from the linear program over sections. With its value z no layout that holds a section is worth more than
z less how far that section is behind its price: all sections that are less than z - value behind make the integer
program exact.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass

import numpy as np
from ortools.linear_solver import pywraplp
from ortools.sat.python import cp_model

from shopapi.craft.layout.clock import Clock
from shopapi.craft.layout.frame import Frame
from shopapi.craft.layout.sheets.sections import Floats, Section, SlotSearch, slots_of

FIRST_GAP = 0.02
MOST_SECTIONS = 30_000
MOST_VISITS = 600_000
VISIT_UNITS = 3.0
TINY = 1e-6


@dataclass(frozen=True)
class Prices:
    """What the linear program is worth, and what it asks for a piece and for room on a board."""

    worth: float
    parts: Floats
    rooms: Floats


class TwoStage:
    """The search of one problem; `sections` is the best choice so far, `bound` what no layout exceeds."""

    def __init__(self, frame: Frame, clock: Clock) -> None:
        self.frame, self.clock = frame, clock
        found = [slots_of(frame, board) for board in range(len(frame.boards))]
        self.slots = [slot for slots, _ in found for slot in slots]
        self.complete = all(whole for _, whole in found)
        self.bound = float((frame.worths * frame.quantities).sum())
        self.value = 0.0
        self.sections: list[Section] = []
        # a clear board is one room as long as itself; a flawed one has a room of 1 between neighbouring positions
        self._edges: list[list[int]] = []
        self._first_room: list[int] = []
        self.capacities: list[int] = []
        for board, grown in enumerate(frame.boards):
            own = [s for s in self.slots if s.board == board]
            edges = sorted({e for s in own for e in (s.x0, s.x0 + s.length)}) if len(grown.flaws) else []
            self._edges.append(edges)
            self._first_room.append(len(self.capacities))
            self.capacities += [1] * (len(edges) - 1) if edges else [grown.length]
        self.columns: dict[tuple[int, int, int, tuple[tuple[int, int], ...]], Section] = {}

    def rooms(self, board: int, x0: int, length: int) -> list[tuple[int, int]]:
        """(room, how much of it) that a section takes up."""
        first, edges = self._first_room[board], self._edges[board]
        if not edges:
            return [(first, length)]
        return [(first + n, 1) for n, edge in enumerate(edges[:-1]) if x0 <= edge < x0 + length]

    def counts(self, section: Section) -> Counter[int]:
        """How many of each part a section holds."""
        return Counter(self.frame.items[item].part for item, _, _ in section.places)

    def add(self, section: Section) -> bool:
        """Keep a section; False if its like is there or it holds more of a part than is wanted."""
        counts = self.counts(section)
        key = (section.board, section.x0, section.length, tuple(sorted(counts.items())))
        if key in self.columns or any(many > self.frame.quantities[part] for part, many in counts.items()):
            return False
        self.columns[key] = section
        return True

    def run(self) -> None:
        """Search until proved best, or the clock is over, or there are too many sections to try them all."""
        for slot in self.slots:
            for _, item, x, _ in slot.offers:
                if x + self.frame.items[item].length == slot.length:
                    y = next(o[0] for o in slot.offers if o[1] == item)
                    self.add(Section(slot.board, slot.x0, slot.length, ((item, x, y),)))
        prices = self._generate()
        self._choose()
        if prices is None:
            return
        self._offer_bound(prices.worth)
        gap = FIRST_GAP * prices.worth
        while not self.clock.over and self.value < self.bound - 0.5:
            gap = max(gap, 1.0)
            whole = self._enumerate(prices, gap)
            proved = self._choose()
            if whole and proved:
                self._offer_bound(max(self.value, prices.worth - gap))
            if not whole:
                break
            gap = min(2 * gap, max(prices.worth - self.value, gap + 1.0))

    def _offer_bound(self, bound: float) -> None:
        if self.complete:
            self.bound = min(self.bound, float(np.floor(bound + TINY)))

    def _net(self, prices: Prices) -> Floats:
        parts = self.frame.worths - prices.parts
        return np.array([parts[item.part] for item in self.frame.items])

    def _generate(self) -> Prices | None:
        """Add sections until the linear program over all of them is solved; None if the clock ended it."""
        while True:
            prices = self._linear()
            if prices is None or self.clock.over:
                return None
            net = self._net(prices)
            fresh = 0
            for slot in self.slots:
                cost = sum(many * prices.rooms[room] for room, many in self.rooms(slot.board, slot.x0, slot.length))
                search = SlotSearch(self.frame, slot, net)
                self.clock.count(20.0 * (1 + len(slot.offers)))
                if search.best <= cost + TINY:
                    continue
                for section in search.contents(search.best - TINY):
                    if section is not None:
                        fresh += self.add(section)
                        break
            if not fresh:
                return prices

    def _linear(self) -> Prices | None:
        solver = pywraplp.Solver.CreateSolver("GLOP")
        part_rows = [solver.Constraint(-solver.infinity(), float(q)) for q in self.frame.quantities]
        room_rows = [solver.Constraint(-solver.infinity(), float(c)) for c in self.capacities]
        objective = solver.Objective()
        objective.SetMaximization()
        for section in self.columns.values():
            variable = solver.NumVar(0, solver.infinity(), "")
            worth = 0.0
            for part, many in self.counts(section).items():
                part_rows[part].SetCoefficient(variable, float(many))
                worth += many * self.frame.worths[part]
            for room, many in self.rooms(section.board, section.x0, section.length):
                room_rows[room].SetCoefficient(variable, float(many))
            objective.SetCoefficient(variable, worth)
        self.clock.count(200 + 5 * len(self.columns))
        if solver.Solve() != pywraplp.Solver.OPTIMAL:
            return None
        parts = np.clip([row.dual_value() for row in part_rows], 0.0, self.frame.worths)
        return Prices(objective.Value(), parts, np.maximum([row.dual_value() for row in room_rows], 0.0))

    def _enumerate(self, prices: Prices, gap: float) -> bool:
        """Add every section less than `gap` behind its price; False if there are too many."""
        net = self._net(prices)
        visits = 0
        for slot in self.slots:
            cost = sum(many * prices.rooms[room] for room, many in self.rooms(slot.board, slot.x0, slot.length))
            search = SlotSearch(self.frame, slot, net)
            if search.best < cost - gap:
                continue
            for section in search.contents(cost - gap):
                visits += 1
                if section is not None:
                    self.add(section)
                if len(self.columns) > MOST_SECTIONS or visits > MOST_VISITS:
                    return False
                if visits % 256 == 0:
                    self.clock.count(256 * VISIT_UNITS)
                    if self.clock.over:
                        return False
        return True

    def _choose(self) -> bool:
        """The best choice of the sections at hand; whether it is proved the best of them."""
        model = cp_model.CpModel()
        parts: list[list[cp_model.LinearExpr]] = [[] for _ in self.frame.quantities]
        rooms: list[list[cp_model.LinearExpr]] = [[] for _ in self.capacities]
        gains, chosen = [], []
        for section in self.columns.values():
            counts = self.counts(section)
            taken = self.rooms(section.board, section.x0, section.length)
            most = min(self.frame.quantities[part] // many for part, many in counts.items())
            most = min(most, *(self.capacities[room] // many for room, many in taken))
            variable = model.new_int_var(0, int(most), "")
            for part, many in counts.items():
                parts[part].append(many * variable)
            for room, many in taken:
                rooms[room].append(many * variable)
            gains.append(int(sum(self.frame.values[part] * many for part, many in counts.items())) * variable)
            chosen.append((section, variable))
        if not chosen:
            return True
        for used, quantity in zip(parts, self.frame.quantities, strict=True):
            model.add(sum(used) <= int(quantity))
        for used, capacity in zip(rooms, self.capacities, strict=True):
            model.add(sum(used) <= capacity)
        model.maximize(sum(gains))
        solver = cp_model.CpSolver()
        solver.parameters.num_workers = 1
        solver.parameters.max_time_in_seconds = max(0.05, self.clock.seconds - self.clock.elapsed)
        if self.clock.work is not None:
            solver.parameters.max_deterministic_time = max(0.05, (self.clock.work - self.clock.done) / 1e6)
        status = solver.solve(model)
        self.clock.count(1e6 * solver.response_proto.deterministic_time)
        if status not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
            return False
        if solver.objective_value > self.value:
            self.value = solver.objective_value
            self.sections = [s for s, variable in chosen for _ in range(solver.value(variable))]
        return status == cp_model.OPTIMAL
