"""From an upright photograph and its corners to the squared picture."""

import io
import math
from collections.abc import Sequence
from dataclasses import dataclass

import cv2
import numpy as np
from PIL import Image

from shopapi.craft import rectify


@dataclass(frozen=True)
class SquaredPhoto:
    """A photograph squared to true board millimetres.

    jpeg: butt end left, upper edge at row 0; the pixel in column i, row j shows x = (i + 0.5) * mm_per_px and
    y = board width - (j + 0.5) * mm_per_px.
    corners_px: as given, or put in order where they ran clockwise.
    homography: photo pixels to board millimetres, 3 x 3.
    residual_mm: how far the corners are from where the homography puts them (0 with four).
    slip_mm: how far a mark may be off if every corner slipped by 2 px.
    """

    jpeg: bytes
    width_px: int
    height_px: int
    mm_per_px: float
    corners_px: list[list[float]]
    homography: list[list[float]]
    residual_mm: float
    slip_mm: float


def square_photo(
    upright: bytes,
    corners_px: Sequence[Sequence[float]],
    length_mm: float,
    width_mm: float,
    *,
    greatest_px: int = rectify.DEFAULT_GREATEST_PX,
) -> SquaredPhoto:
    """Square an upright photograph, as `Intake.upright` holds it; rectify.RectifyError where that is impossible."""
    image = Image.open(io.BytesIO(upright))
    corners = checked_corners(corners_px, length_mm, width_mm, image.size)
    squaring = rectify.square_corners(corners, length_mm, width_mm)
    # OpenCV decodes straight into the array that is warped: half the time of going through Pillow.
    photo = cv2.imdecode(np.frombuffer(upright, np.uint8), cv2.IMREAD_COLOR_BGR | cv2.IMREAD_IGNORE_ORIENTATION)
    if photo is None:
        raise rectify.PictureError("The photograph cannot be read. Take it again.")
    picture, mm_per_px = rectify.warp(
        photo.astype(np.uint8, copy=False), squaring, length_mm, width_mm, greatest_px=greatest_px
    )
    out = io.BytesIO()
    rgb = Image.fromarray(np.ascontiguousarray(picture[:, :, ::-1]))
    rgb.save(out, "JPEG", quality=88, icc_profile=image.info.get("icc_profile"))
    return SquaredPhoto(
        jpeg=out.getvalue(),
        width_px=picture.shape[1],
        height_px=picture.shape[0],
        mm_per_px=mm_per_px,
        corners_px=squaring.points_px.tolist(),
        homography=squaring.homography.tolist(),
        residual_mm=squaring.residual_mm,
        slip_mm=rectify.slip_mm(squaring.points_px, length_mm, width_mm),
    )


def checked_corners(
    corners_px: Sequence[Sequence[float]], length_mm: float, width_mm: float, size_px: tuple[int, int]
) -> list[list[float]]:
    """The corners in order; rectify.RectifyError where a photo of that width and height cannot be squared by them."""
    corners = rectify.square_corners(corners_px, length_mm, width_mm).points_px
    _refuse_outside(corners, size_px)
    return [[float(x), float(y)] for x, y in corners]


@dataclass(frozen=True)
class CutOut:
    """A part of a squared picture, a squared picture itself."""

    jpeg: bytes
    width_px: int
    height_px: int
    mm_per_px: float


def cut_out(
    squared: bytes, mm_per_px: float, across_mm: float, x_mm: float, y_mm: float, length_mm: float, width_mm: float
) -> CutOut:
    """The part of a squared picture whose lower left corner lies at x, y of the picture's own board mm.

    mm_per_px, across_mm: of the squared picture; length_mm, width_mm: of the part. Not a pixel is lost or moved by
    more than resampling does: the part's scale differs by less than a pixel over its length.
    """
    picture = cv2.imdecode(np.frombuffer(squared, np.uint8), cv2.IMREAD_COLOR_BGR | cv2.IMREAD_IGNORE_ORIENTATION)
    if picture is None:
        raise rectify.PictureError("The squared picture cannot be read. Place the corners again.")
    columns = max(1, round(length_mm / mm_per_px))
    finer = length_mm / columns
    rows = max(1, math.ceil(width_mm / finer - 1e-6))
    scale = finer / mm_per_px
    left, top = x_mm / mm_per_px, (across_mm - y_mm - width_mm) / mm_per_px
    # From a pixel of the part back to one of the picture; OpenCV's pixel centres lie at whole numbers.
    back = np.array([[scale, 0, left + (scale - 1) / 2], [0, scale, top + (scale - 1) / 2]])
    flags = cv2.INTER_LINEAR | cv2.WARP_INVERSE_MAP
    part = cv2.warpAffine(picture, back, (columns, rows), flags=flags, borderMode=cv2.BORDER_REPLICATE)
    out = io.BytesIO()
    icc = Image.open(io.BytesIO(squared)).info.get("icc_profile")
    Image.fromarray(np.ascontiguousarray(part[:, :, ::-1])).save(out, "JPEG", quality=90, icc_profile=icc)
    return CutOut(out.getvalue(), columns, rows, finer)


def _refuse_outside(corners: np.ndarray, size: tuple[int, int]) -> None:
    width, height = size
    for name, (x, y) in zip(rectify.CORNER_NAMES, corners, strict=True):
        if not (0 <= x <= width and 0 <= y <= height):
            raise rectify.CornersMissingError(
                f"The {name} corner ({x:g}, {y:g}) lies outside the photo, which is {width} x {height} pixels. "
                "The photo must show all four corners."
            )
