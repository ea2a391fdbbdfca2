"""Remakes clear_wood.json by trying every rectangle of whole millimetres: `python -m tests.vectors.make_clear_wood`.

The share is counted point by point, twenty to the millimetre each way. Which kinds of marks spoil a face is taken from
the rules (shopapi/craft/grading/rules.py) and written down with the cases, so that the phone can be held to it.
"""

import json
from pathlib import Path
from typing import Any

import numpy as np

from shopapi.craft.grading.rules import NOT_CLEAR
from tests.vectors.make_clear_room import random_mark

MOST = 4
POINTS_TO_MM = 20


def around(shape: dict[str, Any]) -> tuple[float, float, float, float]:
    if shape["type"] == "ellipse":
        cx, cy, rx, ry = (shape[key] for key in ("cx_mm", "cy_mm", "rx_mm", "ry_mm"))
        return cx - rx, cy - ry, cx + rx, cy + ry
    half = shape.get("width_mm", 0) / 2
    xs, ys = zip(*shape["points"], strict=True)
    return min(xs) - half, min(ys) - half, max(xs) + half, max(ys) + half


def covered(shape: dict[str, Any], x: np.ndarray, y: np.ndarray) -> np.ndarray:
    """Outlines here are upright rectangles, lines run along the grain."""
    low_x, low_y, high_x, high_y = around(shape)
    if shape["type"] == "ellipse":
        return ((x - shape["cx_mm"]) / shape["rx_mm"]) ** 2 + ((y - shape["cy_mm"]) / shape["ry_mm"]) ** 2 <= 1
    if shape["type"] == "line":
        half = shape["width_mm"] / 2
        return np.hypot(x - np.clip(x, low_x + half, high_x - half), y - (low_y + half)) <= half
    return (x >= low_x) & (x <= high_x) & (y >= low_y) & (y <= high_y)


def largest(held: np.ndarray) -> list[int] | None:
    """[x, y, length, width] of the largest clear rectangle; of equals nearest the butt end, the lower edge, longest."""
    width, length = held.shape
    sums = np.zeros((width + 1, length + 1), int)
    sums[1:, 1:] = held.cumsum(0).cumsum(1)
    best: tuple[int, int, int, int] | None = None
    for low in range(width):
        for high in range(low + 1, width + 1):
            row = sums[high] - sums[low]
            is_clear = row[None, :] == row[:, None]  # [from, to]
            spans = np.where(is_clear, np.arange(length + 1)[None, :] - np.arange(length + 1)[:, None], 0)
            span = int(spans.max())
            if span > 0:
                start = int(np.flatnonzero((spans == span).any(axis=1))[0])
                candidate = (-span * (high - low), start, low, -span)
                best = candidate if best is None else min(best, candidate)
    if best is None:
        return None
    return [best[1], best[2], -best[3], best[0] // best[3]]


def face_of(marks: list[dict[str, Any]], face: str, length: int, width: int) -> dict[str, Any]:
    seen = [mark["shape"] for mark in marks if mark["kind"] in NOT_CLEAR and (mark["through"] or mark["face"] == face)]
    held = np.zeros((width, length), bool)
    for shape in seen:
        low_x, low_y, high_x, high_y = (max(0, round(value)) for value in around(shape))
        held[low_y:high_y, low_x:high_x] = True
    rectangles: list[list[int]] = []
    while len(rectangles) < MOST and (found := largest(held)):
        rectangles.append(found)
        x, y, along, across = found
        held[y : y + across, x : x + along] = True
    x, y = np.meshgrid(
        (np.arange(length * POINTS_TO_MM) + 0.5) / POINTS_TO_MM, (np.arange(width * POINTS_TO_MM) + 0.5) / POINTS_TO_MM
    )
    spoilt = np.zeros(x.shape, bool)
    for shape in seen:
        spoilt |= covered(shape, x, y)
    return {"clear_share": round(1 - float(spoilt.mean()), 5), "rectangles": rectangles}


def main() -> None:
    rng = np.random.default_rng(7)
    cases = []
    for _ in range(24):
        length, width = int(rng.integers(60, 120)), int(rng.integers(18, 40))
        marks = [random_mark(rng, length, width) for _ in range(int(rng.integers(0, 9)))]
        faces = {face: face_of(marks, face, length, width) for face in "AB"}
        cases.append({"length_mm": length, "width_mm": width, "marks": marks, "faces": faces})
    lines = ",\n  ".join(json.dumps(case) for case in cases)
    text = f'{{"not_clear": {json.dumps(sorted(NOT_CLEAR))},\n "cases": [\n  {lines}\n ]}}\n'
    Path(__file__).with_name("clear_wood.json").write_text(text, encoding="utf-8")


if __name__ == "__main__":
    main()
