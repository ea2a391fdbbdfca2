"""Compiled programs over the rectangles of a sheet that is cut from edge to edge as often as one likes."""

from __future__ import annotations

import numpy as np

from shopapi.craft.layout.compiled import compiled


@compiled
def clear_table(xs, ys, lengths, widths, worths):
    """table[i, j]: best worth of a clear rectangle xs[i] by ys[j]; both rise from 0 and hold every useful size."""
    nx, ny = xs.size, ys.size
    table = np.zeros((nx, ny))
    for i in range(nx):
        for j in range(ny):
            best = 0.0
            if i > 0:
                best = table[i - 1, j]
            if j > 0:
                best = max(best, table[i, j - 1])
            for n in range(lengths.size):
                if lengths[n] <= xs[i] and widths[n] <= ys[j] and worths[n] > best:
                    best = worths[n]
            rest = i
            for a in range(1, i):
                if 2 * xs[a] > xs[i]:
                    break
                while xs[rest] > xs[i] - xs[a]:
                    rest -= 1
                best = max(best, table[a, j] + table[rest, j])
            rest = j
            for a in range(1, j):
                if 2 * ys[a] > ys[j]:
                    break
                while ys[rest] > ys[j] - ys[a]:
                    rest -= 1
                best = max(best, table[i, a] + table[i, rest])
            table[i, j] = best
    return table


@compiled
def flawed_table(pairs_x, pairs_y, nx, ny, xs, ys, lengths, widths, worths, clear):
    """table[px, py]: best worth of the rectangle between a pair of xs and a pair of ys.

    pairs_x[i, k], pairs_y[j, l]: number of the pair i < k, j < l; clear[n, i, j]: item n may lie with its corner there.
    """
    table = np.zeros((nx * (nx - 1) // 2, ny * (ny - 1) // 2))
    for span_x in range(1, nx):
        for i in range(nx - span_x):
            k = i + span_x
            line = table[pairs_x[i, k]]
            long = xs[k] - xs[i]
            for span_y in range(1, ny):
                for j in range(ny - span_y):
                    m = j + span_y
                    wide = ys[m] - ys[j]
                    best = 0.0
                    for n in range(lengths.size):
                        if lengths[n] <= long and widths[n] <= wide and worths[n] > best and clear[n, i, j]:
                            best = worths[n]
                    p = pairs_y[j, m]
                    for a in range(i + 1, k):
                        best = max(best, table[pairs_x[i, a], p] + table[pairs_x[a, k], p])
                    for a in range(j + 1, m):
                        best = max(best, line[pairs_y[j, a]] + line[pairs_y[a, m]])
                    line[p] = best
    return table


@compiled
def outside_table(length, width, x_of, y_of, table):
    """outside[l, w]: most that all of a clear sheet but its corner l by w can be worth."""
    outside = np.zeros((length + 1, width + 1))
    for x in range(length, -1, -1):
        for y in range(width, -1, -1):
            best = 0.0
            for d in range(1, length - x + 1):
                best = max(best, outside[x + d, y] + table[x_of[d], y_of[y]])
            for d in range(1, width - y + 1):
                best = max(best, outside[x, y + d] + table[x_of[x], y_of[d]])
            outside[x, y] = best
    return outside


@compiled
def _up(heap, at, hope):
    while at > 0 and hope[heap[(at - 1) // 2]] < hope[heap[at]]:
        above = (at - 1) // 2
        heap[at], heap[above] = heap[above], heap[at]
        at = above


@compiled
def _down(heap, size, hope):
    at = 0
    while 2 * at + 1 < size:
        below = 2 * at + 1
        if below + 1 < size and hope[heap[below + 1]] > hope[heap[below]]:
            below += 1
        if hope[heap[at]] >= hope[heap[below]]:
            break
        heap[at], heap[below] = heap[below], heap[at]
        at = below


@compiled
def build_up(length, width, lengths, widths, parts, quantities, worths, nets, cost, outside, value, room, most_tries):
    """Join rectangles, the most hopeful first, until none can come to more than `value`, the best known.

    worths, nets, cost: worth of a part, worth less price, and price of all that is wanted. Gives (proved, value,
    number of the best rectangle or -1, joined), joined rows being (first, second, along): two rectangles side by
    side along x (0) or y (1), or item and -1.
    """
    types = quantities.size
    sizes = np.empty((room, 2), np.int32)
    holds = np.zeros((room, types), np.int16)
    joined = np.empty((room, 3), np.int32)
    gain = np.empty(room)
    hope = np.empty(room)
    slots = 4 * room
    table = np.full(slots, -1, np.int32)
    heap = np.empty(room, np.int32)
    closed = np.empty(room, np.int32)
    count = waiting = done = tries = 0
    best = -1
    trial = np.empty(types, np.int16)
    for n in range(lengths.size):
        if lengths[n] > length or widths[n] > width or quantities[parts[n]] < 1 or count >= room:
            continue
        h = cost + nets[parts[n]] + outside[lengths[n], widths[n]]
        if worths[parts[n]] > value:
            value, best = worths[parts[n]], count
        elif h <= value + 0.5:
            continue
        sizes[count, 0], sizes[count, 1] = lengths[n], widths[n]
        holds[count, parts[n]] = 1
        joined[count, 0], joined[count, 1], joined[count, 2] = n, -1, 0
        gain[count], hope[count] = worths[parts[n]], h
        heap[waiting] = count
        _up(heap, waiting, hope)
        waiting += 1
        count += 1
    while waiting:
        a = heap[0]
        waiting -= 1
        heap[0] = heap[waiting]
        _down(heap, waiting, hope)
        if hope[a] <= value + 0.5:
            break
        closed[done] = a
        done += 1
        for c in range(done):
            b = closed[c]
            if hope[b] <= value + 0.5:
                continue
            tries += 1
            fits = True
            for t in range(types):
                trial[t] = holds[a, t] + holds[b, t]
                if trial[t] > quantities[t]:
                    fits = False
                    break
            if not fits:
                continue
            for along in range(2):
                if along == 0:
                    x, y = sizes[a, 0] + sizes[b, 0], max(sizes[a, 1], sizes[b, 1])
                else:
                    x, y = max(sizes[a, 0], sizes[b, 0]), sizes[a, 1] + sizes[b, 1]
                if x > length or y > width:
                    continue
                worth = gain[a] + gain[b]
                h = cost + outside[x, y]
                for t in range(types):
                    h += trial[t] * nets[t]
                if h <= value + 0.5 and worth <= value + 0.5:
                    continue
                # one with the same parts that is no larger is as good
                key = np.int64(7)
                for t in range(types):
                    key = (key * 1000003 + trial[t]) % 2147483647
                at = key % slots
                known = False
                while table[at] >= 0:
                    other = table[at]
                    if sizes[other, 0] <= x and sizes[other, 1] <= y:
                        same = True
                        for t in range(types):
                            if holds[other, t] != trial[t]:
                                same = False
                                break
                        if same:
                            known = True
                            break
                    at = (at + 1) % slots
                if known:
                    continue
                if count >= room:
                    return False, value, best, joined[:count]
                sizes[count, 0], sizes[count, 1] = x, y
                holds[count] = trial
                joined[count, 0], joined[count, 1], joined[count, 2] = a, b, along
                gain[count], hope[count] = worth, h
                table[at] = count
                if worth > value + 0.5:
                    value, best = worth, count
                heap[waiting] = count
                _up(heap, waiting, hope)
                waiting += 1
                count += 1
        if tries > most_tries:
            return False, value, best, joined[:count]
    return True, value, best, joined[:count]
