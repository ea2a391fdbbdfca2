"""Ruin and recreate: free a few boards, cut them anew for what is then wanted, and choose again."""

from __future__ import annotations

import numpy as np

from shopapi.craft.layout.pool import Choice
from shopapi.craft.layout.pricing import FINE, USUAL
from shopapi.craft.layout.rack import Floats, Rack


def _losses(rack: Rack) -> Floats:
    """How far each board's pattern is behind the best of its patterns at the present prices."""
    net = rack.frame.worths - rack.prices
    losses = np.zeros(len(rack.frame.boards))
    for board, patterns in enumerate(rack.pool.by_board):
        if not patterns:
            continue
        most = max(float((p.counts * net).sum()) for p in patterns)
        now = rack.best[board]
        losses[board] = most - (float((now.counts * net).sum()) if now is not None else 0.0)
    return np.maximum(losses, 0.0)


def recreate(rack: Rack, losses: Floats) -> None:
    """One try on one to four boards, drawn by their losses."""
    boards = len(rack.frame.boards)
    usable = [b for b in range(boards) if rack.frame.strips(b).seg_from.size]
    chance = losses[usable] + 0.3 * losses[usable].mean() + 1e-9
    size = min(len(usable), 1 + int(rack.random.integers(0, 4)))
    picked = [int(b) for b in rack.random.choice(usable, size=size, replace=False, p=chance / chance.sum())]
    choice: Choice = list(rack.best)
    for board in picked:
        choice[board] = None
    precision = FINE if rack.random.random() < 0.5 else USUAL
    for board in picked:
        if rack.clock.over:
            return
        left = rack.left_over(choice)
        pull = rack.random.random()
        # what the other boards already give is worth its price at most: another board could then give less of it
        fresh = np.maximum(rack.frame.worths - pull * rack.prices * (len(picked) > 1), 0.0)
        worths = np.where(left > 0, fresh, np.maximum(rack.frame.worths - rack.prices, 0.0) * pull)
        worths *= rack.random.uniform(0.97, 1.03, len(worths))
        rack.pricer.set_worths(worths, np.where(left > 0, left, rack.frame.quantities))
        pattern, _, _ = rack.search(board, precision, np.where(left > 0, left, rack.frame.quantities))
        choice[board] = pattern
    rack.offer(choice)
    rack.improve(choice, 60, heat=0.001)


def recreate_for(rack: Rack, units: float) -> None:
    """Tries for so much counted work."""
    until = rack.clock.done + units
    losses = _losses(rack)
    number = 0
    while rack.clock.done < until and not rack.clock.over and not rack.proved:
        recreate(rack, losses)
        number += 1
        if number % 10 == 0:
            losses = _losses(rack)
            rack.improve(rack.best, 300)
