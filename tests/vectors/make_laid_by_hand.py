"""Remakes laid_by_hand.json, pieces on boards and what keeps them from being cut.

`python -m tests.vectors.make_laid_by_hand`

Judged without the code that it tests: marks are painted on a grid of square millimetres, sawability is asked of the
independent checker of layouts.
"""

import json
from itertools import combinations
from pathlib import Path

import numpy as np

from shopapi.craft.layout import Rules
from shopapi.craft.marks import KINDS
from tests.craft.layout.checker import apart, stages_complaints
from tests.vectors.make_clear_room import random_mark

Row = dict[str, object]


def spoilt(mark: Row, shows: str, face: str, length: int, width: int) -> np.ndarray:
    """The square millimetres [y, x] that a mark keeps from such a piece."""
    grid = np.zeros((width, length), bool)
    on_face = mark["through"] or mark["face"] == face
    minded = mark["blocks"] == "all" or shows == "both" or (shows == "one" and on_face)
    if mark["blocks"] == "none" or not minded:
        return grid
    shape, margin = mark["shape"], KINDS[str(mark["kind"])].margin_mm
    assert isinstance(shape, dict)
    if shape["type"] == "ellipse":
        xs = [shape["cx_mm"] - shape["rx_mm"], shape["cx_mm"] + shape["rx_mm"]]
        ys = [shape["cy_mm"] - shape["ry_mm"], shape["cy_mm"] + shape["ry_mm"]]
    else:
        half = shape.get("width_mm", 0) / 2
        xs = [value for x, _ in shape["points"] for value in (x - half, x + half)]
        ys = [value for _, y in shape["points"] for value in (y - half, y + half)]
    low_x, low_y = max(0, int(np.floor(min(xs) - margin))), max(0, int(np.floor(min(ys) - margin)))
    grid[low_y : int(np.ceil(max(ys) + margin)), low_x : int(np.ceil(max(xs) + margin))] = True
    return grid


def random_pieces(rng: np.random.Generator, length: int, width: int, trim: int, kerf: int) -> list[Row]:
    """Mostly in tidy rows with a kerf between them, some of them pushed out of their place by a little."""
    pieces: list[Row] = []
    x = trim
    while len(pieces) < 6 and x < length - trim - 40:
        run = int(rng.integers(40, 160))
        y = 0
        while y < width - 12 and len(pieces) < 6:
            across = int(rng.integers(12, max(13, min(60, width - y))))
            along = run if rng.random() < 0.6 else int(rng.integers(30, run + 1))
            off_x, off_y = (int(rng.integers(-6, 7)), int(rng.integers(-6, 7))) if rng.random() < 0.2 else (0, 0)
            pieces.append(
                {
                    "x_mm": x + off_x,
                    "y_mm": y + off_y,
                    "length_mm": along,
                    "width_mm": across,
                    "face": str(rng.choice(["A", "B"])),
                    "shows": str(rng.choice(["both", "one", "none"])),
                }
            )
            y += across + kerf
        x += run + kerf
    return pieces


def judged(board: Row, pieces: list[Row], kerf: int, trim: int) -> list[list[str]]:
    length, width = int(board["length_mm"]), int(board["width_mm"])  # type: ignore[call-overload]
    boxes = [tuple(int(p[k]) for k in ("x_mm", "y_mm", "length_mm", "width_mm")) for p in pieces]  # type: ignore[call-overload]
    found: list[set[str]] = [set() for _ in pieces]
    for why, piece, (x, y, along, across) in zip(found, pieces, boxes, strict=True):
        if x < trim or y < 0 or x + along > length - trim or y + across > width:
            why.add("outside")
        for mark in board["marks"]:  # type: ignore[attr-defined]
            grid = spoilt(mark, str(piece["shows"]), str(piece["face"]), length, width)
            if grid[max(0, y) : y + across, max(0, x) : x + along].any():
                why.add("on_mark")
    all_apart = True
    for a, b in combinations(range(len(boxes)), 2):
        if not apart(boxes[a], boxes[b], kerf):
            all_apart = False
            reason = "no_kerf" if apart(boxes[a], boxes[b], 0) else "overlap"
            found[a].add(reason)
            found[b].add(reason)
    words = [sorted(why) for why in found]
    sawable = not all_apart or not stages_complaints(boxes, Rules(kerf=kerf, cut_type="trimmed"))
    return words if sawable else [*words, ["not_sawable"]]


def main() -> None:
    rng = np.random.default_rng(20261126)
    cases = []
    for _ in range(80):
        board: Row = {"length_mm": int(rng.integers(250, 600)), "width_mm": int(rng.integers(60, 140))}
        length, width = int(board["length_mm"]), int(board["width_mm"])  # type: ignore[call-overload]
        board["marks"] = [random_mark(rng, length, width) for _ in range(int(rng.integers(0, 4)))]
        kerf, trim = int(rng.choice([0, 3, 4])), int(rng.choice([0, 10]))
        pieces = random_pieces(rng, length, width, trim, kerf)
        if rng.random() < 0.2:
            # a pinwheel: four pieces around a middle, which no straight cut parts
            a, b, kerf = 60, 20, 3
            ring = [(10, 0, a, b), (10 + a + kerf, 0, b, a), (10, b + kerf, b, a), (10 + b + kerf, a + kerf, a, b)]
            names = ("x_mm", "y_mm", "length_mm", "width_mm")
            pieces = [{**dict(zip(names, box, strict=True)), "face": "A", "shows": "none"} for box in ring]
            board = {"length_mm": 300, "width_mm": 100, "marks": []}
        why = judged(board, pieces, kerf, trim)
        sawable = len(why) == len(pieces)
        cases.append(
            {
                "board": board,
                "kerf": kerf,
                "end_trim": trim,
                "pieces": pieces,
                "why": why[: len(pieces)],
                "sawable": sawable,
            }
        )
    lines = ",\n  ".join(json.dumps(case) for case in cases)
    Path(__file__).with_name("laid_by_hand.json").write_text(f'{{"cases": [\n  {lines}\n ]}}\n', encoding="utf-8")


if __name__ == "__main__":
    main()
