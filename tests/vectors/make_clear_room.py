"""Remakes clear_room.json by trying every place on a grid of millimetres: `python -m tests.vectors.make_clear_room`.

No rectangle is searched for cleverly here: a place is clear when none of its square millimetres is spoilt.
"""

import json
from pathlib import Path

import numpy as np

from shopapi.craft.marks import KINDS

MARGINS_MM = {key: kind.margin_mm for key, kind in KINDS.items()}
KIND_NAMES = ["knot", "check", "split", "wane", "sapwood", "worm_holes", "figure"]


def random_mark(rng: np.random.Generator, length: int, width: int) -> dict[str, object]:
    kind = str(rng.choice(KIND_NAMES))
    x, y = int(rng.integers(0, length)), int(rng.integers(0, width))
    dx, dy = int(rng.integers(2, 40)), int(rng.integers(1, 14))
    shape: dict[str, object]
    if KINDS[kind].shape == "ellipse":
        shape = {"type": "ellipse", "cx_mm": x, "cy_mm": y, "rx_mm": dx, "ry_mm": dy}
    elif KINDS[kind].shape == "line":
        shape = {"type": "line", "points": [[x, y], [min(length, x + dx), y]], "width_mm": 2}
    else:
        far, high = min(length, x + dx), min(width, y + dy)
        shape = {"type": "outline", "points": [[x, y], [far, y], [far, high], [x, high]]}
    face, through = str(rng.choice(["A", "B"])), bool(rng.integers(0, 2))
    return {"kind": kind, "face": face, "through": through, "blocks": KINDS[kind].blocks, "shape": shape}


def spoilt(marks: list[dict[str, object]], seen: str, length: int, width: int) -> np.ndarray:
    """What keeps a part off whose seen face is `seen`: [y, x] square millimetres."""
    grid = np.zeros((width, length), bool)
    for mark in marks:
        on_seen = mark["through"] or mark["face"] == seen
        if mark["blocks"] == "none" or (mark["blocks"] == "show" and not on_seen):
            continue
        shape, margin = mark["shape"], MARGINS_MM[str(mark["kind"])]
        assert isinstance(shape, dict)
        if shape["type"] == "ellipse":
            xs = [shape["cx_mm"] - shape["rx_mm"], shape["cx_mm"] + shape["rx_mm"]]
            ys = [shape["cy_mm"] - shape["ry_mm"], shape["cy_mm"] + shape["ry_mm"]]
        else:
            half = shape.get("width_mm", 0) / 2
            xs = [value for x, _ in shape["points"] for value in (x - half, x + half)]
            ys = [value for _, y in shape["points"] for value in (y - half, y + half)]
        low_x, high_x = max(0, round(min(xs) - margin)), max(0, round(max(xs) + margin))
        low_y, high_y = max(0, round(min(ys) - margin)), max(0, round(max(ys) + margin))
        grid[low_y:high_y, low_x:high_x] = True
    return grid


def has_room(grid: np.ndarray, length: int, width: int) -> bool:
    if length > grid.shape[1] or width > grid.shape[0]:
        return False
    sums = np.zeros((grid.shape[0] + 1, grid.shape[1] + 1), int)
    sums[1:, 1:] = grid.cumsum(0).cumsum(1)
    held = sums[width:, length:] - sums[:-width, length:] - sums[width:, :-length] + sums[:-width, :-length]
    return bool((held == 0).any())


def main() -> None:
    rng = np.random.default_rng(20261125)
    cases = []
    for _ in range(60):
        length, width = int(rng.integers(120, 500)), int(rng.integers(30, 90))
        trim = int(rng.choice([0, 10]))
        marks = [random_mark(rng, length, width) for _ in range(int(rng.integers(0, 8)))]
        grids = [spoilt(marks, seen, length, width)[:, trim : length - trim] for seen in "AB"]
        asked = [[int(rng.integers(40, 300)), int(rng.integers(8, 60))] for _ in range(4)]
        rooms = [{"length_mm": x, "width_mm": y, "fits": any(has_room(g, x, y) for g in grids)} for x, y in asked]
        board = {"length_mm": length, "width_mm": width, "end_trim_mm": trim, "marks": marks, "rooms": rooms}
        cases.append(board)
    lines = ",\n  ".join(json.dumps(case) for case in cases)
    text = f'{{"margins_mm": {json.dumps(MARGINS_MM)},\n "cases": [\n  {lines}\n ]}}\n'
    Path(__file__).with_name("clear_room.json").write_text(text, encoding="utf-8")


if __name__ == "__main__":
    main()
