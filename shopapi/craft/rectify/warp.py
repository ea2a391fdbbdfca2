"""Drawing a photograph at true board millimetres."""

import math

import cv2
import numpy as np
from numpy.typing import NDArray

from shopapi.craft.rectify.corners import Points, check_board_size
from shopapi.craft.rectify.lens import Lens
from shopapi.craft.rectify.refusals import PictureError
from shopapi.craft.rectify.squaring import Squaring

Picture = NDArray[np.uint8]

DEFAULT_GREATEST_PX = 4000
_FINEST_MM_PER_PX = 0.1

# cv2 puts pixel centres at whole numbers; ours lie at halves (a photo of 100 px spans 0 to 100).
_TO_CENTRES = np.array([[1.0, 0.0, -0.5], [0.0, 1.0, -0.5], [0.0, 0.0, 1.0]])


def warp(
    image: Picture,
    squaring: Squaring,
    length_mm: float,
    width_mm: float,
    *,
    greatest_px: int = DEFAULT_GREATEST_PX,
    lens: Lens | None = None,
) -> tuple[Picture, float]:
    """The squared picture, and its millimetres per pixel.

    Butt end left, upper edge at row 0: the pixel in column i, row j shows board x = (i + 0.5) * mm_per_px and
    y = width_mm - (j + 0.5) * mm_per_px. As fine as the finest part of the photo, its long side at most `greatest_px`.

    Args: image (H, W) or (H, W, 3) 8 bit, the upright photo; squaring; length_mm, width_mm [mm]; greatest_px [px]
    >= 16; lens, where the squaring takes straightened pixels.
    Errors: PictureError, BoardSizeError.
    Source: PROJECTIVE, resampling by OpenCV.
    """
    check_picture(image)
    if greatest_px < 16:
        raise PictureError("The squared picture needs at least 16 pixels.")
    length, width = check_board_size(length_mm, width_mm)
    finest = finest_mm_per_px(squaring, length, width)
    columns = max(1, math.ceil(min(length / finest, greatest_px * min(1.0, length / width)) - 1e-6))
    mm_per_px = length / columns
    rows = rows_for(width, mm_per_px)
    picture = draw(image, squaring, (0, columns, rows), mm_per_px, width, lens=lens, finest_mm=finest)
    return picture, mm_per_px


def check_picture(image: Picture) -> None:
    """Refuse with `PictureError` what is no 8-bit grey or colour image."""
    if not isinstance(image, np.ndarray) or image.dtype != np.uint8 or image.ndim not in (2, 3) or not image.size:
        raise PictureError("The picture must be an 8-bit colour or grey image.")
    if image.ndim == 3 and image.shape[2] != 3:
        raise PictureError("A colour picture must have three channels.")


def rows_for(width_mm: float, mm_per_px: float) -> int:
    """How many rows a squared picture has."""
    return max(1, math.ceil(width_mm / mm_per_px - 1e-6))


def draw(
    image: Picture,
    squaring: Squaring,
    window: tuple[int, int, int],
    mm_per_px: float,
    width_mm: float,
    *,
    lens: Lens | None = None,
    finest_mm: float,
) -> Picture:
    """A stretch of the squared picture: `window` is its first column, its columns and its rows; `finest_mm` what a
    pixel of the photo covers at best [mm]."""
    first, columns, rows = window
    image, back = _shrunk(image, mm_per_px / finest_mm)
    to_picture = np.array(
        [[1 / mm_per_px, 0, -first], [0, -1 / mm_per_px, width_mm / mm_per_px], [0, 0, 1.0]], dtype=float
    )
    flags, border = cv2.INTER_LINEAR, cv2.BORDER_REPLICATE
    if lens is None:
        matrix = _TO_CENTRES @ to_picture @ squaring.homography @ back @ np.linalg.inv(_TO_CENTRES)
        picture = cv2.warpPerspective(image, matrix, (columns, rows), flags=flags, borderMode=border)
    else:
        places = _photo_places(
            np.linalg.inv(np.asarray(to_picture @ squaring.homography, float)), lens, (columns, rows), back
        )
        picture = cv2.remap(image, *places, flags, borderMode=border)
    return picture.astype(np.uint8, copy=False)


def finest_mm_per_px(squaring: Squaring, length_mm: float, width_mm: float, *, from_mm: float = 0.0) -> float:
    """How few millimetres a photo pixel covers where the stretch from `from_mm` to `length_mm` is seen best (nearest
    the camera); 0.1 at least [mm].
    Source: PROJECTIVE, derivative of a homography.
    """
    ends = [(x, y) for x in (from_mm, length_mm) for y in (0.0, width_mm)]
    finest = math.inf
    for corner in squaring.to_photo_px(np.array(ends)):
        around = squaring.to_board_mm(corner + np.array([[0.5, 0], [-0.5, 0], [0, 0.5], [0, -0.5]]))
        jacobian = np.column_stack([around[0] - around[1], around[2] - around[3]])
        finest = min(finest, float(np.linalg.svd(jacobian, compute_uv=False)[1]))
    return max(finest, _FINEST_MM_PER_PX)


def _shrunk(image: Picture, factor: float) -> tuple[Picture, NDArray[np.float64]]:
    """Average the photo down first when the picture is much coarser than it, so that fine grain does not shimmer.

    Gives the smaller photo and the map from its pixels back to the photo's.
    """
    if factor < 1.5:
        return image, np.eye(3)
    height, width = image.shape[:2]
    size = (max(1, round(width / factor)), max(1, round(height / factor)))
    smaller = cv2.resize(image, size, interpolation=cv2.INTER_AREA)
    return smaller.astype(np.uint8, copy=False), np.diag([width / size[0], height / size[1], 1.0])


def _photo_places(
    to_straightened: NDArray[np.float64], lens: Lens, size: tuple[int, int], back: NDArray[np.float64]
) -> tuple[NDArray[np.float32], NDArray[np.float32]]:
    """Where in the (shrunk) photo each pixel of the picture lies, for cv2.remap."""
    columns, rows = size
    xs, ys = np.meshgrid(np.arange(columns) + 0.5, np.arange(rows) + 0.5)
    picture: Points = np.column_stack([xs.ravel(), ys.ravel(), np.ones(xs.size)]) @ to_straightened.T
    photo = lens.bent(picture[:, :2] / picture[:, 2:])
    x = photo[:, 0] / back[0, 0] - 0.5
    y = photo[:, 1] / back[1, 1] - 0.5
    return x.reshape(rows, columns).astype(np.float32), y.reshape(rows, columns).astype(np.float32)
