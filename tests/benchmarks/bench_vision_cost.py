"""What reading photographs costs, against decoding and warping with nothing around it.

Run by hand: python -m tests.benchmarks.bench_vision_cost
"""

import io
import multiprocessing as mp
import resource
import time
from collections.abc import Callable
from typing import Any

import cv2
import numpy as np
from PIL import Image

from shopapi.boards.photographs import square_photo
from shopapi.craft import rectify
from shopapi.craft.clear_area import clear_face
from shopapi.craft.grading import GradeMark, grade
from shopapi.craft.marks import Ellipse
from shopapi.craft.suggest import suggest_marks
from shopapi.demo.sawn import draw_board, photograph


def main() -> None:
    print("Processor time (12 megapixels, one thread, processor seconds, best of three; memory with the interpreter)")
    cv2.setNumThreads(1)
    board = draw_board(7000, "white oak", 2440, 240, knots=3, mm_per_px=0.7)
    shot = photograph(board, "A", 1, size=(4000, 3000))
    image = np.ascontiguousarray(shot.image[:, :, ::-1])
    out = io.BytesIO()
    Image.fromarray(shot.image).save(out, "JPEG", quality=90)
    jpeg, squares = out.getvalue(), shot.corners_px.tolist()
    squaring = rectify.square_corners(shot.corners_px, 2440, 240)
    picture, mm = rectify.warp(image, squaring, 2440, 240)

    def read() -> np.ndarray:
        return cv2.imdecode(np.frombuffer(jpeg, np.uint8), cv2.IMREAD_COLOR)

    def bare() -> object:
        target = np.array([[0, 364], [3700, 364], [3700, 0], [0, 0]], np.float32)
        matrix = cv2.getPerspectiveTransform(shot.corners_px.astype(np.float32), target)
        return cv2.warpPerspective(read(), matrix, (3700, 364))

    def three() -> object:
        stretches = [rectify.Stretch(read, squaring, x0, x1) for x0, x1 in ((0, 900), (800, 1700), (1600, 2440))]
        return rectify.join_shots(stretches, 2440, 240)

    rows: dict[str, Callable[[], object]] = {
        "bare decode and warp": bare,
        "JPEG to squared JPEG": lambda: square_photo(jpeg, squares, 2440, 240),
        "propose corners, decoding too": lambda: rectify.propose_corners(read()),
        "look for scale cards, none there": lambda: rectify.find_cards(image),
        "three shots read and joined": three,
        "suggest marks": lambda: suggest_marks(picture, mm),
    }
    limit = _seconds(bare)
    for name, work in rows.items():
        spent = limit if work is bare else _seconds(work)
        print(f"{name:34} {spent:6.3f} s  {spent / limit:5.2f} x bare  {_peak_mb(work):5.0f} MB")
    chance = np.random.default_rng(1)
    marks = [
        GradeMark("knot", "A", Ellipse(float(x), float(y), 15.0, 10.0))
        for x, y in chance.uniform((0, 0), (3000, 250), (30, 2))
    ]
    clear = _seconds(lambda: clear_face(3000, 250, marks, "A"))
    graded = _seconds(lambda: grade(3000, 250, marks))
    print(f"clear rectangles of 30 marks {clear * 1000:.0f} ms, its grade {graded * 1000:.0f} ms")


def _seconds(work: Callable[[], object]) -> float:
    taken = []
    for _ in range(3):
        start = time.process_time()
        work()
        taken.append(time.process_time() - start)
    return min(taken)


def _peak_mb(work: Callable[[], object]) -> float:
    def child(send: Any) -> None:
        work()
        send.send(resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024)

    receive, send = mp.Pipe()
    process = mp.get_context("fork").Process(target=child, args=(send,))
    process.start()
    send.close()
    peak = float(receive.recv())
    process.join()
    return peak


if __name__ == "__main__":
    main()
