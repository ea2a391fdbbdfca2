"""Sheets cut from edge to edge as often as one likes: a program over rectangles, priced where parts are scarce."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from shopapi.craft.layout.clock import Clock
from shopapi.craft.layout.frame import Frame
from shopapi.craft.layout.sheets.guillotine import build_up, clear_table, flawed_table, outside_table
from shopapi.craft.layout.sheets.sections import Floats, bears, positions

MOST_CELLS = 5e7
MOST_STEPS = 2e10
MOST_OUTSIDE = 4e9
ROUNDS = 60
ROOM = 200_000
MOST_TRIES = 200_000_000
STEP_UNITS = 0.001


@dataclass(frozen=True)
class Block:
    """A rectangle of a board: a part in its lower left corner, or two blocks side by side along x (0) or y (1)."""

    x: int
    y: int
    length: int
    width: int
    item: int | None = None
    along: int = 0
    halves: tuple[Block, ...] = ()

    def items(self) -> list[int]:
        """The parts in it."""
        return [self.item] if self.item is not None else [i for half in self.halves for i in half.items()]


class Grid:
    """The useful positions of one board, its tables, and how to read a layout off them."""

    def __init__(self, frame: Frame, board: int) -> None:
        self.frame = frame
        self.grown = frame.boards[board]
        self.numbers = [
            n for n, i in enumerate(frame.items) if i.length <= self.grown.length and i.width <= self.grown.width
        ]
        self.lengths = np.array([frame.items[n].length for n in self.numbers], np.int64)
        self.widths = np.array([frame.items[n].width for n in self.numbers], np.int64)
        self.parts = np.array([frame.items[n].part for n in self.numbers], np.int64)
        flaws = self.grown.flaws
        self.clear = not len(flaws)
        ends = {0} | {int(x) for x in flaws[:, 1]}, {0} | {int(y) for y in flaws[:, 3]}
        xs, _ = positions(ends[0], sorted({int(v) for v in self.lengths}), self.grown.length, self.grown.length + 1)
        ys, _ = positions(ends[1], sorted({int(v) for v in self.widths}), self.grown.width, self.grown.width + 1)
        self.xs = np.array(sorted({*xs, self.grown.length}), np.int64)
        self.ys = np.array(sorted({*ys, self.grown.width}), np.int64)
        nx, ny = float(self.xs.size), float(self.ys.size)
        cells = nx * ny if self.clear else nx * nx * ny * ny / 4
        self.steps = cells * (nx + ny + len(self.numbers)) / 3
        self.small = cells <= MOST_CELLS and self.steps <= MOST_STEPS
        if self.small and not self.clear:
            self._place()

    def _place(self) -> None:
        nx, ny = self.xs.size, self.ys.size
        self.pairs_x, self.pairs_y = np.zeros((nx, nx), np.int64), np.zeros((ny, ny), np.int64)
        self.pairs_x[np.triu_indices(nx, 1)] = np.arange(nx * (nx - 1) // 2)
        self.pairs_y[np.triu_indices(ny, 1)] = np.arange(ny * (ny - 1) // 2)
        flaws = self.grown.flaws
        self.free = np.zeros((len(self.numbers), nx, ny), np.bool_)
        for n, number in enumerate(self.numbers):
            across = (flaws[None, :, 0] < self.xs[:, None] + self.lengths[n]) & (flaws[None, :, 1] > self.xs[:, None])
            upright = (flaws[None, :, 2] < self.ys[:, None] + self.widths[n]) & (flaws[None, :, 3] > self.ys[:, None])
            hit = across[:, None, :] & upright[None, :, :]
            what = np.bitwise_or.reduce(np.where(hit, flaws[None, None, :, 4], 0), axis=2)
            self.free[n] = np.vectorize(lambda w, number=number: bears(self.frame, number, int(w)))(what)

    def table(self, worths: Floats) -> Floats:
        """Best worth of every rectangle at these worths of the parts."""
        items = worths[self.parts]
        if self.clear:
            return clear_table(self.xs, self.ys, self.lengths, self.widths, items)
        return flawed_table(
            self.pairs_x, self.pairs_y, self.xs.size, self.ys.size, self.xs, self.ys,
            self.lengths, self.widths, items, self.free,
        )  # fmt: skip

    def best(self, table: Floats) -> float:
        """The worth of the whole board."""
        return float(table[-1, -1] if self.clear else table[self.pairs_x[0, -1], self.pairs_y[0, -1]])

    def read(self, table: Floats, worths: Floats) -> Block | None:
        """A layout of the whole board that the table promises."""
        return self._read(table, worths[self.parts], 0, self.xs.size - 1, 0, self.ys.size - 1)

    def _worth(self, table: Floats, i: int, k: int, j: int, m: int) -> float:
        if self.clear:
            a = int(np.searchsorted(self.xs, self.xs[k] - self.xs[i], "right")) - 1
            b = int(np.searchsorted(self.ys, self.ys[m] - self.ys[j], "right")) - 1
            return float(table[a, b])
        return float(table[self.pairs_x[i, k], self.pairs_y[j, m]]) if i < k and j < m else 0.0

    def _read(self, table: Floats, worths: Floats, i: int, k: int, j: int, m: int) -> Block | None:
        worth = self._worth(table, i, k, j, m)
        if worth <= 1e-9:
            return None
        x0, y0 = int(self.xs[i]), int(self.ys[j])
        long, wide = int(self.xs[k]) - x0, int(self.ys[m]) - y0
        fits = (self.lengths <= long) & (self.widths <= wide) & (worths >= worth - 1e-9)
        if not self.clear:
            fits &= self.free[:, i, j]
        if fits.any():
            return Block(x0, y0, long, wide, item=self.numbers[int(np.flatnonzero(fits)[0])])
        for along, cuts in ((0, range(i + 1, k)), (1, range(j + 1, m))):
            for a in cuts:
                sides = ((i, a, j, m), (a, k, j, m)) if along == 0 else ((i, k, j, a), (i, k, a, m))
                if sum(self._worth(table, *side) for side in sides) >= worth - 1e-9:
                    halves = tuple(h for side in sides if (h := self._read(table, worths, *side)) is not None)
                    return Block(x0, y0, long, wide, along=along, halves=halves)
        raise AssertionError("a rectangle is worth what none of its cuts gives")


@dataclass(frozen=True)
class BoardAnswer:
    """The best block found for one board, its worth, and what no layout of the board exceeds."""

    block: Block | None
    worth: float
    bound: float


def cut_sheet(frame: Frame, grid: Grid, left: NDArray[np.int64], clock: Clock) -> BoardAnswer:
    """One board with at most `left` of each part: prices first, then, on a clear board, rectangles joined."""
    worths = np.where(left > 0, frame.worths, 0.0)
    prices = np.zeros(len(worths))
    answer = BoardAnswer(None, 0.0, float((worths * left).sum()))
    cost_prices = prices
    pull = 1.0
    for _ in range(ROUNDS):
        net = np.maximum(worths - prices, 0.0)
        table = grid.table(net)
        clock.count(grid.steps * STEP_UNITS)
        bound = float((prices * left).sum()) + grid.best(table)
        if bound < answer.bound:
            answer = BoardAnswer(answer.block, answer.worth, bound)
            cost_prices = prices
        else:
            pull *= 0.9
        block = grid.read(table, net)
        counts = np.bincount([frame.items[i].part for i in block.items()] if block else [], minlength=len(worths))
        kept, worth = without_surplus(frame, block, left)
        if worth > answer.worth:
            answer = BoardAnswer(kept, worth, answer.bound)
        over = counts - left
        slope = np.where((prices <= 0) & (over < 0), 0, over)
        if answer.worth > answer.bound - 0.5 or not slope.any() or clock.over:
            break
        gap = max(bound - answer.worth, 0.005 * bound)
        prices = np.clip(prices + pull * gap * slope / float((slope * slope).sum()), 0.0, worths)
    outside_steps = grid.grown.length * grid.grown.width * (grid.grown.length + grid.grown.width) / 2.0
    if grid.clear and answer.worth < answer.bound - 0.5 and outside_steps < MOST_OUTSIDE and not clock.over:
        answer = _joined(frame, grid, left, cost_prices, answer)
        clock.count(outside_steps * STEP_UNITS)
    return answer


def _joined(frame: Frame, grid: Grid, left: NDArray[np.int64], prices: Floats, answer: BoardAnswer) -> BoardAnswer:
    worths = np.where(left > 0, frame.worths, 0.0)
    net = np.maximum(worths - prices, 0.0)
    length, width = grid.grown.length, grid.grown.width
    x_of = np.searchsorted(grid.xs, np.arange(length + 1), "right") - 1
    y_of = np.searchsorted(grid.ys, np.arange(width + 1), "right") - 1
    outside = outside_table(length, width, x_of, y_of, grid.table(net))
    proved, worth, number, joined = build_up(
        length, width, grid.lengths, grid.widths, grid.parts, left, worths, net,
        float((prices * left).sum()), outside, answer.worth, ROOM, MOST_TRIES,
    )  # fmt: skip
    block = answer.block if number < 0 else _block_of(frame, grid, joined, number, 0, 0)
    return BoardAnswer(block, worth, worth if proved else answer.bound)


def _block_of(frame: Frame, grid: Grid, joined: NDArray[np.int32], number: int, x: int, y: int) -> Block:
    first, second, along = (int(v) for v in joined[number])
    if second < 0:
        item = grid.numbers[first]
        return Block(x, y, frame.items[item].length, frame.items[item].width, item=item)
    a = _block_of(frame, grid, joined, first, x, y)
    if along == 0:
        b = _block_of(frame, grid, joined, second, x + a.length, y)
        return Block(x, y, a.length + b.length, max(a.width, b.width), along=0, halves=(a, b))
    b = _block_of(frame, grid, joined, second, x, y + a.width)
    return Block(x, y, max(a.length, b.length), a.width + b.width, along=1, halves=(a, b))


def without_surplus(frame: Frame, block: Block | None, left: NDArray[np.int64]) -> tuple[Block | None, float]:
    """The block with no more than `left` of each part, and its worth."""
    rest = left.copy()

    def kept(block: Block) -> Block | None:
        if block.item is not None:
            part = frame.items[block.item].part
            rest[part] -= 1
            return block if rest[part] >= 0 else None
        halves = tuple(h for half in block.halves if (h := kept(half)) is not None)
        return Block(block.x, block.y, block.length, block.width, None, block.along, halves) if halves else None

    block = kept(block) if block else None
    return block, float(sum(frame.worths[frame.items[i].part] for i in block.items())) if block else 0.0
