"""One pattern per board out of a pool: iterated local search.

Pieces beyond what is wanted are simply dropped: any choice is a layout, worth as much as the wanted pieces in it.
"""

from __future__ import annotations

import numpy as np

from shopapi.craft.layout.compiled import compiled


@compiled
def _next(state):
    x = state[0]
    x ^= x >> np.uint64(12)
    x ^= x << np.uint64(25)
    x ^= x >> np.uint64(27)
    state[0] = x
    return np.float64((x * np.uint64(2685821657736338717)) >> np.uint64(11)) / 9007199254740992.0


@compiled
def _gain(p, ptr, parts, counts, left, worths):
    gain = 0.0
    for c in range(ptr[p], ptr[p + 1]):
        have = left[parts[c]]
        if have > 0:
            gain += worths[parts[c]] * min(have, counts[c])
    return gain


@compiled
def _put(p, sign, ptr, parts, counts, left):
    if p >= 0:
        for c in range(ptr[p], ptr[p + 1]):
            left[parts[c]] += sign * counts[c]


@compiled
def _best_for(board, first, index, ptr, parts, counts, left, worths):
    most = 0.0
    pick = -1
    for n in range(first[board], first[board + 1]):
        p = index[n]
        gain = _gain(p, ptr, parts, counts, left, worths)
        if gain > most:
            most = gain
            pick = p
    return pick, most


@compiled
def improve_choice(chosen, steps, heat, seed, first, index, ptr, parts, counts, quantities, worths, prices):
    """Improve `chosen` (a pattern per board, -1 for none) in place; gives its worth.

    Patterns index[first[b]:first[b + 1]] may be taken for board b; pattern p holds counts[ptr[p]:ptr[p + 1]] of the
    same places of parts. heat: how much worse, as a share of the worth, may be accepted at the start.
    """
    boards = first.size - 1
    state = np.array([np.uint64(seed) * np.uint64(2862933555777941757) + np.uint64(3037000493)], np.uint64)
    for _ in range(4):
        _next(state)
    now = chosen.copy()
    left = quantities.copy()
    for b in range(boards):
        _put(now[b], -1, ptr, parts, counts, left)
    value = 0.0
    for i in range(worths.size):
        value += worths[i] * min(quantities[i], quantities[i] - left[i])
    most = value
    noisy = np.empty(worths.size)
    trial = now.copy()
    trial_left = left.copy()
    busy = np.empty(boards, np.int64)
    many = 0
    for b in range(boards):
        if first[b + 1] > first[b]:
            busy[many] = b
            many += 1
    if many == 0:
        return most
    for step in range(steps):
        trial[:] = now
        trial_left[:] = left
        clear = min(many, 1 + int(_next(state) * 7)) if step > 0 else 0
        lam = _next(state)
        for i in range(worths.size):
            noisy[i] = max(0.0, worths[i] - lam * prices[i]) * (0.97 + 0.06 * _next(state)) + 1e-9
        for c in range(clear):
            swap = c + int(_next(state) * (many - c))
            busy[c], busy[swap] = busy[swap], busy[c]
            _put(trial[busy[c]], 1, ptr, parts, counts, trial_left)
            trial[busy[c]] = -1
        for c in range(clear):
            b = busy[c]
            trial[b], _ = _best_for(b, first, index, ptr, parts, counts, trial_left, noisy)
            _put(trial[b], -1, ptr, parts, counts, trial_left)
        quiet = 0
        at = int(_next(state) * many)
        while quiet < many:
            b = busy[at]
            at = (at + 1) % many
            quiet += 1
            old = trial[b]
            _put(old, 1, ptr, parts, counts, trial_left)
            had = _gain(old, ptr, parts, counts, trial_left, worths) if old >= 0 else 0.0
            pick, got = _best_for(b, first, index, ptr, parts, counts, trial_left, worths)
            if got > had + 1e-6:
                trial[b] = pick
                quiet = 1
            _put(trial[b], -1, ptr, parts, counts, trial_left)
        got = 0.0
        for i in range(worths.size):
            got += worths[i] * min(quantities[i], quantities[i] - trial_left[i])
        if got >= value - heat * most * (1.0 - step / steps) * _next(state):
            value = got
            now[:] = trial
            left[:] = trial_left
            if value > most + 1e-6:
                most = value
                chosen[:] = now
    return most
