"""A photograph with known corners and a known flaw: real wood where the reference folder is, else a drawn board."""

import io
import json
import os
from dataclasses import dataclass
from pathlib import Path

from PIL import Image

from shopapi.demo.sawn import draw_board, photograph
from tests.conftest import REPOSITORY


@dataclass(frozen=True)
class BoardPhoto:
    """Corners in the order butt-end lower, far-end lower, far-end upper, butt-end upper; the knot's centre."""

    name: str
    jpeg: bytes
    size_px: tuple[int, int]
    length_mm: float
    width_mm: float
    corners_px: list[tuple[float, float]]
    knot_mm: tuple[float, float]


def real_wood() -> BoardPhoto | None:
    folder = Path(os.environ.get("REFERENCE_DIR") or REPOSITORY.parent / "shared" / "reference") / "photos"
    if not folder.is_dir():
        return None
    sources = json.loads((folder / "SOURCES.json").read_text("utf-8"))["images"]
    source = next(image for image in sources if image["file"] == "composite_3.jpg")
    length, width = source["board_mm"]["length"], source["board_mm"]["width"]
    upper_butt, upper_far, lower_far, lower_butt = [tuple(corner) for corner in source["corners_px"]]
    knot = max((box for box in source["boxes_mm"] if 60 < box["x"] < 200), key=lambda box: box["w"] * box["h"])
    return BoardPhoto(
        name="real wood",
        jpeg=(folder / "composite_3.jpg").read_bytes(),
        size_px=tuple(source["size"]),
        length_mm=length,
        width_mm=width,
        corners_px=[lower_butt, lower_far, upper_far, upper_butt],
        # There y runs downwards from the upper edge.
        knot_mm=(knot["x"] + knot["w"] / 2, width - knot["y"] - knot["h"] / 2),
    )


def drawn_board() -> BoardPhoto:
    board = draw_board(11, "white oak", 2400, 180, knots=2, mm_per_px=1.0)
    shot = photograph(board, "A", 5, size=(2400, 1600))
    out = io.BytesIO()
    Image.fromarray(shot.image).save(out, "JPEG", quality=90)
    knot = next(flaw.shape for flaw in board.flaws if flaw.kind == "knot")
    return BoardPhoto(
        name="drawn board",
        jpeg=out.getvalue(),
        size_px=(2400, 1600),
        length_mm=2400,
        width_mm=180,
        corners_px=[(float(x), float(y)) for x, y in shot.corners_px],
        knot_mm=(knot.cx_mm, knot.cy_mm),
    )


def board_photo() -> BoardPhoto:
    return real_wood() or drawn_board()
