"""Drawing a photograph at true board millimetres."""

import math

import cv2
import numpy as np
from numpy.typing import NDArray

from shopapi.craft.rectify.corners import check_board_size, corner_points_mm
from shopapi.craft.rectify.refusals import PictureError
from shopapi.craft.rectify.squaring import Squaring

Picture = NDArray[np.uint8]

DEFAULT_GREATEST_PX = 4000
_FINEST_MM_PER_PX = 0.1

# cv2 puts pixel centres at whole numbers; ours lie at halves (a photo of 100 px spans 0 to 100).
_TO_CENTRES = np.array([[1.0, 0.0, -0.5], [0.0, 1.0, -0.5], [0.0, 0.0, 1.0]])


def warp(
    image: Picture, squaring: Squaring, length_mm: float, width_mm: float, *, greatest_px: int = DEFAULT_GREATEST_PX
) -> tuple[Picture, float]:
    """The squared picture, and its millimetres per pixel.

    Butt end left, upper edge at row 0: the pixel in column i, row j shows board x = (i + 0.5) * mm_per_px and
    y = width_mm - (j + 0.5) * mm_per_px. As fine as the finest part of the photo, its long side at most `greatest_px`.

    Args: image (H, W) or (H, W, 3) 8 bit, the upright photo; squaring; length_mm, width_mm [mm]; greatest_px [px]
    >= 16.
    Errors: PictureError, BoardSizeError.
    """
    if image.dtype != np.uint8 or image.ndim not in (2, 3) or min(image.shape[:2]) < 1:
        raise PictureError("The picture must be an 8-bit colour or grey image.")
    if greatest_px < 16:
        raise PictureError("The squared picture needs at least 16 pixels.")
    length, width = check_board_size(length_mm, width_mm)
    finest = finest_mm_per_px(squaring, length, width)
    columns = max(1, math.ceil(min(length / finest, greatest_px * min(1.0, length / width)) - 1e-6))
    mm_per_px = length / columns
    rows = max(1, math.ceil(width / mm_per_px - 1e-6))
    image, squaring_matrix = _shrunk(image, squaring.homography, mm_per_px / finest)
    to_picture = np.array([[1 / mm_per_px, 0, 0], [0, -1 / mm_per_px, width / mm_per_px], [0, 0, 1]])
    matrix = _TO_CENTRES @ to_picture @ squaring_matrix @ np.linalg.inv(_TO_CENTRES)
    flags = cv2.INTER_LINEAR
    picture = cv2.warpPerspective(image, matrix, (columns, rows), flags=flags, borderMode=cv2.BORDER_REPLICATE)
    return picture.astype(np.uint8, copy=False), mm_per_px


def finest_mm_per_px(squaring: Squaring, length_mm: float, width_mm: float) -> float:
    """How few millimetres a photo pixel covers where the board is seen best (nearest the camera); 0.1 at least [mm]."""
    corners_px = squaring.to_photo_px(corner_points_mm(length_mm, width_mm))
    finest = math.inf
    for corner in corners_px:
        around = squaring.to_board_mm(corner + np.array([[0.5, 0], [-0.5, 0], [0, 0.5], [0, -0.5]]))
        jacobian = np.column_stack([around[0] - around[1], around[2] - around[3]])
        finest = min(finest, float(np.linalg.svd(jacobian, compute_uv=False)[1]))
    return max(finest, _FINEST_MM_PER_PX)


def _shrunk(image: Picture, homography: NDArray[np.float64], factor: float) -> tuple[Picture, NDArray[np.float64]]:
    """Average the photo down first when the picture is much coarser than it, so that fine grain does not shimmer."""
    if factor < 1.5:
        return image, homography
    height, width = image.shape[:2]
    size = (max(1, round(width / factor)), max(1, round(height / factor)))
    smaller = cv2.resize(image, size, interpolation=cv2.INTER_AREA)
    back = np.diag([width / size[0], height / size[1], 1.0])
    return smaller.astype(np.uint8, copy=False), homography @ back
