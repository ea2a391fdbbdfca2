"""Times of the trade's arithmetic, printed as a table. Run by hand: python tests/benchmarks/bench_craft.py"""

import random
import statistics
import sys
import time
from collections.abc import Callable
from pathlib import Path

import numpy as np

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))

from shopapi.craft.clear_area import clear_face
from shopapi.craft.grading import GradeMark, grade
from shopapi.craft.marks import Ellipse
from shopapi.craft.measures import format_length, parse_length
from shopapi.craft.moisture import equilibrium_moisture, seasonal_moisture
from shopapi.craft.movement import home_year, width_through_year
from shopapi.craft.species import all_species, species

FEET, INCHES = 304.8, 25.4


def seconds(work: Callable[[], object], times: int) -> tuple[float, float]:
    """Median and greatest of some runs, after one to warm up."""
    work()
    taken = []
    for _ in range(times):
        start = time.perf_counter()
        work()
        taken.append(time.perf_counter() - start)
    return statistics.median(taken), max(taken)


def random_board(chance: random.Random, count: int) -> tuple[float, float, list[GradeMark]]:
    length, width = chance.uniform(8, 14) * FEET, chance.uniform(6, 13) * INCHES
    size = chance.choice((0.3, 1.0, 1.0))
    marks = [
        GradeMark(
            chance.choice(("knot", "knot", "stain", "worm_holes", "wane", "split")),
            chance.choice(("A", "B")),
            Ellipse(
                chance.uniform(0, length),
                chance.uniform(0, width),
                size * chance.uniform(5, 80),
                size * chance.uniform(5, 20),
            ),
            chance.random() < 0.4,
        )
        for _ in range(count)
    ]
    return length, width, marks


def main() -> None:
    chance = random.Random(7)
    temps, humidities = np.random.default_rng(7).uniform(0, 40, 10**6), np.random.default_rng(8).uniform(5, 95, 10**6)
    widths = [chance.uniform(100, 1200) for _ in range(200)]
    year = home_year(25, 55)
    air = [month.equilibrium_pct for month in year]
    rows = [
        ("equilibrium_moisture, 1e6 values", 0.25, seconds(lambda: equilibrium_moisture(temps, humidities), 7)),
        (
            "a year of 200 panels",
            0.1,
            seconds(lambda: [width_through_year(width, "white oak", 8, year) for width in widths], 7),
        ),
        (
            "a lagging year of 200 panels",
            None,
            seconds(lambda: [seasonal_moisture(air, width / 40, "white oak", "shellac", 3) for width in widths], 3),
        ),
        ("all species, cold", None, seconds(lambda: (all_species.cache_clear(), all_species()), 5)),
        ("a species by name", None, seconds(lambda: species("hard maple"), 100)),
        (
            "1000 lengths parsed and printed",
            None,
            seconds(lambda: [format_length(parse_length("29 3/4", "inch"), "inch") for _ in range(1000)], 5),
        ),
    ]
    for count in (15, 40):
        boards = [random_board(chance, count) for _ in range(300)]
        taken, unproved = [], 0
        grade(*boards[0])
        for length, width, marks in boards:
            start = time.perf_counter()
            unproved += not grade(length, width, marks).proved
            taken.append(time.perf_counter() - start)
        name = f"grade, {count} marks, 300 boards ({unproved} unproved)"
        rows.append((name, 0.05 if count == 15 else None, (statistics.median(taken), max(taken))))
    taken = []
    for length, width, marks in [random_board(chance, 30) for _ in range(300)]:
        start = time.perf_counter()
        clear_face(length, width, marks, "A"), clear_face(length, width, marks, "B"), grade(length, width, marks)
        taken.append(time.perf_counter() - start)
    rows.append(("clear wood and grade, 30 marks, 300 boards", 0.1, (statistics.median(taken), max(taken))))
    print(f"{'':48} {'median ms':>10} {'worst ms':>10} {'wanted ms':>10}")
    for name, wanted, (median, worst) in rows:
        limit = "" if wanted is None else f"{wanted * 1000:.0f}"
        print(f"{name:48} {median * 1000:10.2f} {worst * 1000:10.2f} {limit:>10}")


if __name__ == "__main__":
    main()
