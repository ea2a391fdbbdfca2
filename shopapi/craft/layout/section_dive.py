"""Diving by sections: keep the best section of a board's best row, take its parts off the demand, search the rest.

A board search heeds quantities inside one stretch only. Where parts are scarce its row takes them too often; this way
every section is chosen for what is then really left.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from shopapi.craft.layout.pricing import Pattern, Window
from shopapi.craft.layout.rack import Floats, Rack


def dive_by_sections(rack: Rack, board: int, worths: Floats, limits: NDArray[np.int64]) -> Pattern | None:
    """A pattern of a board with no more than `limits` of each part, good where parts are scarce."""
    pricer, part_of = rack.pricer, rack.pricer.part_of
    left = limits.copy()
    kept = []
    windows: list[Window] = [(0, rack.frame.boards[board].length)]
    while windows and not rack.clock.over:
        pricer.set_worths(np.where(left > 0, worths, 0.0), left)
        best: tuple[float, Window, np.ndarray] | None = None
        open_windows = []
        for window in windows:
            value, _, cuts = rack.counted_search(board, window)
            if value <= 0:
                continue
            open_windows.append(window)
            pieces = pricer.fill(board, cuts, left, window=window)
            if pieces.size == 0:
                continue
            gain = worths[part_of[pieces[:, 0]]]
            got = float(gain.sum())
            if len(windows) == 1 and got > value * 0.9999:
                kept.append(pieces)
                open_windows = []
                best = None
                break
            for x0, x1 in {(int(p[3]), int(p[4])) for p in pieces}:
                inside = (pieces[:, 3] == x0) & (pieces[:, 4] == x1)
                worth = float(gain[inside].sum()) / (x1 - x0)
                if best is None or worth > best[0]:
                    best = worth, window, pieces[inside]
        windows = open_windows
        if best is None:
            break
        _, window, pieces = best
        kept.append(pieces)
        left = left - pricer.counts(pieces)
        x0, x1 = int(pieces[0, 3]), int(pieces[0, 4])
        windows.remove(window)
        windows += [w for w in ((window[0], x0), (x1, window[1])) if w[1] - w[0] >= rack.frame.shortest]
    if not kept:
        return None
    pieces = np.concatenate(kept)
    pattern = Pattern(board, pieces, pricer.counts(pieces))
    rack.pool.add(pattern)
    return pattern
