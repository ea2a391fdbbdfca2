"""What really lies in the stretches that a board search chose, with no part taken more often than it is wanted."""

from __future__ import annotations

import numpy as np

from shopapi.craft.layout.board_search import trace_section
from shopapi.craft.layout.compiled import compiled

# columns of a piece: item, x, y, section from, section to, strip y, strip width row
PIECE_COLUMNS = 7


@compiled
def fill_stretch(room, row, strictness, exact, items, worths, left, taken, took_item, took_many):
    """The most valuable pieces for one stretch out of those left; their items and counts go into the took arrays.

    items: rows of (length, width row, strictness, part), sorted by width row. Gives the number of entries.
    """
    best = np.zeros(room + 1, np.int64)
    lots = 0
    for i in range(items.shape[0]):
        if items[i, 1] > row:
            break
        length = items[i, 0]
        if (exact and items[i, 1] != row) or items[i, 2] < strictness or length > room or worths[i] <= 0:
            continue
        many = min(left[items[i, 3]], room // length)
        lot = 1
        while many > 0 and lots < taken.shape[0]:
            count = min(lot, many)
            step = count * length
            gain = count * worths[i]
            line = taken[lots]
            line[: room + 1] = False
            for x in range(room, step - 1, -1):
                got = best[x - step] + gain
                if got > best[x]:
                    best[x] = got
                    line[x] = True
            took_item[lots] = i
            took_many[lots] = count
            lots += 1
            many -= count
            lot *= 2
    x = room
    entries = 0
    for lot_number in range(lots - 1, -1, -1):
        if not taken[lot_number, x]:
            continue
        i = took_item[lot_number]
        count = took_many[lot_number]
        x -= count * items[i, 0]
        # two orientations of one part share what is left of it
        count = min(count, left[items[i, 3]])
        if count > 0:
            left[items[i, 3]] -= count
            # entries are written from the back of the arrays, which the walk has already left
            took_item[taken.shape[0] + entries] = i
            took_many[taken.shape[0] + entries] = count
            entries += 1
    return entries


@compiled
def fill_board(
    cuts, exact, classes, shared, tables, seg_ptr, seg_from, seg_to, seg_row, strips, ends_ptr,
    items, worths, left, pieces,
):  # fmt: skip
    """Pieces of the board that is cut at `cuts`, best stretch first; `left` is reduced by what is used.

    classes: number of table rows per strictness; shared: whether all stretches draw on the same `left`, else each
    may use all of it, as the board search supposes. Gives the number of pieces written.
    """
    most = 4096
    spots = np.empty((most, 7), np.int32)
    gains = np.empty(most, np.int32)
    many = 0
    longest = 0
    for c in range(cuts.shape[0]):
        x0, x1 = cuts[c, 0], cuts[c, 1]
        picked = trace_section(x0, x1, tables, seg_ptr, seg_from, seg_to, seg_row, strips, ends_ptr)
        for s in picked:
            kind = strips[s, 2]
            for seg in range(seg_ptr[kind], seg_ptr[kind + 1]):
                a = max(x0, seg_from[seg])
                b = min(x1, seg_to[seg])
                if a < b and many < most:
                    spots[many, 0] = a
                    spots[many, 1] = b
                    spots[many, 2] = seg_row[seg]
                    spots[many, 3] = strips[s, 3]
                    spots[many, 4] = x0
                    spots[many, 5] = x1
                    spots[many, 6] = strips[s, 4]
                    gains[many] = -tables[seg_row[seg], b - a]
                    longest = max(longest, b - a)
                    many += 1
    order = np.argsort(gains[:many])
    lots = 4 * items.shape[0] + 16
    taken = np.empty((lots, longest + 1), np.bool_)
    took_item = np.empty(2 * lots, np.int32)
    took_many = np.empty(2 * lots, np.int64)
    count = 0
    whole = left.copy()
    for n in order:
        if not shared:
            left[:] = whole
        a, b, row = spots[n, 0], spots[n, 1], spots[n, 2]
        entries = fill_stretch(
            b - a, row % classes, row // classes, exact, items, worths, left, taken, took_item, took_many
        )
        x = a
        for e in range(entries):
            i = took_item[lots + e]
            for _ in range(took_many[lots + e]):
                if count < pieces.shape[0]:
                    pieces[count, 0] = i
                    pieces[count, 1] = x
                    pieces[count, 2] = spots[n, 3]
                    pieces[count, 3] = spots[n, 4]
                    pieces[count, 4] = spots[n, 5]
                    pieces[count, 5] = spots[n, 3]
                    pieces[count, 6] = spots[n, 6]
                    count += 1
                x += items[i, 0]
    return count
