"""The first layout of a fresh process, its compiled kernels not yet there, is as good as the next."""

import os
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).parents[3]
_ASK = """
from shopapi.craft.layout import Problem, Rules, Stock, Wanted, solve
stocks = tuple(Stock(f"B{n}", 2400, 200) for n in range(4))
problem = Problem(stocks, (Wanted("rail", 600, 60, 20, 10), Wanted("leg", 700, 45, 8, 9)), Rules(3, 20, 20))
print(len(solve(problem, 1.0).placements))
"""


def test_compiling_does_not_eat_the_seconds_of_the_search(tmp_path: Path) -> None:
    """A layout that fits with room to spare once came out empty, because compiling took longer than it was given."""
    ran = subprocess.run(
        [sys.executable, "-c", _ASK],
        env={**os.environ, "NUMBA_CACHE_DIR": str(tmp_path), "PYTHONPATH": str(ROOT)},
        cwd=ROOT,
        capture_output=True,
        text=True,
        check=True,
    )
    assert ran.stdout.strip() == "28"
