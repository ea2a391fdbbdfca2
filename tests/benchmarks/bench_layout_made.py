"""Prints what layouts reach on made-up racks: few boards, boards with room to spare, very many boards. One core.

.venv/bin/python tests/benchmarks/bench_layout_made.py few|roomy|many [--seconds 10]
"""

from __future__ import annotations

import argparse
import resource
import sys
import time
from dataclasses import replace
from pathlib import Path

ROOT = Path(__file__).parents[2]
sys.path.insert(0, str(ROOT))

from shopapi.craft.layout import Problem, leftovers_of, solve  # noqa: E402
from tests.craft.layout.checker import complaints  # noqa: E402
from tests.craft.layout.first_fit import first_fit, rest  # noqa: E402
from tests.craft.layout.made_racks import few_boards, made_rack  # noqa: E402


def few(seconds: float) -> None:
    """One to three boards, one of each part, in trimmed cutting."""
    gaps = []
    for boards in (1, 2, 3):
        for seed in range(10):
            rack = few_boards(10 * seed + boards, boards, 12 * boards)
            problem = replace(rack, rules=replace(rack.rules, cut_type="trimmed"))
            answer = solve(problem, seconds)
            gaps.append(100 * (answer.bound - answer.value) / answer.bound)
            sound = "sound" if not complaints(problem, answer) else "NOT SOUND"
            print(
                f"{boards} boards, {12 * boards} parts, seed {10 * seed + boards:3}: {answer.value:7} "
                f"of {answer.bound:7} {gaps[-1]:6.2f} % {answer.seconds:5.1f} s {sound}",
                flush=True,
            )
    print(f"gap to the bound on average {sum(gaps) / len(gaps):.2f} %, worst {max(gaps):.2f} %")


def line(name: str, problem: Problem, left: dict[str, list[tuple[int, int, int, int]]], unplaced: int) -> str:
    used, pieces = rest(problem, left)
    long, wide = (sum(p[side] for p in pieces) / max(1, len(pieces)) for side in (0, 1))
    return (
        f"{name:10} unplaced {unplaced:3}  boards cut {len(left):3}  wood {used / 1e6:6.2f} m2  "
        f"rest in {len(pieces):3} pieces of {long:5.0f} x {wide:4.0f} mm"
    )


def roomy(seconds: float) -> None:
    """Parts for half of the clear wood, against first-fit."""
    for boards, lines, seed in ((8, 15, 1), (8, 15, 2), (20, 40, 3), (20, 40, 4), (40, 120, 5)):
        problem = made_rack(seed, boards, lines, 0.5, cut_type="trimmed")
        area = sum(w.length * w.width * w.quantity for w in problem.wanted) / 1e6
        print(f"{boards} boards, {lines} part lines, parts of {area:.2f} m2")
        print(line("first-fit", problem, *first_fit(problem)))
        answer = solve(problem, seconds)
        left: dict[str, list[tuple[int, int, int, int]]] = {name: [] for name in answer.cuts}
        for over in leftovers_of(problem, answer):
            left[over.stock].append((over.x, over.y, over.length, over.width))
        print(line("ours", problem, left, sum(u.count for u in answer.unplaced)), flush=True)
        assert not complaints(problem, answer)


def many(seconds: float) -> None:
    """500 boards and 2,000 pieces, with plenty of wood and with too little."""
    for share in (0.39, 1.2):
        problem = made_rack(9, 500, 300, share, cut_type="trimmed")
        pieces = sum(w.quantity for w in problem.wanted)
        answer = solve(problem, seconds)
        print(
            f"500 boards, {pieces} pieces: {answer.value} of {answer.bound} "
            f"({100 * (answer.bound - answer.value) / answer.bound:.2f} %), {answer.seconds:.1f} s of {seconds:.0f}, "
            f"{resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024:.0f} MB, "
            f"{'sound' if not complaints(problem, answer) else 'NOT SOUND'}",
            flush=True,
        )


if __name__ == "__main__":
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("racks", choices=("few", "roomy", "many"))
    parser.add_argument("--seconds", type=float, default=10.0)
    parser.add_argument("--cpu", action="store_true", help="seconds of this process, where others use the machine too")
    options = parser.parse_args()
    if options.cpu:
        time.monotonic = time.process_time
    {"few": few, "roomy": roomy, "many": many}[options.racks](options.seconds)
