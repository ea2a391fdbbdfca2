"""Finds places for words that must not lie on each other."""

from dataclasses import dataclass, field

Box = tuple[float, float, float, float]


def _overlap(one: Box, other: Box) -> bool:
    return one[0] < other[2] and other[0] < one[2] and one[1] < other[3] and other[1] < one[3]


@dataclass
class Taken:
    """The places already written on: boxes of left, low, right, high."""

    boxes: list[Box] = field(default_factory=list)

    def is_free(self, box: Box) -> bool:
        return not any(_overlap(box, other) for other in self.boxes)

    def take(self, choices: list[Box]) -> Box | None:
        """The first choice that is free, now taken; None when all are written on."""
        for box in choices:
            if self.is_free(box):
                self.boxes.append(box)
                return box
        return None


def in_rows(
    centres: list[float], widths: list[float], left: float, right: float, gap: float
) -> list[tuple[int, float]]:
    """For labels under points of a line: the row of each and its left edge, in the order given; rows count from 0.

    A label is centred under its point where the sheet is wide enough, and drops a row where its neighbour reaches it.
    """
    reached: list[float] = []
    places = []
    for centre, width in zip(centres, widths, strict=True):
        start = min(max(left, centre - width / 2), max(left, right - width))
        row = next((n for n, end in enumerate(reached) if end + gap <= start), len(reached))
        if row == len(reached):
            reached.append(left)
        reached[row] = start + width
        places.append((row, start))
    return places
