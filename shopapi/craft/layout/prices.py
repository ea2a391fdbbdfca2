"""Prices of parts: each round searches every board at value less price, which gives patterns and proves a bound.

With any prices p >= 0, no layout is worth more than sum(p x quantity) + sum over boards of the best value less price.
"""

from __future__ import annotations

import numpy as np

from shopapi.craft.layout.master import Master
from shopapi.craft.layout.pricing import FINE, FINEST, USUAL
from shopapi.craft.layout.rack import Floats, Rack

USED_SHARE = 0.72


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


class PriceRounds:
    """Rounds of pricing over all boards, smoothed around the prices of the best bound."""

    def __init__(self, rack: Rack) -> None:
        self.rack = rack
        self.master = Master(rack.frame)
        self.centre = opening_prices(rack)
        self.duals: Floats | None = None
        self.lp_value = 0.0
        self.pull = 0.7
        self.best_bound = np.inf
        self.idle = 0

    @property
    def stalled(self) -> bool:
        """Whether the last rounds brought nothing even at the finest precision."""
        return self.idle >= 6

    def round(self) -> bool:
        """Search every board once; False if the clock ended it early."""
        rack = self.rack
        gap = (self.best_bound - rack.value) / self.best_bound if np.isfinite(self.best_bound) else 1.0
        prices = self.centre if self.duals is None else self.pull * self.centre + (1 - self.pull) * self.duals
        precision = FINEST if gap < 0.008 or self.idle >= 2 else FINE if gap < 0.03 else USUAL
        rack.pricer.set_worths(rack.frame.worths - prices, rack.frame.quantities)
        bound = float((prices * rack.frame.quantities).sum())
        worth_more = False
        for board in range(len(rack.frame.boards)):
            if rack.clock.over:
                return False
            _, value, above = rack.search(board, precision, rack.frame.quantities)
            worth_more |= value > 0
            bound += above
        self._learn(bound, prices, gap)
        return True

    def _learn(self, bound: float, prices: Floats, gap: float) -> None:
        better = bound < self.best_bound * (1 - 1e-7)
        if better:
            self.best_bound, self.centre, self.idle = bound, prices, 0
            self.rack.prices = prices
            self.rack.offer_bound(bound)
        else:
            self.idle += 1
            # far from the end stray less from the centre; near it, more
            self.pull = min(0.85, self.pull + 0.05) if gap > 0.03 else max(0.3, self.pull - 0.1)
        if better:
            self.pull += 0.3 * (0.7 - self.pull)
        solved = self.master.solve(self.rack.pool)
        if solved is not None:
            self.lp_value, self.duals = solved
        self.rack.clock.count(200 + 2 * len(self.rack.pool))
