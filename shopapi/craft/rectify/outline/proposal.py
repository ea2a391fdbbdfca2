"""A board's four corners proposed from its photograph, for the maker to nudge."""

from dataclasses import dataclass
from typing import Literal

import cv2
import numpy as np
from numpy.typing import ArrayLike

from shopapi.craft.rectify.corners import Points, corners_in_order, points_of
from shopapi.craft.rectify.outline.edges import Edge, Straight, corners_of, edges_of, laid_straight, long_edges
from shopapi.craft.rectify.outline.floor import Difference, Way, from_floor
from shopapi.craft.rectify.outline.own_side import without_sides
from shopapi.craft.rectify.outline.silhouette import Silhouette, silhouette
from shopapi.craft.rectify.refusals import RectifyError
from shopapi.craft.rectify.warp import Picture, check_picture

How = Literal["outline", "cards", "none"]

_WAYS: tuple[Way, ...] = ("hue", "light")
_ROUNDS = 1
# At this the other way of looking is not tried.
_SURE_ENOUGH = 0.6
_LEAST_SURE = 0.2
# Bark is darker than this share of the face's lightness; a board's own side in the shade is not. From the drawn boards.
_BARK = 0.6


@dataclass(frozen=True, eq=False)
class Proposal:
    """Where a board seems to lie in its photograph.

    corners_px: (4, 2) in the order of `CORNER_NAMES`, pixels of the photo as handed over, or None where no outline
    convinces. The butt end is taken to be the left one, or the nearer one where the board runs away from the camera.
    sure: 0 (a guess) to 1. how: what it rests on.
    """

    corners_px: Points | None
    sure: float
    how: How


def outline_corners(image: Picture, *, length_mm: float | None = None, width_mm: float | None = None) -> Proposal:
    """Propose a board's corners from its contrast with what lies around it.

    The board must lie alone, whole, on a floor of about one colour. Its own side, where it is seen below the face, is
    left out. Hue is looked at first, so that shadows do no harm; lightness where hue shows nothing.

    Args: image (H, W, 3) 8 bit BGR, the upright photo; length_mm, width_mm [mm], the tape's sizes where known.
    Errors: PictureError.
    Source: OWN, contrast with the floor.
    """
    check_picture(image)
    image = image if image.ndim == 3 else cv2.cvtColor(image, cv2.COLOR_GRAY2BGR).astype(np.uint8, copy=False)
    difference = from_floor(image)
    best = Proposal(None, 0.0, "none")
    for way in _WAYS:
        found = _outline(image, difference, way)
        if found.sure > best.sure:
            best = found
        if best.sure >= _SURE_ENOUGH:
            break
    if best.corners_px is None or best.sure < _LEAST_SURE or not _possible(best.corners_px, length_mm, width_mm):
        return Proposal(None, 0.0, "none")
    return best


def trace_edges(image: Picture, corners_px: ArrayLike) -> list[Points]:
    """Places along the lower and the upper edge of a board, for `straighten`; an edge that is not seen is left out.

    Where the board's own side shows, its far rim is traced, which is as straight.

    Args: image (H, W, 3) 8 bit BGR; corners_px, four (x, y) in the order of `CORNER_NAMES`, of the board or of the
    stretch of it that the photo shows [px].
    Errors: PictureError, CornersMissingError.
    Source: OWN, contrast with the floor.
    """
    check_picture(image)
    corners = points_of(corners_px)
    image = image if image.ndim == 3 else cv2.cvtColor(image, cv2.COLOR_GRAY2BGR).astype(np.uint8, copy=False)
    difference = from_floor(image)
    for way in _WAYS:
        edges = long_edges(laid_straight(image, corners[:4], difference, way))
        if edges:
            return edges
    return []


def _outline(image: Picture, difference: Difference, way: Way) -> Proposal:
    found = silhouette(difference.away(way))
    if found is None:
        return Proposal(None, 0.0, "none")
    corners = found.corners / difference.scale
    edges: list[Edge] | None = None
    straight = laid_straight(image, corners, difference, way)
    for _ in range(_ROUNDS):
        edges = edges_of(straight)
        if edges is None:
            return Proposal(None, 0.0, "none")
        corners = corners_of(edges, straight.back)
        if not _convex(corners):
            return Proposal(None, 0.0, "none")
        straight = laid_straight(image, corners, difference, way, margin_share=0.2)
    edges = edges_of(straight)
    if edges is None:
        return Proposal(None, 0.0, "none")
    outer = corners_of(edges, straight.back)
    nadirs = cv2.perspectiveTransform(_nadirs(image)[None], np.linalg.inv(straight.back))[0]
    own = without_sides(straight, edges, nadirs)
    inner = corners_of(own, straight.back)
    if not (_convex(outer) and _convex(inner)):
        return Proposal(None, 0.0, "none")
    sure = _sure(found, edges, outer * difference.scale) * (1 - _ragged(straight, own))
    return Proposal(inner, round(sure, 3), "outline")


def _sure(found: Silhouette, edges: list[Edge], outer: Points) -> float:
    """1 for a patch that fills its four straight edges, stands well out from the floor and lies whole in the photo."""
    filled = _ramp(found.filled(outer), 0.80, 0.95)
    straight = min(edge.kept for edge in edges)
    contrast = _ramp(found.contrast, 3.0, 10.0)
    whole = 1 - _ramp(found.cut_off, 0.01, 0.05)
    return filled * straight * contrast * whole


def _ragged(straight: Straight, edges: list[Edge]) -> float:
    """0 to 0.6: how much bark-dark there is along a long edge, where nobody can say for sure what the face is."""
    lower, far, upper, butt = edges
    rows, columns = straight.light.shape
    first, last = sorted((max(0, int(butt.at(rows / 2))), min(columns, int(far.at(rows / 2)))))
    xs = np.linspace(first, last - 1, 200).astype(int)
    y0, y1 = upper.at(xs), lower.at(xs)
    shares = np.linspace(0.01, 0.99, 100)
    places = np.clip(y0 + shares[:, None] * (y1 - y0), 0, rows - 1).astype(int)
    light = straight.light[places, xs]
    dark = light < _BARK * np.median(light[20:80])
    return 0.6 * _ramp(max(float(dark[:15].mean()), float(dark[-15:].mean())), 0.02, 0.12)


def _ramp(value: float, low: float, high: float) -> float:
    return min(1.0, max(0.0, (value - low) / (high - low)))


def _nadirs(image: Picture) -> Points:
    """Where lines straight down meet, below the photo's middle, for a phone held level and looking down between 40
    and 75 degrees. Common practice, no source."""
    height, width = image.shape[:2]
    focal = 0.75 * max(height, width)
    return np.array([[width / 2, height / 2 + focal / np.tan(np.radians(angle))] for angle in (40, 55, 75)])


def _convex(corners: Points) -> bool:
    return bool(np.isfinite(corners).all() and cv2.isContourConvex(corners.astype(np.float32)))


def _possible(corners: Points, length_mm: float | None, width_mm: float | None) -> bool:
    """Whether a board of these sizes can look like that; foreshortening never turns its long side into its short."""
    if length_mm is None or width_mm is None:
        return True
    try:
        corners_in_order(corners, length_mm, width_mm)
    except RectifyError:
        return False
    return True
