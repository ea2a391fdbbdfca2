"""Diving: choose boards one after another from the linear program, cutting the others anew after every choice."""

from __future__ import annotations

import numpy as np

from shopapi.craft.layout.master import Master
from shopapi.craft.layout.pool import Choice
from shopapi.craft.layout.rack import Floats, Rack

SETTLED = 0.95
STEPS = 12


def dive(
    rack: Rack, now: Choice, boards: list[int], prices: Floats, *, rounds: int = 1, columns: int = 30
) -> Choice | None:
    """A choice that keeps all other boards of `now` and cuts these anew; None if the clock ended it.

    prices: what parts cost to begin with; rounds: price rounds before the first board is settled; columns: how many
    known patterns per board take part.
    """
    frame = rack.frame
    choice: Choice = list(now)
    for board in boards:
        choice[board] = None
    left = rack.left_over(choice)
    master = Master(frame, boards, left)
    net = rack.pool.net_worths(prices)
    for board in boards:
        known = np.array(rack.pool.by_board[board], np.int64)
        for n in known[np.argsort(-net[known], kind="stable")[:columns]]:
            master.add(rack.pool.patterns[n])
    free = set(boards)
    if not _priced(rack, master, sorted(free), prices, left):
        return None
    for _ in range(rounds):
        solved = master.solve()
        if solved is None or not _priced(rack, master, sorted(free), solved[1], left):
            return None
    at_once = max(1, len(boards) // STEPS)
    while free:
        solved = master.solve()
        if solved is None:
            return None
        shares = master.shares(free)
        if not shares:
            break
        settled = 0
        for share, pattern in shares:
            if pattern.board in free and (settled < at_once or share > SETTLED):
                choice[pattern.board] = pattern
                left = np.maximum(left - pattern.counts, 0)
                master.fix(pattern)
                free.discard(pattern.board)
                settled += 1
        if free and settled and not _priced(rack, master, sorted(free), _prices(master, solved[1]), left):
            return None
    return choice


def _prices(master: Master, before: Floats) -> Floats:
    solved = master.solve()
    return solved[1] if solved else before


def _priced(rack: Rack, master: Master, boards: list[int], prices: Floats, left: np.ndarray) -> bool:
    """Add the best pattern of each of these boards at these prices; False if the clock is over."""
    rack.pricer.set_worths(np.where(left > 0, rack.frame.worths - prices, 0.0), np.maximum(left, 1))
    for board in boards:
        if rack.clock.over:
            return False
        pattern, _, _ = rack.search(board, left)
        if pattern.counts.any():
            master.add(pattern)
    rack.clock.count(2000 + 20 * len(master.columns))
    return True
