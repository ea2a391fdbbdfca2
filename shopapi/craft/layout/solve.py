"""The one entry: parts onto boards, the best layout found in the time given and a bound on any better one."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence

from shopapi.craft.layout.answers import better_known, with_sparing_cuts
from shopapi.craft.layout.clock import Clock
from shopapi.craft.layout.model import Answer, LayoutError, Placement, Problem, Progress
from shopapi.craft.layout.pins import refuse_contradictions

OUTPUT_SHARE, MOST_OUTPUT_SHARE = 0.02, 0.2  # of the time, kept back for writing the answer
OUTPUT_S_PER_PIECE = 2e-4


def solve(
    problem: Problem,
    seconds: float,
    seed: int = 0,
    told: Progress | None = None,
    stopped: Callable[[], bool] | None = None,
    *,
    work: float | None = None,
    known: Sequence[Placement] = (),
) -> Answer:
    """The best layout found within the time; every answer is a whole, valid layout that keeps the pins.

    Args: problem: boards, parts, rules; seconds: wall time at most [s]; seed: another one may find another layout; told
    gets better answers as they are found, the first at once, then a few times a second at most; stopped ends the search
    early, once it says True, and keeps the best so far; work: counted work at most [about 1 microsecond each], which
    gives the same answer on every run; known: a layout that may be had already: where it still keeps all rules and
    pins, the answer is no worse.
    Raises LayoutError when the time is not a number above nought, or when the pins contradict the board, the marks or
    one another.
    Source: OWN, prices and board searches as its modules tell.
    """
    if not (isinstance(seconds, (int, float)) and math.isfinite(seconds) and seconds > 0):
        raise LayoutError(f"The time to search must be a number of seconds above 0, not {seconds!r}.")
    refuse_contradictions(problem)
    # the search brings compiled code: whoever only describes problems need not load it
    from shopapi.craft.layout.warm import warm_up
    from shopapi.craft.layout.wishes import lay_out_as_wished

    warm_up()

    pieces = sum(w.quantity for w in problem.wanted)
    output = min(max(OUTPUT_SHARE * seconds, OUTPUT_S_PER_PIECE * pieces), MOST_OUTPUT_SHARE * seconds)
    clock = Clock(seconds - output, work, stopped)
    answer = better_known(problem, lay_out_as_wished(problem, clock, seed, told), known)
    return with_sparing_cuts(problem, answer)
