"""The best way to cut one board at given values of its parts, by an almost exact dynamic program, with a bound.

A board is a row of sections [x0, x1); a section is a pile of strips; a strip is a row of clear stretches, and what a
stretch of some length is worth stands in a table. All values are integers (scaled), so that sums and bounds are exact.

A bracket is a whole bundle of sections: x0 anywhere in [c0, c1], x1 anywhere in [b0, b1]. It is valued at its widest,
[c0, b1), and takes up its narrowest, c1 to b0, so the best row of brackets is never too bad. Brackets on the best
rows are split, again and again, until the best row consists of single sections, or is good enough.
"""

from __future__ import annotations

import numpy as np

from shopapi.craft.layout.compiled import compiled

LANES = 64  # sections valued at once; their working rows stay in the nearest cache
GROWTH = 2


@compiled
def build_tables(tables, lengths, rows, limits, worths, first_row, last_row, carry):
    """Fill `tables[row, length]`: the best sum of worths on a clear stretch of that length.

    Items are sorted by row; the rows first_row..last_row (of one class of parts) are filled in order, each starting
    from the one before when `carry` is set (narrower parts are trimmed out of a wider strip).
    """
    longest = tables.shape[1] - 1
    at = 0
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
                if (left + 1) * length > longest:
                    for x in range(length, longest + 1):
                        line[x] = max(line[x], line[x - length] + worth)
                else:
                    lot = 1
                    while left > 0:
                        many = min(lot, left)
                        step = many * length
                        gain = many * worth
                        for x in range(longest, step - 1, -1):
                            line[x] = max(line[x], line[x - step] + gain)
                        left -= many
                        lot *= 2
            at += 1


@compiled
def side_values(x, tables, seg_ptr, seg_from, seg_to, seg_row, left, right, until, row_at):
    """For every kind of strip: worth of [0, x) and of [x, end) less all of it; where x's stretch ends, and its row."""
    for kind in range(seg_ptr.size - 1):
        before = 0
        until[kind] = -1
        row_at[kind] = 0
        s = seg_ptr[kind]
        last = seg_ptr[kind + 1]
        while s < last and seg_to[s] <= x:
            before += tables[seg_row[s], seg_to[s] - seg_from[s]]
            s += 1
        left[kind] = before
        right[kind] = -before
        if s < last and seg_from[s] <= x:
            line = tables[seg_row[s]]
            left[kind] = before + line[x - seg_from[s]]
            right[kind] = line[seg_to[s] - x] - before - line[seg_to[s] - seg_from[s]]
            until[kind] = seg_to[s]
            row_at[kind] = seg_row[s]


@compiled
def value_lanes(
    starts, ends, slots, count, tables, lefts, rights, untils, rows_at, strips, ends_ptr, worth, used, best, out
):
    """Worths of the sections [starts[m], ends[m]) for m < count (at most LANES), into out."""
    kinds = worth.shape[0]
    used[:] = False
    for m in range(count):
        x1 = ends[m]
        length = x1 - starts[m]
        low = slots[starts[m]]
        left = lefts[slots[x1]]
        right = rights[low]
        until = untils[low]
        row_at = rows_at[low]
        for kind in range(kinds):
            got = tables[row_at[kind], length] if x1 <= until[kind] else left[kind] + right[kind]
            worth[kind, m] = got
            if got > 0:
                used[kind] = True
    best[0, :count] = 0
    for point in range(1, ends_ptr.size - 1):
        here = best[point]
        before = best[point - 1]
        for m in range(count):
            here[m] = before[m]
        for s in range(ends_ptr[point], ends_ptr[point + 1]):
            if used[strips[s, 2]]:
                below = best[strips[s, 0]]
                gain = worth[strips[s, 2]]
                for m in range(count):
                    here[m] = max(here[m], below[m] + gain[m])
    top = best[ends_ptr.size - 2]
    for m in range(count):
        out[m] = top[m]


@compiled
def best_rows(length, c1, b0, value, loose, count, first, after, forward, backward, single, reached, came):
    """Best sums up to and from every position, and up to it with single sections only; gives both totals.

    loose: how wide a bracket's ends are, 0 for a single section; of equal rows the less loose is taken.
    """
    first[:] = -1
    for a in range(count):
        after[a] = first[c1[a]]
        first[c1[a]] = a
    forward[:] = 0
    single[:] = 0
    came[:] = -1
    reached[:] = -1
    for x in range(length + 1):
        if x > 0:
            if forward[x - 1] > forward[x]:
                forward[x] = forward[x - 1]
                reached[x] = -1
            if single[x - 1] >= single[x]:
                single[x] = single[x - 1]
                came[x] = -1
        a = first[x]
        while a >= 0:
            got = forward[x] + value[a]
            to = b0[a]
            if got > forward[to] or (got == forward[to] and reached[to] >= 0 and loose[a] < loose[reached[to]]):
                forward[to] = got
                reached[to] = a
            if loose[a] == 0 and single[x] + value[a] > single[b0[a]]:
                single[b0[a]] = single[x] + value[a]
                came[b0[a]] = a
            a = after[a]
    backward[length] = 0
    for x in range(length, -1, -1):
        most = backward[x + 1] if x < length else 0
        a = first[x]
        while a >= 0:
            most = max(most, backward[b0[a]] + value[a])
            a = after[a]
        backward[x] = most
    return forward[length], single[length]


@compiled
def _longer(line, room):
    more = np.empty(room, line.dtype)
    more[: line.size] = line
    return more


@compiled
def _more_rows(rows, room):
    more = np.empty((room, rows.shape[1]), rows.dtype)
    more[: rows.shape[0]] = rows
    return more


@compiled
def search_board(
    length, shortest, lows, highs, split, share_pct, width, gap_ppm, most,
    tables, seg_ptr, seg_from, seg_to, seg_row, strips, ends_ptr,
):  # fmt: skip
    """Best row of sections of a board: (value, upper bound, cuts as (x0, x1) pairs, sections valued).

    Sections begin and end in the ranges [lows, highs], the first widths of brackets; `split` is into how many a
    bracket's ends are split; a turn splits brackets within share_pct of the open gap, at most `width` of them; ends
    when the gap is below gap_ppm millionths of the bound or `most` sections were valued.
    """
    kinds = seg_ptr.size - 1
    slots = np.full(length + 1, -1, np.int32)
    room = 256
    lefts = np.empty((room, kinds), np.int32)
    rights = np.empty((room, kinds), np.int32)
    untils = np.empty((room, kinds), np.int32)
    rows_at = np.empty((room, kinds), np.int32)
    filled = 0
    worth = np.empty((kinds, LANES), np.int32)
    used = np.empty(kinds, np.bool_)
    best = np.empty((ends_ptr.size - 1, LANES), np.int32)
    starts = np.empty(LANES, np.int64)
    ends = np.empty(LANES, np.int64)
    out = np.empty(LANES, np.int32)

    nodes = lows.size
    arcs = nodes * nodes // 2 + 4096
    c0 = np.empty(arcs, np.int32)
    c1 = np.empty(arcs, np.int32)
    b0 = np.empty(arcs, np.int32)
    b1 = np.empty(arcs, np.int32)
    value = np.empty(arcs, np.int32)
    loose = np.empty(arcs, np.int32)
    count = 0
    for i in range(nodes):
        for j in range(i + 1, nodes):
            if highs[j] - lows[i] >= shortest:
                c0[count] = lows[i]
                c1[count] = highs[i]
                b0[count] = lows[j]
                b1[count] = highs[j]
                loose[count] = highs[i] - lows[i] + highs[j] - lows[j]
                count += 1
    fresh = 0  # brackets from here on have no value yet
    valued = 0
    first = np.empty(length + 1, np.int32)
    after = np.empty(arcs, np.int32)
    forward = np.empty(length + 1, np.int32)
    backward = np.empty(length + 1, np.int32)
    single = np.empty(length + 1, np.int32)
    reached = np.empty(length + 1, np.int32)
    came = np.empty(length + 1, np.int32)
    on_row = np.empty(arcs, np.bool_)
    potential = np.empty(arcs, np.int32)
    picked = np.empty((2 * width + length // shortest + 1, 4), np.int32)
    cuts = np.empty((length + 1, 2), np.int32)
    cut_count = 0
    top, low = np.int32(0), np.int32(0)
    while True:
        for a in range(fresh, count):
            for x in (c0[a], b1[a]):
                if slots[x] < 0:
                    if filled == room:
                        room *= GROWTH
                        lefts = _more_rows(lefts, room)
                        rights = _more_rows(rights, room)
                        untils = _more_rows(untils, room)
                        rows_at = _more_rows(rows_at, room)
                    side_values(
                        x, tables, seg_ptr, seg_from, seg_to, seg_row,
                        lefts[filled], rights[filled], untils[filled], rows_at[filled],
                    )  # fmt: skip
                    slots[x] = filled
                    filled += 1
        a = fresh
        while a < count:
            lanes = min(LANES, count - a)
            for m in range(lanes):
                starts[m] = c0[a + m]
                ends[m] = b1[a + m]
            value_lanes(
                starts, ends, slots, lanes, tables, lefts, rights, untils, rows_at, strips, ends_ptr,
                worth, used, best, out,
            )  # fmt: skip
            for m in range(lanes):
                value[a + m] = out[m]
            a += lanes
        valued += count - fresh
        top, found = best_rows(
            length, c1, b0, value, loose, count, first, after, forward, backward, single, reached, came
        )
        if found > low:
            low = found
            cut_count = 0
            x = length
            while x > 0:
                a = came[x]
                if a < 0:
                    x -= 1
                    continue
                cuts[cut_count, 0] = c0[a]
                cuts[cut_count, 1] = b0[a]
                cut_count += 1
                x = c0[a]
        if top <= low or np.int64(top - low) * 1000000 <= np.int64(top) * gap_ppm:
            break
        if (valued >= most and low > 0) or valued >= 4 * most:
            break
        # what cannot beat the best row of single sections is dropped; the most promising brackets are split
        floor = top - max(np.int64(1), np.int64(top - low) * share_pct // 100)
        open_count = 0
        for a in range(count):
            potential[a] = forward[c1[a]] + value[a] + backward[b0[a]]
            if loose[a] and potential[a] > floor:
                open_count += 1
        if open_count > width:
            rest = np.empty(open_count, np.int32)
            n = 0
            for a in range(count):
                if loose[a] and potential[a] > floor:
                    rest[n] = potential[a]
                    n += 1
            floor = np.int64(np.partition(rest, open_count - width)[open_count - width])
        # where many brackets tie, only those on one best row are split: it soon consists of single sections
        on_row[:count] = False
        x = length
        while x > 0:
            a = reached[x]
            if a < 0:
                x -= 1
            else:
                on_row[a] = True
                x = c1[a]

        kept = 0
        many = 0
        for a in range(count):
            if potential[a] <= low:
                continue
            if loose[a] and (on_row[a] or potential[a] > floor) and many < picked.shape[0]:
                picked[many, 0] = c0[a]
                picked[many, 1] = c1[a]
                picked[many, 2] = b0[a]
                picked[many, 3] = b1[a]
                many += 1
            else:
                c0[kept] = c0[a]
                c1[kept] = c1[a]
                b0[kept] = b0[a]
                b1[kept] = b1[a]
                value[kept] = value[a]
                loose[kept] = loose[a]
                kept += 1
        if many == 0:
            break
        if kept + many * split * split > arcs:
            arcs = GROWTH * (kept + many * split * split)
            c0, c1 = _longer(c0, arcs), _longer(c1, arcs)
            b0, b1 = _longer(b0, arcs), _longer(b1, arcs)
            value, loose = _longer(value, arcs), _longer(loose, arcs)
            after, potential = np.empty(arcs, np.int32), np.empty(arcs, np.int32)
            on_row = np.empty(arcs, np.bool_)
        count = kept
        for n in range(many):
            step_c = (picked[n, 1] - picked[n, 0] + split) // split
            step_b = (picked[n, 3] - picked[n, 2] + split) // split
            for c in range(picked[n, 0], picked[n, 1] + 1, step_c):
                for b in range(picked[n, 2], picked[n, 3] + 1, step_b):
                    high = min(picked[n, 3], b + step_b - 1)
                    if high - c >= shortest:
                        c0[count] = c
                        c1[count] = min(picked[n, 1], c + step_c - 1)
                        b0[count] = b
                        b1[count] = high
                        loose[count] = c1[count] - c + high - b
                        count += 1
        fresh = kept
    return low, max(top, low), cuts[:cut_count][::-1].copy(), valued


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
