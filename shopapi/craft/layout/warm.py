"""Brings the compiled kernels in before a clock runs: the first start after an installation compiles them."""

from __future__ import annotations

import functools

from shopapi.craft.layout.clock import Clock
from shopapi.craft.layout.model import Flaw, Problem, Rules, Stock, Wanted
from shopapi.craft.layout.rack_search import lay_out_rack

_WORK = 400_000.0  # enough to come by every stage


@functools.cache
def warm_up() -> None:
    """Lay out small racks of either cut type once a process, so that a maker's seconds are spent searching.

    Source: OWN, nothing is computed for use.
    """
    flaws = (Flaw(300, 20, 40, 30), Flaw(700, 0, 60, 25, frozenset({"A"}), "show"))
    for cut_type in ("exact", "trimmed"):
        wanted = tuple(
            Wanted(str(number), 130 + 37 * number, 40 + 9 * number, 3, 10 + number, faces, any_grain=number == 1)
            for number, faces in enumerate(("both", "one", "none", "one"))
        )
        for boards in (1, 3):
            stocks = tuple(Stock(str(number), 900 + 70 * number, 150, flaws) for number in range(boards))
            lay_out_rack(Problem(stocks, wanted, Rules(3, 10, 10, cut_type=cut_type)), Clock(60.0, _WORK), 0, None)
