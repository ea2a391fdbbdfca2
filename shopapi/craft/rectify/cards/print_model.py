"""What a scale card looks like: printed and read by the same numbers."""

import cv2
import numpy as np
from numpy.typing import NDArray

MARKER_IDS = (10, 21)
# Black border included. Six cells of 10 mm: ten pixels each when 3 m of board fill a photo of 12 megapixels.
MARKER_SIDE_MM = 60.0
MARKER_CELLS = 6
# With its white rim, which the finding of the marker needs.
CARD_SIDE_MM = 84.0

DICTIONARY = cv2.aruco.getPredefinedDictionary(cv2.aruco.DICT_4X4_50)


def marker_cells(marker: int) -> NDArray[np.bool_]:
    """Which cells of a marker are black, row 0 on top, its border included.

    Source: OWN, the card; its markers are those of OpenCV's dictionary.
    """
    return np.asarray(cv2.aruco.generateImageMarker(DICTIONARY, marker, MARKER_CELLS) < 128)


def corners_mm() -> NDArray[np.float64]:
    """A marker's corners as printed: upper left, upper right, lower right, lower left; from its middle, y up [mm]."""
    half = MARKER_SIDE_MM / 2
    return np.array([[-half, half], [half, half], [half, -half], [-half, -half]])
