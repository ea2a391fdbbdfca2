"""Remakes frames.json, with OpenCV's own homography and not ours: `python tests/vectors/make_frames.py`.

Corners are multiples of a quarter pixel, which OpenCV's 32-bit floats hold exactly.
"""

import json
from pathlib import Path

import cv2
import numpy as np

VIEWS = {
    "straight on, one millimetre a pixel": (1000, 200, [[0, 200], [1000, 200], [1000, 0], [0, 0]]),
    "seen from the butt end": (2400, 180, [[310.25, 1440.5], [2210.75, 900.25], [2190, 840.75], [150.5, 1190]]),
    "seen from the far end": (3048, 203.2, [[420.5, 700], [2760.25, 1180.75], [2955, 990.5], [455.25, 634.5]]),
    "upside down": (2592, 140, [[2980, 820], [260, 980], [170, 1120], [3060, 1110]]),
    "upright photo, board up the middle": (
        2134,
        165.1,
        [[1010.5, 2700], [940, 410.25], [810.25, 402.5], [640.75, 2650]],
    ),
    "short and wide": (300, 420, [[500, 1500.25], [1200.75, 1480], [1180.5, 560.25], [540.25, 580]]),
}
OUT_OF_ORDER = {
    "clockwise along the upper edge first": [3, 2, 1, 0],
    "clockwise up the butt end first": [0, 3, 2, 1],
}
REFUSED = {
    "crossed": (2000, 150, [[0, 100], [900, 100], [0, 10], [900, 10]]),
    "repeated": (2000, 150, [[0, 100], [900, 100], [900, 100], [0, 10]]),
    "in_line": (2000, 150, [[0, 100], [450, 100], [900, 100], [0, 10]]),
    "dented": (2000, 150, [[0, 100], [900, 100], [300, 80], [0, 10]]),
    "sides_swapped": (2000, 150, [[900, 100], [900, 10], [0, 10], [0, 100]]),
    "board_size": (0, 150, [[0, 100], [900, 100], [900, 10], [0, 10]]),
    "missing": (2000, 150, [[0, 100], [900, 100], [900, 10]]),
}


def view_case(name: str, length: float, width: float, corners: list[list[float]]) -> dict[str, object]:
    board = np.array([[0, 0], [length, 0], [length, width], [0, width]], np.float32)
    homography = cv2.getPerspectiveTransform(np.array(corners, np.float32), board)
    places = np.array([[x * length, y * width] for x in (0, 0.1, 0.5, 0.93, 1) for y in (0, 0.25, 1)])
    photo = cv2.perspectiveTransform(places[None], np.linalg.inv(homography))[0]
    return {
        "name": name,
        "length_mm": length,
        "width_mm": width,
        "corners_px": corners,
        "homography": homography.tolist(),
        "pairs": [
            {"photo_px": px, "board_mm": mm}
            for px, mm in zip(photo.round(9).tolist(), places.round(9).tolist(), strict=True)
        ],
    }


def main() -> None:
    order_length, order_width, right = VIEWS["seen from the butt end"]
    frames = {
        "about": "Photo pixels to board millimetres; homography and pairs by OpenCV (make_frames.py beside this file). "
        "Tolerance: pairs 0.001 mm and 0.001 px.",
        "views": [view_case(name, *view) for name, view in VIEWS.items()],
        "put_in_order": [
            {
                "name": name,
                "length_mm": order_length,
                "width_mm": order_width,
                "given_px": [right[i] for i in order],
                "right_px": right,
            }
            for name, order in OUT_OF_ORDER.items()
        ],
        "refused": [
            {"reason": reason, "length_mm": length, "width_mm": width, "corners_px": corners}
            for reason, (length, width, corners) in REFUSED.items()
        ],
    }
    Path(__file__).with_name("frames.json").write_text(json.dumps(frames, indent=1) + "\n", encoding="utf-8")


if __name__ == "__main__":
    main()
