"""Least wood once every part has a place: fewer boards cut, and of those the rest long and over the whole width."""

from __future__ import annotations

import copy

import numpy as np

from shopapi.craft.layout.first import EXPONENTS, one_pass
from shopapi.craft.layout.frame import Frame
from shopapi.craft.layout.pool import Choice
from shopapi.craft.layout.pricing import Pattern
from shopapi.craft.layout.rack import Rack
from shopapi.craft.layout.recreate import Recreation

PASSES = 80
PASS_SHARE = 0.5  # of what is left of the budget
PUSH_SHARE = 0.1  # of the budget, kept for pushing together
FIRST_TRY, LAST_TRY = 40_000.0, 400_000.0  # work for one try to do without a board
LEAST_REST_MM = 300  # a shorter end is no leftover
CLEAR_SHARE = 0.97  # fuller than this a set of boards is not tried
WORTHWHILE = 0.9  # a board is replaced by one of less than this share of the wood it takes
DEARER = 1.05


class Economy:
    """The search for the layout of all parts that takes least wood. Works on a rack whose worths are areas."""

    def __init__(self, rack: Rack) -> None:
        self.asked = rack
        frame: Frame = copy.copy(rack.frame)
        frame.worths = np.array([w.length * w.width for w in frame.problem.wanted], np.float64)
        self.rack = Rack(frame, rack.clock, int(rack.random.integers(1, 2**31)))
        for pattern in rack.pool.patterns:
            self.rack.pool.add(pattern)
        self.sizes = np.array([s.length * s.width for s in frame.problem.stocks], np.float64)
        # boards that hold pinned pieces are cut anyway
        self.pinned = {n for n, board in enumerate(frame.boards) if board.pins.pins}
        self.clear = np.array([board.clear_area for board in frame.boards], np.float64)
        self.need = float(sum((i.length * i.width * frame.quantities[i.part]) for i in frame.items if not i.turned))
        self.choice: Choice = list(rack.best)

    def run(self) -> None:
        """Search until no board can be done without, or the clock is over."""
        self._take(self.choice)
        self._pass_over()
        self._push_together()
        if self._do_without():
            self._push_together()

    def wood(self, choice: Choice) -> float:
        """Area of the boards that a choice cuts, less the clean ends that it leaves over their whole width. [mm2]"""
        return sum(self._wood_of(pattern) for pattern in choice if pattern is not None)

    def _wood_of(self, pattern: Pattern) -> float:
        board = self.rack.frame.boards[pattern.board]
        stock = self.rack.frame.problem.stocks[pattern.board]
        if pattern.board in self.pinned or not len(pattern.pieces):
            return 0.0
        rest = max(int(pattern.pieces[:, 3].min()), board.length - int(pattern.pieces[:, 4].max()))
        return float((stock.length - (rest if rest >= LEAST_REST_MM else 0)) * stock.width)

    def _whole(self, choice: Choice) -> bool:
        return not self.rack.left_over(choice).any()

    def _take(self, choice: Choice) -> bool:
        """Keep a choice that has every part, is worth no less, and takes less wood."""
        fits = self._whole(choice)
        if not fits or self.asked.pool.worth(choice) < self.asked.value - 1e-6:
            return False
        if choice is not self.choice and self.wood(choice) >= self.wood(self.choice) - 0.5:
            return False
        self.choice = list(choice)
        self.asked.settle(self.choice)
        return True

    def _pass_over(self) -> None:
        """Boards one after another until all parts have a place, in many orders."""
        rack = self.rack
        limit = rack.clock.spent + PASS_SHARE * (1 - rack.clock.spent)
        boards = len(rack.frame.boards)
        weight = np.ones(len(rack.frame.worths))
        mean = rack.frame.worths.mean()
        yields = self._yields((rack.clock.spent + limit) / 2)
        for number in range(PASSES):
            if rack.clock.over or rack.clock.spent > limit:
                return
            noise = rack.random.uniform(0.8, 1.25, boards)
            keys = (-yields * noise**0.5, self.sizes * noise, -yields * noise, -self.sizes * noise)[number % 4]
            ranks = [(b not in self.pinned, float(key)) for b, key in enumerate(keys)]
            order = sorted(range(boards), key=ranks.__getitem__)
            worths = rack.frame.worths * weight * (rack.frame.worths / mean) ** EXPONENTS[number % len(EXPONENTS)]
            choice = one_pass(rack, order, worths, 1 + number % 3)
            left = rack.left_over(choice)
            weight = np.where(left > 0, weight * 1.2, weight)
            self._take(choice)

    def _yields(self, limit: float) -> np.ndarray:
        """What share of each board could become parts, were it alone; 0 for those that there was no time for."""
        rack = self.rack
        found = np.zeros(len(rack.frame.boards))
        for board in rack.in_play:
            if rack.clock.over or rack.clock.spent > limit:
                break
            pattern = rack.cut(board, rack.frame.worths, rack.frame.quantities, 1)
            if pattern is not None:
                found[board] = float((pattern.counts * rack.frame.worths).sum()) / self.sizes[board]
        return found

    def _do_without(self) -> bool:
        """Leave out one board after another, or put a smaller one in its place; whether any could be left out."""
        rack = self.rack
        work, any_left_out = FIRST_TRY, False
        while work <= LAST_TRY and rack.clock.spent < 1 - PUSH_SHARE:
            failed: set[tuple[int, int | None]] = set()
            while exchange := next((e for e in self._exchanges() if e not in failed), None):
                if rack.clock.over or rack.clock.spent > 1 - PUSH_SHARE:
                    break
                board, instead = exchange
                allowed = [b for b, p in enumerate(self.choice) if p is not None and b != board]
                allowed += [instead] if instead is not None else []
                if self.clear[allowed].sum() * CLEAR_SHARE >= self.need and self._fit(allowed, work):
                    any_left_out = True
                else:
                    failed.add(exchange)
            work *= 2
        return any_left_out

    def _exchanges(self) -> list[tuple[int, int | None]]:
        """Boards worth leaving out and what may take their place, the most wood saved for parts moved first."""
        found: list[tuple[float, int, int | None]] = []
        free = [b for b, p in enumerate(self.choice) if p is None]
        for board, pattern in enumerate(self.choice):
            if pattern is None or board in self.pinned:
                continue
            held = float((pattern.counts * self.rack.frame.worths).sum())
            wood = self._wood_of(pattern)
            found.append((wood / (held + 1.0), board, None))
            smaller = sorted((b for b in free if self.sizes[b] < WORTHWHILE * wood), key=lambda b: self.sizes[b])
            found += [((wood - self.sizes[b]) / (held + 1.0), board, b) for b in {*smaller[-1:], *smaller[:1]}]
        return [(board, instead) for _, board, instead in sorted(found, key=lambda f: -f[0])]

    def _fit(self, boards: list[int], work: float) -> bool:
        """Try to place every part on these boards only."""
        rack = self.rack
        rack.only(boards)
        if not rack.in_play:
            return False
        start: Choice = [p if b in set(boards) else None for b, p in enumerate(self.choice)]
        walk = Recreation(rack)
        walk.now = rack.improve(start, 400)
        worth = rack.pool.worth(walk.now)
        until = rack.clock.done + work
        while not rack.clock.over:
            if rack.all_parts - worth < 0.5:
                return self._take(walk.now)
            if rack.clock.done > until:
                break
            choice = walk.step()
            got = rack.pool.worth(choice)
            if got >= worth - 0.2 * (rack.all_parts - worth) * rack.random.random():
                walk.now, worth = choice, got
        # parts that stay out weigh more in the next try
        left = rack.left_over(walk.now)
        rack.frame.worths = rack.frame.worths * np.where(left > 0, DEARER, 1.0)
        rack.all_parts = float((rack.frame.worths * rack.frame.quantities).sum())
        return False

    def _push_together(self) -> None:
        """Cut each board's own parts out of the shortest end of it that holds them."""
        rack = self.rack
        for board, pattern in enumerate(self.choice):
            if pattern is None or board in self.pinned:
                continue
            counts = self._own(board)
            length = rack.frame.boards[board].length
            held = sum(i.length * i.width * int(counts[i.part]) for i in rack.frame.items if not i.turned)
            low, high = held // rack.frame.boards[board].width, length - LEAST_REST_MM
            while high - low > 20 and not rack.clock.over:
                middle = (low + high) // 2
                short = self._within(board, counts, middle)
                if short is None:
                    low = middle
                    continue
                self._take([short if b == board else p for b, p in enumerate(self.choice)])
                high = int(short.pieces[:, 4].max() - short.pieces[:, 3].min())

    def _own(self, board: int) -> np.ndarray:
        """What a board must give that the others do not."""
        others = [p if b != board else None for b, p in enumerate(self.choice)]
        return self.rack.left_over(others)

    def _within(self, board: int, counts: np.ndarray, length: int) -> Pattern | None:
        """These parts out of either end of a board, no further in than `length`."""
        rack = self.rack
        whole = rack.frame.boards[board].length
        for window in ((0, length), (whole - length, whole)):
            pattern = rack.cut(board, np.where(counts > 0, rack.frame.worths, 0.0), counts, 4, window)
            if pattern is not None and (pattern.counts >= counts).all():
                return pattern
        return None


def spare_wood(rack: Rack) -> None:
    """If every part has a place, look for places that take less wood."""
    if rack.clock.over or rack.left_over(rack.best).any() or not rack.frame.quantities.any():
        return
    Economy(rack).run()
