"""Prices of parts: each round searches every board at value less price, which gives patterns and proves a bound.

With any prices p >= 0, no layout is worth more than sum(p x quantity) + sum over boards of the best value less price.
"""

from __future__ import annotations

import numpy as np

from shopapi.craft.layout.frame import Frame
from shopapi.craft.layout.master import Master
from shopapi.craft.layout.rack import Floats, Rack

USED_SHARE = 0.72
FIRST_BOX = 0.08  # of a part's value


def opening_prices(rack: Rack) -> Floats:
    """Prices that leave every part worth the same per area, as at the part where the wood would run out."""
    frame = rack.frame
    area = np.array([w.length * w.width for w in frame.problem.wanted], np.float64)
    clear = sum(
        b.length * b.width - int(((b.flaws[:, 1] - b.flaws[:, 0]) * (b.flaws[:, 3] - b.flaws[:, 2])).sum())
        for b in frame.boards
    )
    density = frame.worths / area
    order = np.argsort(-density, kind="stable")
    used = np.cumsum((area * frame.quantities)[order])
    at = int(np.searchsorted(used, USED_SHARE * max(clear, 0)))
    rho = density[order[at]] if at < len(order) else 0.0
    return np.maximum(frame.worths - rho * area, 0.0)


def area_bound(frame: Frame) -> float:
    """What the parts worth most for their area come to, if all clear wood became parts: no layout is worth more."""
    grown = np.zeros(len(frame.worths))
    for item in frame.items:
        grown[item.part] = item.length * item.width
    room = float(sum(board.clear_area for board in frame.boards))
    bound = 0.0
    for part in np.argsort(-frame.worths / grown, kind="stable"):
        many = min(float(frame.quantities[part]), room / grown[part])
        bound += many * frame.worths[part]
        room -= many * grown[part]
    return float(bound)


class PriceRounds:
    """Rounds of pricing over all boards; prices stay in a box around those of the best bound."""

    def __init__(self, rack: Rack) -> None:
        self.rack = rack
        self.master = Master(rack.frame, list(range(len(rack.frame.boards))), rack.frame.quantities)
        self._taken = 0
        self.centre = opening_prices(rack)
        self.prices = self.centre
        self.lp_value = 0.0
        self.box = FIRST_BOX
        self.best_bound = np.inf
        self.idle = 0

    @property
    def stalled(self) -> bool:
        """Whether the bound has come as far down as prices can bring it."""
        return self.idle >= 6

    def round(self) -> bool:
        """Search every board once; False if the clock ended it early."""
        rack = self.rack
        prices = self.prices
        rack.pricer.set_worths(rack.frame.worths - prices, rack.frame.quantities)
        bound = float((prices * rack.frame.quantities).sum())
        for board in range(len(rack.frame.boards)):
            if rack.clock.over:
                return False
            _, cuts, above = rack.search(board, rack.frame.quantities)
            bound += above
            self.master.add(rack.pricer.pattern(board, cuts, rack.frame.quantities, shared=False))
        self._learn(bound, prices)
        return True

    def _learn(self, bound: float, prices: Floats) -> None:
        if bound < self.best_bound * (1 - 1e-7):
            self.best_bound, self.centre, self.idle = bound, prices, 0
            self.rack.prices = prices
            self.rack.offer_bound(bound)
            self.box = min(0.5, self.box * 1.4)
        else:
            self.idle += 1
            self.box = max(0.002, self.box * 0.6)
        worths = self.rack.frame.worths
        for pattern in self.rack.pool.patterns[self._taken :]:
            self.master.add(pattern)
        self._taken = len(self.rack.pool)
        self.master.keep_prices(
            np.maximum(self.centre - self.box * worths, 0.0), np.minimum(self.centre + self.box * worths, worths)
        )
        solved = self.master.solve()
        if solved is not None:
            self.lp_value, self.prices = solved
        self.rack.clock.count(200 + 2 * len(self.rack.pool))
