"""From an upright photograph and its corners to the squared picture."""

import io
import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import TypedDict

import cv2
import numpy as np
from PIL import Image

from shopapi.craft import rectify
from shopapi.craft.rectify.joining.stretch import canvas_for, draw_strip

# What more than four points may miss by before a lens is looked for [mm].
RESIDUAL_MM = 1.0


class ReferencePoint(TypedDict):
    """A place in the photo [px] and on the board [mm]: from the butt end, from the lower edge as the face is seen."""

    px: list[float]
    mm: list[float]


@dataclass(frozen=True)
class SquaredPhoto:
    """A photograph squared to true board millimetres.

    jpeg: butt end left, upper edge at row 0; the pixel in column i, row j shows x = (i + 0.5) * mm_per_px and
    y = board width - (j + 0.5) * mm_per_px.
    corners_px: the reference points; corners put in order where they ran clockwise.
    homography: photo pixels to board millimetres, 3 x 3; straightened pixels where there is a lens.
    residual_mm, residuals_mm: how far the points are from where the homography puts them (0 with four), root mean
    square and each.
    slip_mm: how far a mark may be off if every point slipped by 2 px.
    x0_mm, x1_mm: the stretch of the board that the picture shows.
    lens_k: as in rectify.Lens, or None where the lens bends nothing.
    """

    jpeg: bytes
    width_px: int
    height_px: int
    mm_per_px: float
    corners_px: list[list[float]]
    homography: list[list[float]]
    residual_mm: float
    slip_mm: float
    x0_mm: float
    x1_mm: float
    residuals_mm: list[float]
    lens_k: float | None = None


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
    picture, mm_per_px = rectify.warp(pixels_of(upright), squaring, length_mm, width_mm, greatest_px=greatest_px)
    return SquaredPhoto(
        jpeg=jpeg_of(picture, image.info.get("icc_profile")),
        width_px=picture.shape[1],
        height_px=picture.shape[0],
        mm_per_px=mm_per_px,
        corners_px=squaring.points_px.tolist(),
        homography=squaring.homography.tolist(),
        residual_mm=squaring.residual_mm,
        slip_mm=rectify.slip_mm(squaring.points_px, length_mm, width_mm),
        x0_mm=0.0,
        x1_mm=length_mm,
        residuals_mm=squaring.residuals_mm.tolist(),
    )


def square_stretch(upright: bytes, points: Sequence[ReferencePoint], length_mm: float, width_mm: float) -> SquaredPhoto:
    """Square the stretch of a board that its reference points span; rectify.RectifyError where that is impossible."""
    image = Image.open(io.BytesIO(upright))
    kept = checked_points(points, length_mm, width_mm, image.size)
    px, mm = [point["px"] for point in kept], [point["mm"] for point in kept]
    photo = pixels_of(upright)
    fitted = _fitted(photo, px, mm, width_mm)
    along = fitted.squaring.points_mm[:, 0]
    x0, x1 = max(0.0, float(along.min())), min(length_mm, float(along.max()))
    stretch = rectify.Stretch(photo, fitted.squaring, x0, x1, "The photo", fitted.lens)
    canvas = canvas_for([stretch], length_mm, width_mm, None)
    strip = draw_strip(stretch, canvas)
    if strip is None:
        raise rectify.NoStretchError("The photo shows nothing between its points. Check where each of them lies.")
    return SquaredPhoto(
        jpeg=jpeg_of(strip.picture, image.info.get("icc_profile")),
        width_px=strip.picture.shape[1],
        height_px=strip.picture.shape[0],
        mm_per_px=canvas.mm_per_px,
        corners_px=px,
        homography=fitted.squaring.homography.tolist(),
        residual_mm=fitted.squaring.residual_mm,
        slip_mm=rectify.points_slip_mm(fitted.squaring.points_px, fitted.squaring.points_mm),
        x0_mm=max(x0, strip.first * canvas.mm_per_px),
        x1_mm=min(x1, strip.last * canvas.mm_per_px),
        residuals_mm=fitted.squaring.residuals_mm.tolist(),
        lens_k=fitted.lens.k if fitted.lens else None,
    )


def _fitted(
    photo: rectify.Picture, px: list[list[float]], mm: list[list[float]], width_mm: float
) -> rectify.Straightened:
    """The squaring; where its residual calls for a lens, with the board's own edges looked at too."""
    plain = rectify.square(px, mm)
    if len(px) == 4 or plain.residual_mm <= RESIDUAL_MM:
        return rectify.Straightened(plain, None)
    x0, x1 = plain.points_mm[:, 0].min(), plain.points_mm[:, 0].max()
    ends = plain.to_photo_px([(x0, 0), (x1, 0), (x1, width_mm), (x0, width_mm)])
    size = (photo.shape[1], photo.shape[0])
    return rectify.straighten(px, mm, size, rectify.trace_edges(photo, ends), allowed_mm=RESIDUAL_MM)


def pixels_of(jpeg: bytes) -> rectify.Picture:
    """BGR. OpenCV decodes straight into the array that is warped: half the time of going through Pillow."""
    pixels = cv2.imdecode(np.frombuffer(jpeg, np.uint8), cv2.IMREAD_COLOR_BGR | cv2.IMREAD_IGNORE_ORIENTATION)
    if pixels is None:
        raise rectify.PictureError("The photograph cannot be read. Take it again.")
    return pixels.astype(np.uint8, copy=False)


def jpeg_of(picture: rectify.Picture, icc_profile: bytes | None, quality: int = 88) -> bytes:
    out = io.BytesIO()
    rgb = Image.fromarray(np.ascontiguousarray(picture[:, :, ::-1]))
    rgb.save(out, "JPEG", quality=quality, icc_profile=icc_profile)
    return out.getvalue()


def checked_corners(
    corners_px: Sequence[Sequence[float]], length_mm: float, width_mm: float, size_px: tuple[int, int]
) -> list[list[float]]:
    """The corners in order; rectify.RectifyError where a photo of that width and height cannot be squared by them."""
    corners = rectify.square_corners(corners_px, length_mm, width_mm).points_px
    _refuse_outside(corners, size_px)
    return [[float(x), float(y)] for x, y in corners]


def checked_points(
    points: Sequence[ReferencePoint], length_mm: float, width_mm: float, size_px: tuple[int, int]
) -> list[ReferencePoint]:
    """The points put right where only one reading makes sense; rectify.RectifyError where they cannot be."""
    for number, (x, y) in enumerate((point["px"] for point in points), 1):
        if not (0 <= x <= size_px[0] and 0 <= y <= size_px[1]):
            raise rectify.CornersMissingError(
                f"Point {number} ({x:g}, {y:g}) lies outside the photo, which is {size_px[0]} x {size_px[1]} pixels."
            )
    px, mm = rectify.reference_points(
        [point["px"] for point in points], [point["mm"] for point in points], length_mm, width_mm
    )
    return [{"px": a, "mm": b} for a, b in zip(px.tolist(), mm.tolist(), strict=True)]


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
    picture = pixels_of(squared)
    columns = max(1, round(length_mm / mm_per_px))
    finer = length_mm / columns
    rows = max(1, math.ceil(width_mm / finer - 1e-6))
    scale = finer / mm_per_px
    left, top = x_mm / mm_per_px, (across_mm - y_mm - width_mm) / mm_per_px
    # From a pixel of the part back to one of the picture; OpenCV's pixel centres lie at whole numbers.
    back = np.array([[scale, 0, left + (scale - 1) / 2], [0, scale, top + (scale - 1) / 2]])
    flags = cv2.INTER_LINEAR | cv2.WARP_INVERSE_MAP
    part = cv2.warpAffine(picture, back, (columns, rows), flags=flags, borderMode=cv2.BORDER_REPLICATE)
    icc = Image.open(io.BytesIO(squared)).info.get("icc_profile")
    return CutOut(jpeg_of(part.astype(np.uint8, copy=False), icc, 90), columns, rows, finer)


def _refuse_outside(corners: np.ndarray, size: tuple[int, int]) -> None:
    width, height = size
    for name, (x, y) in zip(rectify.CORNER_NAMES, corners, strict=True):
        if not (0 <= x <= width and 0 <= y <= height):
            raise rectify.CornersMissingError(
                f"The {name} corner ({x:g}, {y:g}) lies outside the photo, which is {width} x {height} pixels. "
                "The photo must show all four corners."
            )
