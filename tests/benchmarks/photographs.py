"""12 MP photographs: intake and squaring against the bare decode and warp. `python tests/benchmarks/photographs.py`

Prints processor seconds (best of five) and the peak memory of a process that squares one photograph.
"""

import io
import multiprocessing as mp
import resource
import sys
import time
from collections.abc import Callable
from multiprocessing.connection import Connection
from pathlib import Path

import cv2
import numpy as np
from PIL import Image

sys.path.insert(0, str(Path(__file__).parents[2]))

from shopapi.boards.photographs import read_upload, square_photo
from shopapi.craft import rectify

SIZE = (4000, 3000)
CORNERS = [[150.0, 1900.0], [3850.0, 1750.0], [3700.0, 1450.0], [260.0, 1500.0]]
LENGTH, WIDTH = 2440.0, 240.0


def photo(orientation: int = 1) -> bytes:
    rng = np.random.default_rng(7)
    small = rng.integers(60, 200, (SIZE[1] // 8, SIZE[0] // 8, 3), dtype=np.uint8)
    image = cv2.resize(small, SIZE, interpolation=cv2.INTER_CUBIC)
    image = cv2.add(image, rng.integers(0, 12, image.shape, dtype=np.uint8))
    exif = Image.Exif()
    exif[0x0112] = orientation
    out = io.BytesIO()
    Image.fromarray(image).save(out, "JPEG", quality=90, exif=exif.tobytes())
    return out.getvalue()


def bare(data: bytes) -> None:
    image = cv2.imdecode(np.frombuffer(data, np.uint8), cv2.IMREAD_COLOR)
    board = np.float32([[0, 270], [3699, 270], [3699, 0], [0, 0]])
    cv2.warpPerspective(image, cv2.getPerspectiveTransform(np.float32(CORNERS), board), (3700, 271))


def seconds(what: Callable[[], object]) -> float:
    times = []
    for _ in range(5):
        start = time.process_time()
        what()
        times.append(time.process_time() - start)
    return min(times)


def peak_mb(what: Callable[[], object]) -> float:
    def child(send: Connection) -> None:
        what()
        send.send(resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024)

    receive, send = mp.Pipe()
    process = mp.get_context("fork").Process(target=child, args=(send,))
    process.start()
    send.close()
    peak = receive.recv()
    process.join()
    return float(peak)


def main() -> None:
    cv2.setNumThreads(1)
    upright, turned = photo(1), photo(3)
    whole = peak_mb(lambda: square_photo(read_upload(turned).upright, CORNERS, LENGTH, WIDTH))
    taken = read_upload(upright)
    limit = seconds(lambda: bare(upright))
    rows = {
        "bare decode and warp": limit,
        "square_photo": seconds(lambda: square_photo(taken.upright, CORNERS, LENGTH, WIDTH)),
        "read_upload, upright": seconds(lambda: read_upload(upright)),
        "read_upload, turned by EXIF": seconds(lambda: read_upload(turned)),
        "slip_mm alone": seconds(lambda: rectify.slip_mm(CORNERS, LENGTH, WIDTH)),
    }
    for name, spent in rows.items():
        print(f"{name:<30} {spent:6.3f} s   {spent / limit:5.2f} x bare")
    print(f"intake and squaring, memory at its peak: {whole:.0f} MB with the interpreter")


if __name__ == "__main__":
    main()
