"""Pictures of the demo's boards, drawn on all processors at once; needs no database."""

import io
import multiprocessing
import os
from collections.abc import Iterator, Sequence
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass
from typing import Any

import cv2
from PIL import Image

from shopapi.demo.sawn import Flaw, draw_board, photograph

_MM_PER_PX = 1.0


@dataclass(frozen=True)
class Sitting:
    """One board to be drawn and photographed."""

    key: str
    seed: int
    species: str
    length_mm: float
    width_mm: float
    thickness_mm: float
    faces: str
    size_px: tuple[int, int]
    drawn: dict[str, Any]


@dataclass(frozen=True)
class Portrait:
    """What came of it: a JPEG and its true corners for each face, and the true flaws (face A's coordinates)."""

    key: str
    shots: dict[str, tuple[bytes, list[list[float]]]]
    flaws: tuple[Flaw, ...]


def portray(sitting: Sitting) -> Portrait:
    board = draw_board(
        sitting.seed,
        sitting.species,
        sitting.length_mm,
        sitting.width_mm,
        thickness_mm=sitting.thickness_mm,
        mm_per_px=_MM_PER_PX,
        **sitting.drawn,
    )
    shots = {}
    for face in sitting.faces:
        photo = photograph(board, face, sitting.seed, size=sitting.size_px)
        out = io.BytesIO()
        Image.fromarray(photo.image).save(out, "JPEG", quality=88)
        shots[face] = (out.getvalue(), photo.corners_px.round(1).tolist())
    return Portrait(sitting.key, shots, board.flaws)


def portray_all(sittings: Sequence[Sitting]) -> Iterator[Portrait]:
    """Portraits in the order of the sittings, by fresh processes: a server with threads cannot be copied safely."""
    workers = min(len(sittings), os.cpu_count() or 1, 8)
    if workers < 2:
        yield from map(portray, sittings)
        return
    context = multiprocessing.get_context("spawn")
    with ProcessPoolExecutor(workers, mp_context=context, initializer=cv2.setNumThreads, initargs=(1,)) as pool:
        yield from pool.map(portray, sittings)
