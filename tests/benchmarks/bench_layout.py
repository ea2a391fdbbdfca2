"""Prints what layouts reach on the reference racks and published sheets: run by hand, one core.

.venv/bin/python tests/benchmarks/bench_layout.py --seconds 10 [--cut-type trimmed] [NAME ...]
"""

from __future__ import annotations

import argparse
import json
import os
import sys
import time
from pathlib import Path

ROOT = Path(__file__).parents[2]
sys.path.insert(0, str(ROOT))

from shopapi.craft.layout import solve  # noqa: E402
from shopapi.craft.layout.instances import read_instance  # noqa: E402
from tests.craft.layout.checker import complaints  # noqa: E402

REFERENCE = Path(os.environ.get("REFERENCE_DIR", ROOT.parent / "shared" / "reference"))


def best_known(path: Path, data: dict) -> int | None:
    """The best value that general-purpose solvers reached on a rack in 60 s, or a sheet's known optimum."""
    if path.parent.name == "racks":
        return int(
            json.loads((path.parent / "anchor_results.json").read_text())["racks"][path.stem]["best_guillotine_any"]
        )
    return data.get("optimal")


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("names", nargs="*", help="only instances whose path contains one of these")
    parser.add_argument("--seconds", type=float, default=10.0)
    parser.add_argument("--seed", type=int, default=0)
    parser.add_argument("--cut-type", choices=("exact", "trimmed"), help="instead of what the instance says")
    parser.add_argument("--cpu", action="store_true", help="seconds of this process, where others use the machine too")
    options = parser.parse_args()
    if options.cpu:
        time.monotonic = time.process_time
    paths = sorted((REFERENCE / "racks").glob("rack-*.json")) + sorted((REFERENCE / "cutting").glob("*.json"))
    paths = [p for p in paths if not options.names or any(name in str(p) for name in options.names)]
    if not paths:
        parser.error(f"no instance of that name under {REFERENCE} (set REFERENCE_DIR)")
    print(f"{'instance':40} {'value':>8} {'bound':>8} {'gap %':>6} {'s':>6} {'best known':>10} {'over %':>7}  sound")
    over = []
    for path in paths:
        data = json.loads(path.read_text())
        known = best_known(path, data)
        if options.cut_type:
            data["cut_type"] = options.cut_type
        problem = read_instance(data)
        answer = solve(problem, options.seconds, options.seed)
        gap = 100 * (answer.bound - answer.value) / answer.bound if answer.bound else 0.0
        share = 100 * (answer.value / known - 1) if known else 0.0
        over.append(share)
        sound = "yes" if not complaints(problem, answer) else "NO"
        print(
            f"{path.stem:40} {answer.value:8} {answer.bound:8} {gap:6.2f} {answer.seconds:6.1f} {known or 0:10} "
            f"{share:+7.2f}  {sound}",
            flush=True,
        )
    if over:
        print(f"{len(over)} instances, {sum(over) / len(over):+.2f} % over the best known on average")


if __name__ == "__main__":
    main()
