"""All squared photographs of a face joined to one picture, and what it suggests."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np

from shopapi.boards.photographs.squared import jpeg_of, pixels_of
from shopapi.craft import rectify
from shopapi.craft.marks import Shape, mirror_across, shape_to_dict
from shopapi.craft.suggest import suggest_marks


@dataclass(frozen=True, eq=False)
class Shown:
    """One squared photograph: how to read its upright JPEG, its size, and where it lies on the board.

    homography, lens_k: as in `SquaredPhoto`. name: how a refusal calls it.
    """

    upright: Callable[[], bytes]
    size_px: tuple[int, int]
    homography: list[list[float]]
    lens_k: float | None
    x0_mm: float
    x1_mm: float
    name: str


@dataclass(frozen=True, eq=False)
class JoinedFace:
    """The picture as JPEG, with what `rectify.Joined` tells of it."""

    jpeg: bytes
    width_px: int
    height_px: int
    joined: rectify.Joined


def join_face(shown: Sequence[Shown], length_mm: float, width_mm: float) -> JoinedFace:
    """Join the photographs of a face; rectify.RectifyError where that is impossible."""
    joined = rectify.join_shots([_stretch(each, width_mm) for each in shown], length_mm, width_mm)
    height, width = joined.picture.shape[:2]
    return JoinedFace(jpeg_of(joined.picture, None), width, height, joined)


def suggestions_for(picture: bytes, mm_per_px: float, width_mm: float, face: str) -> list[dict[str, Any]]:
    """Marks that a face's picture suggests; like marks, those of face B lie in face A's coordinates."""

    def placed(shape: Shape) -> Shape:
        return shape if face == "A" else mirror_across(shape, width_mm)

    return [
        {"key": each.key, "kind": each.kind, "shape": shape_to_dict(placed(each.shape)), "score": each.score}
        for each in suggest_marks(pixels_of(picture), mm_per_px)
    ]


def _stretch(shown: Shown, width_mm: float) -> rectify.Stretch:
    homography = np.asarray(shown.homography, dtype=float)
    x0, x1 = shown.x0_mm, shown.x1_mm
    ends = np.array([(x0, 0.0), (x1, 0.0), (x1, width_mm), (x0, width_mm)])
    points = rectify.apply_homography(np.linalg.inv(homography), ends)
    lens = None if shown.lens_k is None else rectify.Lens.of_photo(shown.lens_k, shown.size_px)
    squaring = rectify.Squaring(homography, points, ends, np.zeros(4))
    return rectify.Stretch(lambda: pixels_of(shown.upright()), squaring, x0, x1, shown.name, lens)
