"""From the corners of two cards, and of the board where they are known, to the plane they lie on."""

from collections.abc import Callable
from dataclasses import dataclass

import cv2
import numpy as np
from numpy.typing import NDArray

from shopapi.craft.rectify.cards.print_model import MARKER_SIDE_MM, corners_mm
from shopapi.craft.rectify.corners import Points

Numbers = NDArray[np.float64]

# How far a corner may be off where it was found: a printed one, and one of the board's outline [px].
_CARD_PX, _OUTLINE_PX = 0.3, 1.5
_STEPS = 60


@dataclass(frozen=True, eq=False)
class Plane:
    """to_px: 3x3, millimetres on the plane to photo pixels. sides_mm: the board's length and width, where its corners
    were known. off_px: how far each of the eight card corners is from where it should be."""

    to_px: Numbers
    sides_mm: tuple[float, float] | None
    off_px: Numbers


def plane_of_cards(cards_px: tuple[Points, Points]) -> Plane | None:
    """The plane by the cards alone; millimetres count from the first card's middle, x towards the second's.

    Two unknowns, the vanishing line, are found first by making both cards the same parallelogram; then everything
    together by least squares in the photo.
    """
    every = np.concatenate(cards_px)
    centre, scale = every.mean(axis=0), np.hypot(*(every - every.mean(axis=0)).T).mean()
    shrunk = tuple((card - centre) / scale for card in cards_px)

    def differ(line: Numbers) -> Numbers:
        first, second = (_gram(_flattened(card, line)) for card in shrunk)
        return (first - second) / (np.abs(first) + np.abs(second)).sum()

    line = _least_squares(differ, np.zeros(2))
    flat = [_flattened(card, line) for card in shrunk]
    both = (_gram(flat[0]) + _gram(flat[1])) / 2
    gram = np.array([[both[0], both[1]], [both[1], both[2]]])
    if not np.isfinite(gram).all() or np.linalg.det(gram) <= 0:
        return None
    to_mm = np.linalg.inv(np.linalg.cholesky(gram)) * MARKER_SIDE_MM
    if np.linalg.det(to_mm) > 0:  # a face is seen with y up, the photo's y runs down
        to_mm = np.diag([1.0, -1.0]) @ to_mm
    start = [card @ to_mm.T for card in flat]
    towards = start[1].mean(axis=0) - start[0].mean(axis=0)
    turn = _turn(-np.arctan2(towards[1], towards[0]))
    placed = [(card - start[0].mean(axis=0)) @ turn.T for card in start]
    poses = np.concatenate([_pose(card) for card in placed])
    mm = np.concatenate(placed).astype(np.float32)
    found, _ = cv2.findHomography(mm, every.astype(np.float32), 0)
    if found is None:
        return None
    # The frame is the first card's middle and the second's direction, so three numbers of the poses are fixed.
    free = np.array([2, 3, 5])

    def misses(values: Numbers) -> Numbers:
        all_poses = poses.copy()
        all_poses[free] = values[8:]
        all_poses[[0, 1, 4]] = 0.0
        return _misses(np.append(values[:8], 1.0).reshape(3, 3), all_poses, cards_px)

    solved = _least_squares(misses, np.concatenate([(found / found[2, 2]).ravel()[:8], poses[free]]))
    off = misses(solved)
    return Plane(np.append(solved[:8], 1.0).reshape(3, 3), None, np.hypot(*off.reshape(-1, 2).T))


def plane_of_board(cards_px: tuple[Points, Points], outline_px: Points) -> Plane | None:
    """The plane by the cards and the board's four corners, which are those of a rectangle of unknown sides."""
    unit = np.array([[0, 0], [1, 0], [1, 1], [0, 1]], np.float32)
    to_unit = cv2.getPerspectiveTransform(outline_px.astype(np.float32), unit).astype(float)
    seen = [cv2.perspectiveTransform(card[None], to_unit)[0] for card in cards_px]
    grams = np.array([_gram(card) for card in seen])
    if not (grams[:, [0, 2]] > 0).all():
        return None
    sides = np.exp(np.mean(np.log(MARKER_SIDE_MM / np.sqrt(grams[:, [0, 2]])), axis=0))
    start = np.concatenate([outline_px.ravel(), sides, *[_pose(card * sides) for card in seen]])

    def misses(values: Numbers) -> Numbers:
        to_px = _rectangle_to_px(values[:8].reshape(4, 2), values[8], values[9])
        return np.concatenate(
            [
                _misses(to_px, values[10:], cards_px) / _CARD_PX,
                (values[:8] - outline_px.ravel()) / _OUTLINE_PX,
            ]
        )

    solved = _least_squares(misses, start)
    if not (solved[8:10] > 0).all():
        return None
    to_px = _rectangle_to_px(solved[:8].reshape(4, 2), solved[8], solved[9])
    off = _misses(to_px, solved[10:], cards_px)
    return Plane(to_px, (float(solved[8]), float(solved[9])), np.hypot(*off.reshape(-1, 2).T))


def _rectangle_to_px(corners_px: Points, length: float, width: float) -> Numbers:
    """In double precision, which cv2.getPerspectiveTransform does not keep."""
    mm = np.array([[0, 0], [length, 0], [length, width], [0, width]])
    rows, right = [], []
    for (x, y), (u, v) in zip(mm, corners_px, strict=True):
        rows += [[x, y, 1, 0, 0, 0, -u * x, -u * y], [0, 0, 0, x, y, 1, -v * x, -v * y]]
        right += [u, v]
    return np.append(np.linalg.solve(np.array(rows), np.array(right)), 1.0).reshape(3, 3)


def _misses(to_px: Numbers, poses: Numbers, cards_px: tuple[Points, Points]) -> Numbers:
    off = []
    for (x, y, angle), card in zip(poses.reshape(2, 3), cards_px, strict=True):
        places = corners_mm() @ _turn(angle).T + (x, y)
        moved = np.column_stack([places, np.ones(4)]) @ to_px.T
        off.append((moved[:, :2] / moved[:, 2:] - card).ravel())
    return np.concatenate(off)


def _flattened(card: Points, line: Numbers) -> Points:
    """The card with the vanishing line `line` (1 + line . p = 0) sent to infinity."""
    return card / (1 + card @ line)[:, None]


def _gram(card: Points) -> Numbers:
    """xx, xy, yy of the sum of its two mean edges' outer products: for a square of side s, s^2 times the identity,
    however it is turned."""
    along = (card[1] - card[0] + card[2] - card[3]) / 2
    down = (card[3] - card[0] + card[2] - card[1]) / 2
    sums = np.outer(along, along) + np.outer(down, down)
    return np.array([sums[0, 0], sums[0, 1], sums[1, 1]])


def _pose(card: Points) -> Numbers:
    """x, y of a card's middle and the turn of its upper edge."""
    edge = card[1] - card[0] + card[2] - card[3]
    return np.array([*card.mean(axis=0), np.arctan2(edge[1], edge[0])])


def _turn(angle: float) -> Numbers:
    return np.array([[np.cos(angle), -np.sin(angle)], [np.sin(angle), np.cos(angle)]])


def _least_squares(of: Callable[[Numbers], Numbers], start: Numbers) -> Numbers:
    """Levenberg-Marquardt with slopes by central differences; for a handful of unknowns."""
    values, missed, damping = start, of(start), 1e-3
    for _ in range(_STEPS):
        sizes = np.maximum(np.abs(values), 1e-4) * 1e-6
        slopes = np.column_stack(
            [(of(values + step) - of(values - step)) / (2 * step.sum()) for step in np.diag(sizes)]
        )
        held = np.sqrt(damping) * np.diag(np.linalg.norm(slopes, axis=0) + 1e-12)
        target = np.concatenate([-missed, np.zeros(len(values))])
        step = np.linalg.lstsq(np.concatenate([slopes, held]), target, rcond=None)[0]
        tried = of(values + step)
        if np.isfinite(tried).all() and tried @ tried < missed @ missed:
            values, missed, damping = values + step, tried, damping / 10
            if np.abs(step / np.maximum(np.abs(values), 1e-9)).max() < 1e-12:
                break
        elif damping > 1e9:
            break
        else:
            damping *= 10
    return values
