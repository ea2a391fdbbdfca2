"""The tone of a piece of wood: the mean colour of its photograph, in a space where distances are what eyes see."""

from __future__ import annotations

import cv2
import numpy as np
from numpy.typing import NDArray


def mean_tone(pixels: NDArray[np.uint8]) -> tuple[float, float, float]:
    """Mean L*, a*, b* of a picture.

    pixels: rows x columns x 3, sRGB, red first, at least one pixel. Light of the room counts: only boards photographed
    alike can be compared. Raises ValueError for another shape.
    Source: OWN, the mean; CIELAB with white D65 as CIE 15 defines it.

    >>> [round(v) for v in mean_tone(np.full((2, 2, 3), 255, np.uint8))]
    [100, 0, 0]
    """
    if pixels.ndim != 3 or pixels.shape[2] != 3 or pixels.size == 0:
        raise ValueError("A picture has rows, columns and three colours.")
    lab = cv2.cvtColor(pixels.astype(np.float32) / 255, cv2.COLOR_RGB2LAB)
    light, red_green, yellow_blue = (float(value) for value in np.mean(lab, axis=(0, 1)))
    return light, red_green, yellow_blue
