"""Remakes lumber.json in exact fractions, apart from the code it checks: `python -m tests.vectors.make_lumber`.

Surface measure: width in inches x whole feet of length / 12, halves to the even number; board feet: x quarters / 4,
stock under 4/4 as 4/4 (the rules of measurement as `LUMBER-RULES` in shopapi/craft/sources.py gives them). A board foot
is 144 cubic inches (NIST SP 811, appendix B.8).
"""

import json
import random
from fractions import Fraction
from pathlib import Path

INCH_MM = Fraction(127, 5)


def half_even(value: Fraction) -> int:
    whole, rest = divmod(value, 1)
    up = rest > Fraction(1, 2) or (rest == Fraction(1, 2) and whole % 2 == 1)
    return int(whole) + int(up)


def main() -> None:
    rng = random.Random(41)
    cases = []
    # Halves by name: 6 in x 9 ft = 4.5, 6 in x 11 ft = 5.5, 10 in x 9 ft = 7.5.
    named = [(Fraction(6), 108, 4), (Fraction(6), 132, 4), (Fraction(10), 108, 8), (Fraction(25, 4), 96, 8)]
    drawn = [
        (Fraction(rng.randrange(32, 224), 16), rng.randrange(24, 193), rng.choice([2, 3, 4, 5, 6, 8, 10, 12, 16]))
        for _ in range(40)
    ]
    for width_in, length_in, quarters in named + drawn:
        measure = half_even(width_in * (length_in // 12) / 12)
        tally = measure * Fraction(max(quarters, 4), 4)
        volume_in3 = width_in * length_in * Fraction(quarters, 4)
        cases.append(
            {
                "length_mm": float(length_in * INCH_MM),
                "width_mm": float(width_in * INCH_MM),
                "quarters": quarters,
                "surface_measure": measure,
                "board_feet": float(tally),
                "volume_board_feet": float(volume_in3 / 144),
                "volume_m3": float(volume_in3 * INCH_MM**3 / 10**9),
            }
        )
    lines = ",\n  ".join(json.dumps(case) for case in cases)
    text = f'{{"cases": [\n  {lines}\n]}}\n'
    Path(__file__).with_name("lumber.json").write_text(text, encoding="utf-8")


if __name__ == "__main__":
    main()
