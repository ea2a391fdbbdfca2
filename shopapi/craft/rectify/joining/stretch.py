"""One shot's part in a face picture: which columns it fills, and its strip of them."""

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass

import cv2
import numpy as np

from shopapi.craft.rectify.lens import Lens
from shopapi.craft.rectify.reference import is_mirrored
from shopapi.craft.rectify.refusals import BeyondHorizonError, NoStretchError
from shopapi.craft.rectify.squaring import Squaring
from shopapi.craft.rectify.warp import Picture, check_picture, draw, finest_mm_per_px, rows_for

GREATEST_PX = 6000


@dataclass(frozen=True, eq=False)
class Stretch:
    """One shot of a face and the stretch of the board it covers.

    image: the upright photo, 8 bit BGR, or a function that reads it (called once, so that only one photo need lie in
    memory at a time). squaring: photo pixels to board mm; straightened pixels where there is a lens. x0_mm, x1_mm:
    along the grain from the butt end [mm]. name: how a refusal calls it.
    """

    image: Picture | Callable[[], Picture]
    squaring: Squaring
    x0_mm: float
    x1_mm: float
    name: str = ""
    lens: Lens | None = None


@dataclass(frozen=True, eq=False)
class Strip:
    """A stretch drawn: `picture` fills the columns from `first` on. `improper`: the reference points are a mirror
    image, as no camera sees a face. finest_mm: what a pixel of the photo covers at best [mm]."""

    picture: Picture
    first: int
    improper: bool
    finest_mm: float

    @property
    def last(self) -> int:
        """The column after its last one."""
        return self.first + self.picture.shape[1]


@dataclass(frozen=True)
class Canvas:
    """The squared picture to be filled."""

    length_mm: float
    width_mm: float
    mm_per_px: float

    @property
    def columns(self) -> int:
        return max(1, math.ceil(self.length_mm / self.mm_per_px - 1e-6))

    @property
    def rows(self) -> int:
        return rows_for(self.width_mm, self.mm_per_px)


def canvas_for(stretches: Sequence[Stretch], length_mm: float, width_mm: float, mm_per_px: float | None) -> Canvas:
    """As fine as the finest shot, or as asked."""
    if mm_per_px is None:
        mm_per_px = min(
            finest_mm_per_px(each.squaring, min(each.x1_mm, length_mm), width_mm, from_mm=max(0.0, each.x0_mm))
            for each in stretches
        )
        mm_per_px = length_mm / max(1, math.ceil(min(length_mm / mm_per_px, GREATEST_PX) - 1e-6))
    return Canvas(length_mm, width_mm, max(mm_per_px, length_mm / (4 * GREATEST_PX)))


def draw_strip(stretch: Stretch, canvas: Canvas) -> Strip | None:
    """The stretch as far as its photo shows it; None where the photo shows nothing of it."""
    image = stretch.image() if callable(stretch.image) else stretch.image
    check_picture(image)
    image = image if image.ndim == 3 else cv2.cvtColor(image, cv2.COLOR_GRAY2BGR).astype(np.uint8, copy=False)
    mm = canvas.mm_per_px
    first = max(0, math.floor(stretch.x0_mm / mm + 0.5))
    last = min(canvas.columns, math.floor(stretch.x1_mm / mm + 0.5))
    columns = _seen(stretch, image, canvas, np.arange(first, max(first, last)))
    if not len(columns):
        return None
    first, count = int(columns[0]), len(columns)
    finest = finest_mm_per_px(
        stretch.squaring, (first + count) * mm, canvas.width_mm, from_mm=min(first * mm, canvas.length_mm)
    )
    window = (first, count, canvas.rows)
    picture = draw(image, stretch.squaring, window, mm, canvas.width_mm, lens=stretch.lens, finest_mm=finest)
    return Strip(picture, first, is_mirrored(stretch.squaring), finest)


def check_stretches(stretches: Sequence[Stretch], length_mm: float) -> None:
    """Refuse shots that cover nothing of the board."""
    if not stretches:
        raise NoStretchError("No shot of this face has been squared yet.")
    for number, each in enumerate(stretches, 1):
        if not (math.isfinite(each.x0_mm) and math.isfinite(each.x1_mm)):
            raise NoStretchError(f"{called(each, number)} does not say which stretch of the board it shows.")
        if min(each.x1_mm, length_mm) - max(each.x0_mm, 0.0) <= 0:
            raise NoStretchError(
                f"{called(each, number)} shows {each.x0_mm:.0f} to {each.x1_mm:.0f} mm from the butt end, which is "
                f"nothing of a board of {length_mm:.0f} mm. Check the distances at its reference points."
            )


def called(stretch: Stretch, number: int) -> str:
    return stretch.name or f"Shot {number}"


def _seen(stretch: Stretch, image: Picture, canvas: Canvas, columns: np.ndarray) -> np.ndarray:
    """The longest run of columns that the photo shows from edge to edge, but for a hair at each."""
    if not len(columns):
        return columns
    x = (columns + 0.5) * canvas.mm_per_px
    height, width = image.shape[:2]
    inside = np.ones(len(columns), bool)
    for share in (0.02, 0.98):
        try:
            places = stretch.squaring.to_photo_px(np.column_stack([x, np.full(len(x), share * canvas.width_mm)]))
        except BeyondHorizonError:
            raise BeyondHorizonError(
                f"{called(stretch, 1)} cannot show all of the stretch it is said to show. Check its reference points."
            ) from None
        places = stretch.lens.bent(places) if stretch.lens else places
        inside &= ((places >= -1) & (places <= (width + 1, height + 1))).all(axis=1)
    runs = np.split(columns, np.flatnonzero(np.diff(inside.astype(int))) + 1)
    runs = [run for run in runs if inside[run[0] - columns[0]]]
    return max(runs, key=len, default=columns[:0])
