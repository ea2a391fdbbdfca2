"""Maximal clear rectangles of a board face: every clear rectangle lies in one of them."""

from collections.abc import Sequence

# x0, y0, x1, y1 [mm], x along the grain.
Box = tuple[float, float, float, float]


def maximal_clear_boxes(length_mm: float, width_mm: float, blocked: Sequence[Box], least_mm: Box) -> list[Box]:
    """All clear rectangles of a face that cannot grow in any direction and reach a least size.

    length_mm, width_mm: the face [mm]. blocked: rectangles to keep off (touching is allowed). least_mm: a box whose x1
    and y1 are the least length and width [mm] worth having. Cost: square of the number of marks, times it.
    Source: GEOMETRY, slab by slab.

    >>> maximal_clear_boxes(100, 10, [(40, 0, 60, 5)], (0, 0, 1, 1))
    [(0.0, 0.0, 40, 10.0), (60, 0.0, 100.0, 10.0), (0.0, 5, 100.0, 10.0)]
    """
    board = (0.0, 0.0, float(length_mm), float(width_mm))
    marks = sorted(box for one in blocked if (box := _clipped(one, board)))
    floors = sorted({board[1], *(mark[3] for mark in marks)})
    ceilings = sorted({board[3], *(mark[1] for mark in marks)})
    found: list[Box] = []
    for floor in floors:
        for ceiling in ceilings:
            if ceiling - floor >= least_mm[3]:
                found += _gaps(board, marks, floor, ceiling, least_mm[2])
    return found


def _gaps(board: Box, marks: list[Box], floor: float, ceiling: float, least_length: float) -> list[Box]:
    """Clear stretches of the slab between two heights that cannot grow up or down."""
    gaps: list[Box] = []
    start = board[0]
    for mark in (*(mark for mark in marks if mark[1] < ceiling and mark[3] > floor), (board[2], 0.0, board[2], 0.0)):
        if mark[0] - start >= least_length and _held(board, marks, (start, floor, mark[0], ceiling)):
            gaps.append((start, floor, mark[0], ceiling))
        start = max(start, mark[2])
    return gaps


def _held(board: Box, marks: list[Box], box: Box) -> bool:
    """Whether marks or edges stop the box both below and above."""
    below, above = box[1] == board[1], box[3] == board[3]
    for mark in marks:
        if mark[0] < box[2] and mark[2] > box[0]:
            below = below or mark[3] == box[1]
            above = above or mark[1] == box[3]
    return below and above


def _clipped(box: Box, board: Box) -> Box | None:
    clipped = (max(box[0], board[0]), max(box[1], board[1]), min(box[2], board[2]), min(box[3], board[3]))
    return clipped if clipped[0] < clipped[2] and clipped[1] < clipped[3] else None
