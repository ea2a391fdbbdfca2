"""The largest clear rectangles of a face, exactly, and the share of it that is clear."""

from collections.abc import Iterable, Sequence

import numpy as np
import shapely

from shopapi.craft.limits import OutOfRangeError, require_more_than_zero
from shopapi.craft.marks import Ellipse, Line, Outline, Rect, Shape, bounds

Flaw = Shape | Rect

# Points on a quarter of an ellipse; its polygon is scaled so that the area is right.
_QUARTER = 16


def clear_rectangles(
    length_mm: float, width_mm: float, flaws: Iterable[Flaw], *, most: int = 5, least_mm: tuple[float, float] = (0, 0)
) -> tuple[Rect, ...]:
    """The largest clear rectangle of a face, then the largest in what is left beside it, and so on.

    Rectangles are upright and keep off the upright rectangle around each flaw, as parts and cuttings do; touching is
    clear. Each is exactly the largest by area; of several equally large the one nearest the butt end, then nearest the
    lower edge, then the longest. They never overlap.

    Args: length_mm, width_mm, the face's [mm]; flaws, shapes or rectangles in board mm; most, how many at most;
    least_mm, (length, width) a rectangle must reach to be worth telling [mm].
    Cost: the cube of the number of flaws at worst, a few milliseconds for 30.
    Errors: OutOfRangeError.
    Source: OWN, exact search over the edges of flaws; checked against brute force.

    >>> clear_rectangles(1000, 100, [Rect(400, 0, 500, 60)], most=2)
    (Rect(x0_mm=500.0, y0_mm=0.0, x1_mm=1000.0, y1_mm=100.0), Rect(x0_mm=0.0, y0_mm=0.0, x1_mm=400.0, y1_mm=100.0))
    """
    require_more_than_zero("Length", length_mm, 20_000, "mm")
    require_more_than_zero("Width", width_mm, 3_000, "mm")
    if most < 0:
        raise OutOfRangeError(f"{most} rectangles cannot be found; ask for 0 or more.")
    blocked = [flaw if isinstance(flaw, Rect) else bounds(flaw) for flaw in flaws]
    found: list[Rect] = []
    while len(found) < most:
        largest = _largest(length_mm, width_mm, [*blocked, *found], least_mm)
        if largest is None:
            break
        found.append(largest)
    return tuple(found)


def clear_share(length_mm: float, width_mm: float, flaws: Iterable[Flaw]) -> float:
    """The share of a face that no flaw covers, 0 to 1, by the flaws' true shapes; where flaws overlap they count once.

    Args: length_mm, width_mm, flaws as for `clear_rectangles`. Errors: OutOfRangeError. Accuracy: an ellipse cut by the
    face's edge or by another flaw, within 0.3 % of its area; else exact.
    Source: GEOMETRY, area of a union of polygons.

    >>> clear_share(1000, 100, [Rect(400, 0, 500, 50), Rect(450, 0, 500, 50)])
    0.95
    """
    require_more_than_zero("Length", length_mm, 20_000, "mm")
    require_more_than_zero("Width", width_mm, 3_000, "mm")
    covered = shapely.unary_union([_polygon(flaw) for flaw in flaws])
    on_face = covered.intersection(shapely.box(0, 0, length_mm, width_mm)).area
    return min(1.0, max(0.0, 1 - on_face / (length_mm * width_mm)))


def _largest(length_mm: float, width_mm: float, blocked: Sequence[Rect], least_mm: tuple[float, float]) -> Rect | None:
    """Every maximal clear rectangle ends at the face's or a flaw's edge on each side, so on the grid of those edges
    the largest one is found row by row: clear run below each cell, then the largest rectangle under that skyline."""
    xs = _edges(length_mm, [x for rect in blocked for x in (rect.x0_mm, rect.x1_mm)])
    ys = _edges(width_mm, [y for rect in blocked for y in (rect.y0_mm, rect.y1_mm)])
    free = np.ones((len(ys) - 1, len(xs) - 1), bool)
    for rect in blocked:
        rows = slice(*np.searchsorted(ys, np.clip([rect.y0_mm, rect.y1_mm], 0, width_mm)))
        columns = slice(*np.searchsorted(xs, np.clip([rect.x0_mm, rect.x1_mm], 0, length_mm)))
        free[rows, columns] = False
    best: tuple[float, float, float, float] | None = None
    largest: Rect | None = None
    floors = np.zeros(len(xs) - 1, int)  # the row at which the clear run below each cell starts
    for row in range(len(ys) - 1):
        floors = np.where(free[row], floors, row + 1)
        for first, last, floor in _under(floors.tolist(), row):
            length, width = xs[last] - xs[first], ys[row + 1] - ys[floor]
            if length < least_mm[0] or width < least_mm[1]:
                continue
            candidate = (-length * width, xs[first], ys[floor], -length)
            if best is None or candidate < best:
                best = candidate
                largest = Rect(float(xs[first]), float(ys[floor]), float(xs[last]), float(ys[row + 1]))
    return largest


def _under(floors: list[int], row: int) -> list[tuple[int, int, int]]:
    """(first column, column after the last, floor) of the widest clear rectangles with their top in this row."""
    found: list[tuple[int, int, int]] = []
    open_runs: list[tuple[int, int]] = []  # (first column, floor), each floor lower than the one before
    for column, floor in enumerate([*floors, row + 1]):
        first = column
        while open_runs and open_runs[-1][1] < floor:
            first, lower = open_runs.pop()
            found.append((first, column, lower))
        if floor <= row and (not open_runs or open_runs[-1][1] > floor):
            open_runs.append((first, floor))
    return found


def _edges(end: float, values: list[float]) -> np.ndarray:
    return np.unique(np.clip([0.0, end, *values], 0.0, end))


def _polygon(flaw: Flaw) -> shapely.Geometry:
    match flaw:
        case Rect(x0, y0, x1, y1):
            return shapely.box(x0, y0, x1, y1)
        case Ellipse(cx, cy, rx, ry):
            turns = np.linspace(0, 2 * np.pi, 4 * _QUARTER, endpoint=False)
            fair = np.sqrt(2 * np.pi / (4 * _QUARTER) / np.sin(2 * np.pi / (4 * _QUARTER)))
            return shapely.Polygon(np.column_stack([cx + fair * rx * np.cos(turns), cy + fair * ry * np.sin(turns)]))
        case Line(points, width):
            return shapely.LineString(points).buffer(width / 2, quad_segs=_QUARTER)
        case Outline(points):
            return shapely.make_valid(shapely.Polygon(points))
