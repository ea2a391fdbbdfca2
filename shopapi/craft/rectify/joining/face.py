"""The face picture: strips laid side by side, lit alike, blended where they overlap."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from shopapi.craft.rectify.corners import check_board_size
from shopapi.craft.rectify.joining.comparing import SAME_WOOD, Match
from shopapi.craft.rectify.joining.putting_right import RIGHTED, Pair, Righted, posed, put_right
from shopapi.craft.rectify.joining.stretch import (
    Canvas,
    Stretch,
    Strip,
    called,
    canvas_for,
    check_stretches,
    draw_strip,
)
from shopapi.craft.rectify.refusals import NoStretchError
from shopapi.craft.rectify.warp import Picture

# Ends of a gap shorter than this are a rounding of the tape [mm].
_LEAST_GAP_MM = 1.0
_GREATEST_GAIN = 1.8
# How fast one shot gives way to the next; 1 would blend over the whole overlap and show everything twice where two
# shots disagree by a millimetre.
_STEEPNESS = 5
_GAP_COLOUR = 128


@dataclass(frozen=True)
class Overlap:
    """Where two shots show the same stretch.

    disagreement_mm: how far apart they put the same wood [mm], or None where the wood gives nothing to go by (or is
    not the same wood at all).
    """

    x0_mm: float
    x1_mm: float
    disagreement_mm: float | None


@dataclass(frozen=True, eq=False)
class Joined:
    """A face's picture made of its shots: butt end left, upper edge at row 0, `mm_per_px` both ways.

    gaps: stretches that no shot shows, grey in the picture [mm]. righted: for each stretch in the order given, how it
    was put right.
    """

    picture: Picture
    mm_per_px: float
    gaps: tuple[tuple[float, float], ...]
    overlaps: tuple[Overlap, ...]
    righted: tuple[Righted | None, ...]


def join_shots(
    stretches: Sequence[Stretch], length_mm: float, width_mm: float, mm_per_px: float | None = None
) -> Joined:
    """Join a face's shots; the order they are given in makes no difference to the picture.

    A shot that lies upside down, or mirrored, against its neighbours is put right where their common wood tells which
    one it is.

    Args: stretches, at least one; length_mm, width_mm, the board's [mm]; mm_per_px [mm], as fine as the finest shot
    (6000 pixels along at most) where None.
    Errors: BoardSizeError, PictureError, NoStretchError, MirroredShotError, BeyondHorizonError.
    Accuracy: a place in the picture is where the reference points of the shot that dominates there put it.
    Source: OWN, stretches laid side by side and blended.
    """
    length, width = check_board_size(length_mm, width_mm)
    check_stretches(stretches, length)
    canvas = canvas_for(stretches, length, width, mm_per_px)
    order = sorted(range(len(stretches)), key=lambda index: _place(stretches[index]))
    drawn = [(index, strip) for index in order if (strip := draw_strip(stretches[index], canvas)) is not None]
    if not drawn:
        raise NoStretchError("The photos show nothing of the stretches they are said to show. Check their points.")
    strips = [strip for _, strip in drawn]
    names = [called(stretches[index], index + 1) for index, _ in drawn]
    poses, matches = put_right(strips, canvas, names)
    laid = [
        replace(strip, picture=np.ascontiguousarray(posed(strip.picture, pose)))
        for strip, pose in zip(strips, poses, strict=True)
    ]
    righted: list[Righted | None] = [None] * len(stretches)
    for (index, _), pose in zip(drawn, poses, strict=True):
        righted[index] = RIGHTED[pose]
    return Joined(
        _blended(laid, _gains(laid, matches), canvas),
        canvas.mm_per_px,
        _gaps(laid, canvas),
        tuple(_overlap(laid, pair, match, canvas) for pair, match in matches.items()),
        tuple(righted),
    )


def _place(stretch: Stretch) -> tuple[float, ...]:
    """Orders shots along the board, and equal ones by how they were taken, never by how they were given."""
    return (stretch.x0_mm, stretch.x1_mm, *stretch.squaring.homography.ravel().tolist())


def _gains(strips: Sequence[Strip], matches: dict[Pair, Match]) -> NDArray[np.float64]:
    """(strips, 3) factors that make overlaps equally light, by least squares on logarithms; their mean stays 1."""
    rows, steps = [], []
    for (a, b), match in matches.items():
        if match.alike < SAME_WOOD:
            continue
        first, last = max(strips[a].first, strips[b].first), min(strips[a].last, strips[b].last)
        light = [
            np.log(each.picture[:, first - each.first : last - each.first].reshape(-1, 3).mean(axis=0) + 1.0)
            for each in (strips[a], strips[b])
        ]
        row = np.zeros(len(strips))
        row[a], row[b] = 1.0, -1.0
        rows.append(row)
        steps.append(light[1] - light[0])
    if not rows:
        return np.ones((len(strips), 3))
    # Weak pull of every gain to 1 settles what the overlaps leave open.
    solved = np.linalg.lstsq(
        np.vstack([*rows, 1e-3 * np.eye(len(strips))]),
        np.vstack([*steps, np.zeros((len(strips), 3))]),
        rcond=None,
    )[0]
    return np.clip(np.exp(solved), 1 / _GREATEST_GAIN, _GREATEST_GAIN)


def _blended(strips: Sequence[Strip], gains: NDArray[np.float64], canvas: Canvas) -> Picture:
    if len(strips) == 1 and strips[0].picture.shape[1] == canvas.columns:
        return strips[0].picture
    total = np.zeros((canvas.rows, canvas.columns, 3), np.float32)
    weights = np.zeros(canvas.columns, np.float32)
    for strip, gain in zip(strips, gains, strict=True):
        columns = np.arange(strip.first, strip.last)
        from_end = np.minimum(columns - strip.first, strip.last - 1 - columns) + 0.5
        # Nearer shots show more, so they win over one of the whole board.
        weight = (from_end / strip.finest_mm / canvas.columns).astype(np.float32) ** _STEEPNESS + np.float32(1e-30)
        total[:, strip.first : strip.last] += strip.picture * (weight[:, None] * gain.astype(np.float32))
        weights[strip.first : strip.last] += weight
    shown = weights > 0
    total[:, shown] /= weights[shown, None]
    total[:, ~shown] = _GAP_COLOUR
    return np.clip(np.rint(total), 0, 255).astype(np.uint8)


def _gaps(strips: Sequence[Strip], canvas: Canvas) -> tuple[tuple[float, float], ...]:
    gaps, reached = [], 0
    for strip in sorted(strips, key=lambda each: each.first):
        if strip.first > reached:
            gaps.append((reached, strip.first))
        reached = max(reached, strip.last)
    gaps.append((reached, canvas.columns))
    in_mm = [(first * canvas.mm_per_px, min(last * canvas.mm_per_px, canvas.length_mm)) for first, last in gaps]
    return tuple((x0, x1) for x0, x1 in in_mm if x1 - x0 >= _LEAST_GAP_MM)


def _overlap(strips: Sequence[Strip], pair: Pair, match: Match, canvas: Canvas) -> Overlap:
    a, b = (strips[index] for index in pair)
    x0, x1 = (max(a.first, b.first) * canvas.mm_per_px, min(a.last, b.last) * canvas.mm_per_px)
    return Overlap(x0, min(x1, canvas.length_mm), match.apart_mm if match.alike >= SAME_WOOD else None)
