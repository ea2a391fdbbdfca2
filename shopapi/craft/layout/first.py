"""First layouts: boards one after another, each cut in the best way for what is still wanted."""

from __future__ import annotations

import numpy as np

from shopapi.craft.layout.pool import Choice
from shopapi.craft.layout.rack import Floats, Rack

EXPONENTS = (0.1, 0.0, 0.05, 0.2, 0.3)
STALE = 25


def one_pass(rack: Rack, order: list[int], worths: Floats, turns: int = 1) -> Choice:
    """Boards in this order, each taking what is worth most of what is left."""
    left = rack.frame.quantities.copy()
    choice: Choice = [None] * len(rack.frame.boards)
    for board in order:
        if rack.clock.over or not left.any():
            break
        pattern = rack.cut(board, np.where(left > 0, worths, 0.0), left, turns)
        choice[board] = pattern
        if pattern is not None:
            left = left - pattern.counts
    return choice


def first_layouts(rack: Rack, share: float, most: int) -> None:
    """Up to `most` passes within a share of the budget; parts that stay out weigh more in the next pass.

    Ends after STALE passes that brought nothing.
    """
    frame = rack.frame
    area = np.array([w.length * w.width for w in frame.problem.wanted], np.float64)
    weight = np.ones(len(area))
    stale = 0
    for number in range(most):
        if number and (rack.clock.spent > share or rack.clock.over or rack.proved or stale >= STALE):
            break
        exponent = EXPONENTS[number % len(EXPONENTS)]
        keys = rack.grown_areas * (1.0 if number == 0 else rack.random.uniform(0.8, 1.25, len(rack.grown_areas)))
        order = [int(b) for b in np.argsort(keys if number % 4 < 3 else -keys, kind="stable")]
        choice = one_pass(rack, order, frame.worths * weight * (area / area.mean()) ** exponent, 1 + number % 3)
        left = rack.left_over(choice)
        weight = np.where(left > 0, weight * 1.12, weight * 0.99)
        stale = 0 if rack.offer(choice) else stale + 1
