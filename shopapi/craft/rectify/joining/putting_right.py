"""Shots laid upside down or mirrored, found by the wood they share with their neighbours."""

import itertools
from collections.abc import Callable, Sequence
from typing import Any, Literal

import numpy as np
from numpy.typing import NDArray

from shopapi.craft.rectify.joining.comparing import NOTHING, SAME_WOOD, Match, compare, grain
from shopapi.craft.rectify.joining.stretch import Canvas, Strip
from shopapi.craft.rectify.refusals import MirroredShotError

Righted = Literal["turned", "mirrored"]
Pose = Literal["as is", "turned", "edges swapped", "ends swapped"]
Pair = tuple[int, int]

_PROPER: tuple[Pose, ...] = ("as is", "turned", "edges swapped", "ends swapped")
# Reference points that no camera sees: one of the two swaps was made, and swapped edges are the likelier slip.
_IMPROPER: tuple[Pose, ...] = ("edges swapped", "ends swapped")
_UNLIKELY: dict[Pose, float] = {"as is": 0.0, "turned": 0.12, "edges swapped": 0.15, "ends swapped": 0.2}
RIGHTED: dict[Pose, Righted | None] = {
    "as is": None,
    "turned": "turned",
    "edges swapped": "mirrored",
    "ends swapped": "mirrored",
}


def posed(picture: NDArray[Any], pose: Pose) -> NDArray[Any]:
    """The strip turned about its middle, or mirrored."""
    match pose:
        case "turned":
            return picture[::-1, ::-1]
        case "edges swapped":
            return picture[::-1]
        case "ends swapped":
            return picture[:, ::-1]
    return picture


def neighbours(strips: Sequence[Strip]) -> list[Pair]:
    """Pairs of strips, in order along the board, that share columns."""
    pairs = itertools.combinations(range(len(strips)), 2)
    return [(a, b) for a, b in pairs if strips[b].first < strips[a].last and strips[a].first < strips[b].last]


def put_right(strips: Sequence[Strip], canvas: Canvas, names: Sequence[str]) -> tuple[list[Pose], dict[Pair, Match]]:
    """How each strip has to be laid, and how the strips laid so agree where they overlap.

    Strips stay as they are unless the wood says clearly otherwise. Errors: MirroredShotError where shots mirror each
    other and there is no telling which of them is right.
    """
    pairs = neighbours(strips)
    grains = [grain(strip.picture, canvas.mm_per_px) for strip in strips]

    def match(pair: Pair, poses: tuple[Pose, Pose]) -> Match:
        a, b = pair
        shared = (max(strips[a].first, strips[b].first), min(strips[a].last, strips[b].last))
        return compare(
            np.ascontiguousarray(posed(grains[a][0], poses[0])),
            np.ascontiguousarray(posed(grains[b][0], poses[1])),
            strips[a].first * canvas.mm_per_px,
            strips[b].first * canvas.mm_per_px,
            (shared[0] * canvas.mm_per_px, shared[1] * canvas.mm_per_px),
            grains[a][1],
        )

    start: list[Pose] = [_IMPROPER[0] if strip.improper else "as is" for strip in strips]
    first = {pair: match(pair, (start[pair[0]], start[pair[1]])) for pair in pairs}
    if all(each.alike >= SAME_WOOD or each is NOTHING for each in first.values()):
        return start, first
    poses = _best_poses(strips, pairs, match)
    matches = {pair: match(pair, (poses[pair[0]], poses[pair[1]])) for pair in pairs}
    _refuse_undecided(strips, poses, matches, names)
    return poses, matches


def _best_poses(
    strips: Sequence[Strip], pairs: Sequence[Pair], match: Callable[[Pair, tuple[Pose, Pose]], Match]
) -> list[Pose]:
    """The poses that make neighbours along the board most alike and change least, by dynamic programming."""
    allowed = [_IMPROPER if strip.improper else _PROPER for strip in strips]
    totals = {pose: -_UNLIKELY[pose] for pose in allowed[0]}
    came_from: list[dict[Pose, Pose]] = []
    for later in range(1, len(strips)):
        pair = (later - 1, later)
        steps: dict[Pose, tuple[float, Pose]] = {}
        for pose in allowed[later]:
            joins = [
                (total + _agreement(match, pairs, pair, (before, pose)), before) for before, total in totals.items()
            ]
            best = max(join[0] for join in joins)
            steps[pose] = next((total, before) for total, before in joins if total == best)
        totals = {pose: total - _UNLIKELY[pose] for pose, (total, _) in steps.items()}
        came_from.append({pose: before for pose, (_, before) in steps.items()})
    poses = [max(totals, key=lambda pose: totals[pose])]
    for sources in reversed(came_from):
        poses.append(sources[poses[-1]])
    return poses[::-1]


def _agreement(
    match: Callable[[Pair, tuple[Pose, Pose]], Match], pairs: Sequence[Pair], pair: Pair, poses: tuple[Pose, Pose]
) -> float:
    """How alike, where that is enough to say it is the same wood; chance likeness moves nothing."""
    if pair not in pairs:
        return 0.0
    alike = match(pair, poses).alike
    return alike if alike >= SAME_WOOD else 0.0


def _refuse_undecided(
    strips: Sequence[Strip], poses: Sequence[Pose], matches: dict[Pair, Match], names: Sequence[str]
) -> None:
    """Among shots tied together by their wood, the mirrored ones must be fewer, or one of them known to be right."""
    group = list(range(len(strips)))
    for (a, b), match in matches.items():
        if match.alike >= SAME_WOOD:
            group = [group[a] if each == group[b] else each for each in group]
    for tied in set(group):
        members = [index for index in range(len(strips)) if group[index] == tied]
        mirrored = [index for index in members if RIGHTED[poses[index]] == "mirrored"]
        if any(strips[index].improper for index in members) or 2 * len(mirrored) < len(members):
            continue
        others = [index for index in members if index not in mirrored]
        raise MirroredShotError(
            f"{names[mirrored[0]]} shows the wood mirrored against {names[others[0]]}, and it cannot be told which of "
            "them is right. Take again the one whose photo was mirrored."
        )
