"""The board's own side, seen below the face it belongs to: the same wood, darker, as a straight band."""

import itertools
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from shopapi.craft.rectify.corners import Points
from shopapi.craft.rectify.outline.edges import Edge, Straight, line_through

# A board's side is darker than its face; by how much at least, and how wide it may seem beside the face.
_LEAST_DROP = 0.08
_SIDE_WIDTH = 0.5
_REACHES = (0.02, 0.008)
_SEGMENTS = 40
_LEAST_KEPT = 0.5


@dataclass(frozen=True, eq=False)
class _Profiles:
    """Lightness from one edge of the silhouette to the other, one row for each stretch along it; 1 is the face's own.

    middles: where the stretches are; starts, spans: from where and how far each profile runs [px].
    """

    table: NDArray[np.float64]
    middles: NDArray[np.float64]
    starts: NDArray[np.float64]
    spans: NDArray[np.float64]


def without_sides(straight: Straight, edges: list[Edge], nadirs: Points) -> list[Edge]:
    """The edges, those that face the camera's feet moved in to where the face ends and the board's own side begins.

    nadirs: (N, 2) places, in pixels of `straight`, where lines straight down may meet; a side of the board is seen
    only where one of them lies outside the face.
    """
    lower, far, upper, butt = edges
    light, across = straight.light, np.ascontiguousarray(straight.light.T)
    rows, columns = light.shape
    depth = float(np.median(lower.at(columns / 2) - upper.at(columns / 2)))
    x, y = nadirs.T
    if (y > lower.at(x)).any():
        lower = _moved_in(light, upper, lower, (butt, far), np.inf) or lower
    if (y < upper.at(x)).any():
        turned = _moved_in(light[::-1], lower.flipped(rows), upper.flipped(rows), (butt, far), np.inf)
        upper = turned.flipped(rows) if turned else upper
    if (x > far.at(y)).any():
        far = _moved_in(across, butt, far, (upper, lower), depth) or far
    if (x < butt.at(y)).any():
        turned = _moved_in(across[::-1], far.flipped(columns), butt.flipped(columns), (upper, lower), depth)
        butt = turned.flipped(columns) if turned else butt
    return [lower, far, upper, butt]


def _moved_in(light: NDArray[np.float32], start: Edge, end: Edge, ends: tuple[Edge, Edge], depth: float) -> Edge | None:
    profiles = _profiles(light, start, end, ends, depth)
    return None if profiles is None else _face_edge(profiles)


def _profiles(
    light: NDArray[np.float32], start: Edge, end: Edge, ends: tuple[Edge, Edge], depth: float
) -> _Profiles | None:
    """Profiles that end at `end`; they begin at `start`, or `depth` pixels before the end."""
    height, width = light.shape
    left, right = (float(edge.at(height / 2)) for edge in ends)
    rim = 0.02 * (right - left)
    first, last = max(0.0, left + rim), min(width, right - rim)
    segments = int(min(_SEGMENTS, (last - first) // 3))
    if segments < 8:
        return None
    bounds = np.linspace(first, last, segments + 1).round().astype(int)
    middles = (bounds[:-1] + bounds[1:]) / 2
    spans = np.minimum(end.at(middles) - start.at(middles), depth)
    starts = end.at(middles) - spans
    if spans.min() < 12:
        return None
    steps = int(np.clip(spans.max(), 40, 700))
    shares = (np.arange(steps) + 0.5) / steps
    table = np.empty((segments, steps))
    for row, (first_column, last_column) in enumerate(itertools.pairwise(bounds)):
        column = np.median(light[:, first_column:last_column], axis=1)
        table[row] = np.interp(starts[row] + shares * spans[row] - 0.5, np.arange(height), column)
    table /= np.maximum(np.median(table[:, steps // 6 : steps // 2], axis=1, keepdims=True), 1.0)
    return _Profiles(table, middles, starts, spans)


def _face_edge(profiles: _Profiles) -> Edge | None:
    """Where the light drops to a darker band that lasts to the silhouette's edge; None where nothing straight does.

    A broad band is looked for over more steps than a narrow one: the finer the look, the more grain is in it.
    """
    steps = profiles.table.shape[1]
    typical = np.median(profiles.table, axis=0)
    for reach in sorted({max(2, round(share * steps)) for share in _REACHES}, reverse=True):
        lines = [_line_near(profiles, place, reach) for place in _candidates(typical, reach)]
        held = [line for line in lines if line is not None]
        if held:  # where several hold, the steepest is the face's edge: within a side nothing is as sharp
            return max(held, key=lambda line: line[0])[1]
    return None


def _candidates(typical: NDArray[np.float64], reach: int) -> list[int]:
    """Steps of the typical profile at which it drops most and beyond which it stays darker."""
    steps = len(typical)
    drops = _drops(typical[None], reach)[0]
    found = []
    for place in range(int(steps * (1 - _SIDE_WIDTH)), steps - reach - 1):
        around = drops[max(0, place - reach) : place + reach + 1]
        after = typical[min(place + reach, steps - 3) : steps - 1]
        before = float(typical[place - 2 * reach : place].mean())
        if drops[place] >= max(_LEAST_DROP, around.max()) and after.max() < before - _LEAST_DROP / 2:
            found.append(place)
    return found


def _line_near(profiles: _Profiles, place: int, reach: int) -> tuple[float, Edge] | None:
    """(drop, edge) along the steepest drops within a few steps of `place`."""
    steps = profiles.table.shape[1]
    window = max(3, round(0.06 * steps))
    from_step = max(1, place - window)
    drops = _drops(profiles.table, reach)[:, from_step : min(steps - 1, place + window + 1)]
    steepest = drops.argmax(axis=1)
    rows = np.arange(len(drops))
    clear = (drops[rows, steepest] > _LEAST_DROP / 2) & (steepest > 0) & (steepest < drops.shape[1] - 1)
    if not clear.any():
        return None
    tops = [_top(drops[row], at) for row, at in zip(rows[clear], steepest[clear], strict=True)]
    shares = (from_step + steepest[clear] + np.array(tops)) / steps
    places = profiles.starts[clear] + shares * profiles.spans[clear]
    straight_px = max(1.2, 0.008 * float(profiles.spans.mean()))
    found = line_through(profiles.middles[clear], places, len(rows), near_px=2 * straight_px)
    if found is None or found.kept < _LEAST_KEPT:
        return None
    return float(np.median(drops[rows, steepest])), found


def _drops(table: NDArray[np.float64], reach: int) -> NDArray[np.float64]:
    """How much lighter it is just before each place than just after it; place p lies between steps p - 1 and p."""
    sums = np.cumsum(
        np.pad(
            table,
            (
                (0, 0),
                (reach + 1, reach),
            ),
            mode="edge",
        ),
        axis=1,
    )
    total = sums[:, reach:] - sums[:, :-reach]
    return (total[:, : table.shape[1]] - total[:, reach : reach + table.shape[1]]) / reach


def _top(values: NDArray[np.float64], at: int) -> float:
    before, top, after = (float(v) for v in values[at - 1 : at + 2])
    bend = before - 2 * top + after
    return 0.0 if bend >= 0 else float(np.clip(0.5 * (before - after) / bend, -0.5, 0.5))
