"""The four edges of the face, found closely: where the floor begins, and where a board's own side does."""

import itertools
from dataclasses import dataclass
from typing import Any

import cv2
import numpy as np
from numpy.typing import NDArray

from shopapi.craft.rectify.corners import Points
from shopapi.craft.rectify.outline.floor import Difference, Field, Way, hue_off
from shopapi.craft.rectify.warp import Picture

_GREATEST = (2400, 700)
_LEAST = (120, 24)
_SEGMENTS_LONG, _SEGMENTS_SHORT = 48, 16
_TO_CENTRES = np.array([[1.0, 0.0, -0.5], [0.0, 1.0, -0.5], [0.0, 0.0, 1.0]])


@dataclass(frozen=True, eq=False)
class Straight:
    """The rough outline laid out as an upright rectangle with a margin around it.

    light: lightness; away: (.., k) hue or lightness against the floor's, in spreads; back: its pixels to photo
    pixels; margin: (x, y).
    """

    light: Field
    away: Field
    back: NDArray[np.float64]
    margin: tuple[int, int]


@dataclass(frozen=True, eq=False)
class Edge:
    """offset + slope * along, in pixels of `Straight`; scatter: how far its places lie from it [px]; kept: the share
    of places that agree."""

    offset: float
    slope: float
    scatter: float
    kept: float

    def at(self, along: NDArray[np.float64] | float) -> NDArray[np.float64]:
        return np.asarray(self.offset + self.slope * np.asarray(along))

    def flipped(self, size: int) -> "Edge":
        """The edge in a picture of that size turned over."""
        return Edge(size - self.offset, -self.slope, self.scatter, self.kept)


def laid_straight(
    image: Picture, corners: Points, difference: Difference, way: Way, *, margin_share: float = 0.6
) -> Straight:
    """Lay the rough outline out; butt-end lower corner at the lower left. margin_share: of its width, around it."""
    sides = np.hypot(*(np.roll(corners, -1, axis=0) - corners).T)
    columns = int(np.clip(max(sides[0], sides[2]), _LEAST[0], _GREATEST[0]))
    rows = int(np.clip(max(sides[1], sides[3]), _LEAST[1], _GREATEST[1]))
    margin = (max(8, round(min(0.3, margin_share) * min(rows, columns))), max(8, round(margin_share * rows)))
    left, top = margin
    target = np.array(
        [[left, top + rows], [left + columns, top + rows], [left + columns, top], [left, top]], np.float32
    )
    to_straight = cv2.getPerspectiveTransform(corners.astype(np.float32), target).astype(float)
    size = (columns + 2 * left, rows + 2 * top)
    matrix = _TO_CENTRES @ to_straight @ np.linalg.inv(_TO_CENTRES)
    photo = cv2.warpPerspective(image, matrix, size, flags=cv2.INTER_LINEAR, borderMode=cv2.BORDER_REPLICATE)
    lab: Any = cv2.cvtColor(photo.astype(np.float32) / 255, cv2.COLOR_BGR2LAB)
    small = _TO_CENTRES @ to_straight @ np.diag([1 / difference.scale] * 2 + [1.0]) @ np.linalg.inv(_TO_CENTRES)
    floor: Any = cv2.warpPerspective(
        difference.floor, small, size, flags=cv2.INTER_LINEAR, borderMode=cv2.BORDER_REPLICATE
    )
    if way == "hue":
        away = hue_off(lab, floor, difference.spread)
    else:
        away = (lab[..., :1] - floor[..., :1]) / np.float32(difference.spread[0])
    return Straight(lab[..., 0], away, np.linalg.inv(to_straight), margin)


def edges_of(straight: Straight) -> list[Edge] | None:
    """Lower, far-end, upper and butt-end edge of the face, each where its floor begins; None where one is not seen.

    Lower and upper are y by x, the ends x by y.
    """
    rows, columns = straight.light.shape
    left, top = straight.margin
    long, short = (left, columns - left), (top, rows - top)
    turned = straight.away.transpose(1, 0, 2)
    found = (
        _floor_edge(straight.away, long, _SEGMENTS_LONG, after=True),
        _floor_edge(turned, short, _SEGMENTS_SHORT, after=True),
        _floor_edge(straight.away, long, _SEGMENTS_LONG, after=False),
        _floor_edge(turned, short, _SEGMENTS_SHORT, after=False),
    )
    return None if any(edge is None for edge in found) else [edge for edge in found if edge is not None]


def corners_of(edges: list[Edge], back: NDArray[np.float64]) -> Points:
    """Where neighbouring edges meet, in photo pixels, in the order of `CORNER_NAMES`."""
    lower, far, upper, butt = edges
    meets = np.array([_meet(lower, butt), _meet(lower, far), _meet(upper, far), _meet(upper, butt)])
    return cv2.perspectiveTransform(meets[None], back)[0]


def _meet(flat: Edge, steep: Edge) -> tuple[float, float]:
    """x, y of y = flat(x) and x = steep(y)."""
    x = (steep.offset + steep.slope * flat.offset) / (1 - steep.slope * flat.slope)
    return float(x), float(flat.at(x))


def long_edges(straight: Straight) -> list[Points]:
    """Places along the lower and the upper edge, in photo pixels, without those that lie far off a gentle bow."""
    rows, columns = straight.light.shape
    left = straight.margin[0]
    along = (left, columns - left)
    xs, ys = _places(straight.away, along, _SEGMENTS_LONG)
    turned_xs, turned_ys = _places(straight.away[::-1], along, _SEGMENTS_LONG)
    traced = []
    for x, y in ((xs, ys), (turned_xs, rows - turned_ys)):
        if len(x) < _SEGMENTS_LONG // 2:
            continue
        off = np.abs(y - np.polyval(np.polyfit(x, y, 2), x))
        near = off <= 3 * max(0.5, float(np.median(off)))
        places = np.column_stack([x[near], y[near]])
        traced.append(cv2.perspectiveTransform(places[None], straight.back)[0].astype(float))
    return traced


def _floor_edge(away: Field, along: tuple[int, int], segments: int, *, after: bool) -> Edge | None:
    """Where, going outwards (`after`: towards the last row), it falls half way to the floor."""
    if not after:
        mirrored = _floor_edge(away[::-1], along, segments, after=True)
        return mirrored and mirrored.flipped(away.shape[0])
    return line_through(*_places(away, along, segments), segments)


def _places(away: Field, along: tuple[int, int], segments: int) -> tuple[NDArray[Any], NDArray[Any]]:
    """x and y of the fall in each stretch of the lower half that shows one."""
    middle = away.shape[0] // 2
    xs, ys = [], []
    for first, last in _segments(along, segments):
        place = _fall(np.linalg.norm(np.median(away[middle:, first:last], axis=1), axis=1))
        if place is not None:
            xs.append((first + last) / 2)
            ys.append(middle + place)
    return np.array(xs), np.array(ys)


def _segments(along: tuple[int, int], count: int) -> list[tuple[int, int]]:
    """Equal stretches, a little off the corners where two edges blur into each other."""
    first, last = along
    rim = 0.015 * (last - first)
    bounds = np.linspace(first + rim, last - rim, count + 1).round().astype(int)
    return [(a, b) for a, b in itertools.pairwise(bounds) if b > a]


def _fall(away: NDArray) -> float | None:
    """The last place where a profile falls through half of what it is just inside; in pixels from its start."""
    level = float(np.median(away[: max(3, len(away) // 2)]))
    for _ in range(2):
        over = np.flatnonzero(away > level / 2)
        if not len(over) or over[-1] >= len(away) - 1:
            return None
        last = int(over[-1])
        level = float(np.median(away[max(0, last - 9) : max(1, last - 2)]))
    over = np.flatnonzero(away > level / 2)
    if not len(over) or over[-1] >= len(away) - 1:
        return None
    last = int(over[-1])
    inside, outside = float(away[last]), float(away[last + 1])
    return last + 0.5 + (inside - level / 2) / max(1e-6, inside - outside)


def line_through(
    xs: NDArray[np.float64], ys: NDArray[np.float64], wanted: int, *, near_px: float | None = None
) -> Edge | None:
    """A straight line through most of the places; None where fewer than half of those wanted are there.

    With `near_px`, the line that most of them lie near, however far off the rest may be.
    """
    if len(xs) < max(4, wanted * 0.4):
        return None
    weights = np.ones(len(xs))
    if near_px is not None:
        weights = _consensus(xs, ys, near_px)
    slope = offset = 0.0
    off = np.zeros(len(xs))
    for _ in range(12):
        slope, offset = np.polyfit(xs, ys, 1, w=np.sqrt(weights))
        off = np.abs(ys - offset - slope * xs)
        spread = max(0.3, 1.4826 * float(np.median(off))) if near_px is None else near_px / 4
        weights = np.where(off < 4 * spread, (1 - (off / (4 * spread)) ** 2) ** 2, 0.0) + 1e-9
    near = off < 4 * spread
    if not near.any():
        return None
    return Edge(float(offset), float(slope), float(np.sqrt(np.mean(off[near] ** 2))), float(near.sum() / wanted))


def _consensus(xs: NDArray[np.float64], ys: NDArray[np.float64], near_px: float) -> NDArray[np.float64]:
    """1 for the places near the best line through any two that lie well apart, else 0."""
    a, b = np.triu_indices(len(xs), max(1, len(xs) // 4))
    slopes = (ys[b] - ys[a]) / (xs[b] - xs[a])
    off = np.abs(ys[None] - ys[a, None] - slopes[:, None] * (xs[None] - xs[a, None]))
    best = int((off < near_px).sum(axis=1).argmax())
    return (off[best] < near_px) + 1e-9
