"""The best way to cut one board at given values of its parts, by an almost exact dynamic program, with a bound.

A board is a row of sections [x0, x1); a section is a pile of strips; a strip is a row of clear stretches, and what a
stretch of some length is worth stands in a table. All values are integers (scaled), so that sums and bounds are exact.
Cut positions are first taken in coarse cells, each section valued too well, never too badly; cells whose best path
cannot matter are dropped and the others split, until cells are one millimetre wide.
"""

from __future__ import annotations

import numpy as np

from shopapi.craft.layout.compiled import compiled

LANE = 64  # sections valued at once; keeps the working rows in the first-level cache


@compiled
def build_tables(tables, lengths, rows, limits, worths, first_row, last_row, carry):
    """Fill `tables[row, length]`: the best sum of worths on a clear stretch of that length.

    Items are sorted by row; the rows first_row..last_row (of one class of parts) are filled in order, each starting
    from the one before when `carry` is set (narrower parts are trimmed out of a wider strip).
    """
    longest = tables.shape[1] - 1
    at = 0
    while at < lengths.size and rows[at] < first_row:
        at += 1
    for row in range(first_row, last_row + 1):
        if carry and row > first_row:
            tables[row, :] = tables[row - 1, :]
        else:
            tables[row, :] = 0
        line = tables[row]
        while at < lengths.size and rows[at] == row:
            length = lengths[at]
            worth = worths[at]
            if worth > 0 and length <= longest:
                left = min(limits[at], longest // length)
                if left * length > longest - length:
                    for x in range(length, longest + 1):
                        got = line[x - length] + worth
                        if got > line[x]:
                            line[x] = got
                else:
                    lot = 1
                    while left > 0:
                        many = min(lot, left)
                        step = many * length
                        gain = many * worth
                        for x in range(longest, step - 1, -1):
                            got = line[x - step] + gain
                            if got > line[x]:
                                line[x] = got
                        left -= many
                        lot *= 2
            at += 1


@compiled
def side_values(tables, seg_ptr, seg_from, seg_to, seg_row, left, right, whole, until, row_at):
    """For every kind of strip: worth of [0, x), of [x, end), of all of it; where x's stretch ends and its row."""
    length = left.shape[1] - 1
    for kind in range(seg_ptr.size - 1):
        total = 0
        x = 0
        for s in range(seg_ptr[kind], seg_ptr[kind + 1]):
            a, b, row = seg_from[s], seg_to[s], seg_row[s]
            while x <= a:
                left[kind, x] = total
                x += 1
            line = tables[row]
            while x <= b:
                left[kind, x] = total + line[x - a]
                x += 1
            total += line[b - a]
        while x <= length:
            left[kind, x] = total
            x += 1
        whole[kind] = total
        after = 0
        x = length
        for s in range(seg_ptr[kind + 1] - 1, seg_ptr[kind] - 1, -1):
            a, b, row = seg_from[s], seg_to[s], seg_row[s]
            while x >= b:
                right[kind, x] = after
                until[kind, x] = -1
                x -= 1
            line = tables[row]
            while x >= a:
                right[kind, x] = after + line[b - x]
                until[kind, x] = b
                row_at[kind, x] = row
                x -= 1
            after += line[b - a]
        while x >= 0:
            right[kind, x] = after
            until[kind, x] = -1
            x -= 1


@compiled
def value_row(x0, ends, count, tables, left, right, whole, until, row_at, strips, ends_ptr, worth, best, out):
    """Worth of the sections from x0 to each of ends[:count], all with the same x0, into out[:count]."""
    kinds = whole.size
    length = left.shape[1] - 1
    for start in range(0, count, LANE):
        size = min(LANE, count - start)
        for kind in range(kinds):
            end = until[kind, x0]
            base = right[kind, x0] - whole[kind]
            inside = 0
            if end >= 0:
                line = tables[row_at[kind, x0]]
                while inside < size and ends[start + inside] <= end:
                    worth[kind, inside] = line[ends[start + inside] - x0]
                    inside += 1
            for m in range(inside, size):
                worth[kind, m] = left[kind, min(ends[start + m], length)] + base
        best[0, :size] = 0
        for point in range(1, ends_ptr.size - 1):
            here = best[point]
            before = best[point - 1]
            for m in range(size):
                here[m] = before[m]
            for s in range(ends_ptr[point], ends_ptr[point + 1]):
                below = best[strips[s, 0]]
                gain = worth[strips[s, 2]]
                for m in range(size):
                    got = below[m] + gain[m]
                    here[m] = max(here[m], got)
        top = best[ends_ptr.size - 2]
        for m in range(size):
            out[start + m] = top[m]


@compiled
def longest_paths(nodes, ptr, to, value, forward, backward, arrive):
    """Best sums from the start to every node and from every node to the end, and the arc by which each is reached."""
    for n in range(nodes):
        forward[n] = 0
        arrive[n] = -1
    for n in range(nodes):
        if n > 0 and forward[n - 1] >= forward[n]:
            forward[n] = forward[n - 1]
            arrive[n] = -1
        here = forward[n]
        for a in range(ptr[n], ptr[n + 1]):
            got = here + value[a]
            if got > forward[to[a]]:
                forward[to[a]] = got
                arrive[to[a]] = a
    backward[nodes - 1] = 0
    for n in range(nodes - 1, -1, -1):
        most = backward[n + 1] if n + 1 < nodes else 0
        for a in range(ptr[n], ptr[n + 1]):
            got = backward[to[a]] + value[a]
            if got > most:
                most = got
        backward[n] = most


@compiled
def search_board(
    length, shortest, cell, factor, eps_ppm, cap, tables, seg_ptr, seg_from, seg_to, seg_row, strips, ends_ptr
):
    """Best row of sections of a board.

    Gives (value, upper bound, cuts as (x0, x1) pairs, sections valued). `cell` is the first cell width, `factor` the
    split per level, arcs within eps_ppm millionths of the best are kept, at most `cap` of them.
    """
    kinds = seg_ptr.size - 1
    left = np.empty((kinds, length + 1), np.int32)
    right = np.empty((kinds, length + 1), np.int32)
    until = np.empty((kinds, length + 1), np.int32)
    row_at = np.zeros((kinds, length + 1), np.int32)
    whole = np.empty(kinds, np.int32)
    side_values(tables, seg_ptr, seg_from, seg_to, seg_row, left, right, whole, until, row_at)
    worth = np.empty((kinds, LANE), np.int32)
    best = np.empty((ends_ptr.size - 1, LANE), np.int32)

    nodes = length // cell + 1
    ptr = np.empty(nodes + 1, np.int64)
    ptr[0] = 0
    for n in range(nodes):
        # the nearest node whose highest position is a part's length away from this cell's lowest
        first = max(n + 1, (n * cell + shortest - (cell - 1) + cell - 1) // cell)
        ptr[n + 1] = ptr[n] + max(0, nodes - first)
    to = np.empty(ptr[nodes], np.int32)
    for n in range(nodes):
        many = ptr[n + 1] - ptr[n]
        for a in range(many):
            to[ptr[n] + a] = nodes - many + a
    worked = 0
    dropped = 0
    while True:
        arcs = ptr[nodes]
        worked += arcs
        value = np.empty(arcs, np.int32)
        ends = np.empty(nodes, np.int32)
        for n in range(nodes):
            count = ptr[n + 1] - ptr[n]
            if count == 0:
                continue
            for a in range(count):
                ends[a] = to[ptr[n] + a] * cell + cell - 1
            value_row(
                n * cell,
                ends,
                count,
                tables,
                left,
                right,
                whole,
                until,
                row_at,
                strips,
                ends_ptr,
                worth,
                best,
                value[ptr[n] : ptr[n + 1]],
            )
        forward = np.empty(nodes, np.int32)
        backward = np.empty(nodes, np.int32)
        arrive = np.empty(nodes, np.int64)
        longest_paths(nodes, ptr, to, value, forward, backward, arrive)
        top = forward[nodes - 1]
        if cell == 1 or top == 0:
            break
        keep = np.zeros(arcs, np.bool_)
        potential = np.empty(arcs, np.int32)
        for n in range(nodes):
            for a in range(ptr[n], ptr[n + 1]):
                potential[a] = forward[n] + value[a] + backward[to[a]]
        floor = top - np.int64(top) * eps_ppm // 1000000
        above = 0
        for a in range(arcs):
            if potential[a] > floor:
                above += 1
        if above > cap:
            rest = np.empty(above, np.int32)
            m = 0
            for a in range(arcs):
                if potential[a] > floor:
                    rest[m] = potential[a]
                    m += 1
            floor = max(floor, np.int64(np.partition(rest, above - cap)[above - cap]))
        kept_arcs = 0
        for a in range(arcs):
            if potential[a] > floor:
                keep[a] = True
                kept_arcs += 1
        for a in range(arcs):
            if not keep[a] and value[a] > 0:
                # ties fill up what the cap allows
                if potential[a] == floor and kept_arcs < cap:
                    keep[a] = True
                    kept_arcs += 1
                else:
                    dropped = max(dropped, floor)
        n = nodes - 1
        while n > 0:
            a = arrive[n]
            if a < 0:
                n -= 1
                continue
            keep[a] = True
            n = np.searchsorted(ptr, a, side="right") - 1
        finer = max(1, cell // factor)
        split = cell // finer
        fine_nodes = length // finer + 1
        fine_ptr = np.empty(fine_nodes + 1, np.int64)
        fine_ptr[0] = 0
        kept = np.zeros(nodes, np.int64)
        for n in range(nodes):
            for a in range(ptr[n], ptr[n + 1]):
                if keep[a]:
                    # the last coarse cell may reach past the end of the board
                    kept[n] += min(split, fine_nodes - to[a] * split)
        for n in range(fine_nodes):
            fine_ptr[n + 1] = fine_ptr[n] + kept[n // split]
        fine_to = np.empty(fine_ptr[fine_nodes], np.int32)
        for n in range(fine_nodes):
            at = fine_ptr[n]
            coarse = n // split
            for a in range(ptr[coarse], ptr[coarse + 1]):
                if keep[a]:
                    for f in range(to[a] * split, min(fine_nodes, (to[a] + 1) * split)):
                        fine_to[at] = f
                        at += 1
        nodes, cell, ptr, to = fine_nodes, finer, fine_ptr, fine_to
    cuts = np.empty((nodes, 2), np.int32)
    count = 0
    n = nodes - 1
    while n > 0 and top > 0 and cell == 1:
        a = arrive[n]
        if a < 0:
            n -= 1
            continue
        start = np.searchsorted(ptr, a, side="right") - 1
        cuts[count, 0] = start
        cuts[count, 1] = n
        count += 1
        n = start
    return top, max(top, dropped), cuts[:count][::-1].copy(), worked


@compiled
def trace_section(x0, x1, tables, seg_ptr, seg_from, seg_to, seg_row, strips, ends_ptr):
    """The strips (indices, bottom up) of the best pile on [x0, x1)."""
    kinds = seg_ptr.size - 1
    worth = np.zeros(kinds, np.int32)
    for kind in range(kinds):
        for s in range(seg_ptr[kind], seg_ptr[kind + 1]):
            a = max(x0, seg_from[s])
            b = min(x1, seg_to[s])
            if a < b:
                worth[kind] += tables[seg_row[s], b - a]
    points = ends_ptr.size - 1
    best = np.zeros(points, np.int32)
    came = np.full(points, -1, np.int32)
    for point in range(1, points):
        best[point] = best[point - 1]
        for s in range(ends_ptr[point], ends_ptr[point + 1]):
            got = best[strips[s, 0]] + worth[strips[s, 2]]
            if got > best[point]:
                best[point] = got
                came[point] = s
    picked = np.empty(points, np.int32)
    count = 0
    point = points - 1
    while point > 0:
        s = came[point]
        if s < 0:
            point -= 1
        else:
            picked[count] = s
            count += 1
            point = strips[s, 0]
    return picked[:count][::-1].copy()
