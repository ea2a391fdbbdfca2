"""Remakes rough.json in exact fractions, apart from the code it checks: `python -m tests.vectors.make_rough`.

Common practice, no source: the finished size along and across the grain with the maker's allowances; a panel's width is
shared by its strips, each of which loses the joint on both edges. Where a blank is given, its size counts instead of
the part's. Blanks are whole millimetres, never too small; so many pieces need as many blanks as hold them.
"""

import json
import math
import random
from fractions import Fraction
from pathlib import Path

INCH_MM = Fraction(127, 5)


def sixteenths(rng: random.Random, low_in: int, high_in: int) -> Fraction:
    return Fraction(rng.randrange(low_in * 16, high_in * 16), 16) * INCH_MM


def case(sizes: list[Fraction], grain: str, strips: int, more: list[Fraction]) -> dict[str, dict[str, object]]:
    length, width, thickness = sizes
    along, across = (width, length) if grain == "width" else (length, width)
    strip = (across + more[1]) / strips + (2 * more[3] if strips > 1 else 0)
    names = ("length_mm", "width_mm", "thickness_mm")
    return {
        "part": dict(zip(names, map(float, sizes), strict=True)) | {"grain": grain, "strip_count": strips},
        "allowances": {
            "extra_length_mm": float(more[0]),
            "extra_width_mm": float(more[1]),
            "extra_thickness_mm": float(more[2]),
            "joint_loss_mm": float(more[3]),
        },
        "rough": {
            "length_mm": math.ceil(along + more[0]),
            "width_mm": math.ceil(strip),
            "thickness_mm": float(thickness + more[2]),
            "count": strips,
        },
    }


def blank_case(
    sizes: list[Fraction], blank: list[Fraction], grain: str, more: list[Fraction]
) -> dict[str, dict[str, object]]:
    """The case of a solid part as large as the blank, asked for the smaller part."""
    found = case([*blank, sizes[2]], grain, 1, more)
    blank_mm = {"blank_length_mm": float(blank[0]), "blank_width_mm": float(blank[1])}
    found["part"] |= {"length_mm": float(sizes[0]), "width_mm": float(sizes[1])} | blank_mm
    return found


def counted(pieces: int, holds: int) -> dict[str, int]:
    """One blank after the other until every piece has a place."""
    blanks = 0
    while blanks * holds < pieces:
        blanks += 1
    return {"pieces": pieces, "holds": holds, "blanks": blanks}


def main() -> None:
    rng = random.Random(17)
    usual = [Fraction(25), Fraction(6), Fraction(5), Fraction(3)]
    cases = [
        # A blank that comes out in whole millimetres is not rounded up.
        case([Fraction(254), Fraction(127, 2), Fraction(20)], "length", 1, usual),
        case([Fraction(600), Fraction(300), Fraction(20)], "any", 3, usual),
        case([Fraction(600), Fraction(300), Fraction(20)], "width", 7, [Fraction(0)] * 4),
    ]
    for _ in range(40):
        sizes = [sixteenths(rng, 4, 90), sixteenths(rng, 1, 40), sixteenths(rng, 1, 3)]
        more = [sixteenths(rng, 0, 2), sixteenths(rng, 0, 1), sixteenths(rng, 0, 1), Fraction(rng.randrange(0, 40), 10)]
        cases.append(case(sizes, rng.choice(["length", "width", "any"]), rng.choice([1, 1, 2, 3, 6]), more))
    for _ in range(12):
        sizes = [sixteenths(rng, 4, 90), sixteenths(rng, 1, 40), sixteenths(rng, 1, 3)]
        blank = [sizes[0] + sixteenths(rng, 0, 9), sizes[1] + sixteenths(rng, 0, 20)]
        more = [sixteenths(rng, 0, 2), sixteenths(rng, 0, 1), sixteenths(rng, 0, 1), Fraction(3)]
        cases.append(blank_case(sizes, blank, rng.choice(["length", "width", "any"]), more))
    lines = ",\n  ".join(json.dumps(one) for one in cases)
    counts = ", ".join(
        json.dumps(counted(pieces, holds)) for pieces in (0, 1, 4, 5, 6, 2000) for holds in (1, 2, 3, 20)
    )
    text = f'{{"cases": [\n  {lines}\n],\n"blanks": [{counts}]}}\n'
    Path(__file__).with_name("rough.json").write_text(text, encoding="utf-8")


if __name__ == "__main__":
    main()
