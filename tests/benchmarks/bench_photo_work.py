"""What the service spends on one photograph of 12 megapixels, from upload to face picture.

Run by hand: python -m tests.benchmarks.bench_photo_work. Each step's CPU time (all threads, best of
five), the peak memory of the process, and the ratio to what no way of squaring can avoid: decoding the JPEG and
warping it once.
"""

import io
import multiprocessing
import os
import resource
import time
from collections.abc import Callable
from concurrent.futures import ProcessPoolExecutor
from typing import Any

os.environ.setdefault("DJANGO_SETTINGS_MODULE", "shopapi.settings")

import cv2
import numpy as np
from PIL import Image

from shopapi.boards import photographs
from shopapi.demo.sawn import draw_board, photograph

LENGTH_MM, WIDTH_MM = 2400.0, 200.0
ROUNDS = 5
GREATEST_CPU_S, GREATEST_MB, GREATEST_RATIO = 0.8, 400, 1.5


def cpu_s(work: Callable[[], Any]) -> tuple[float, Any]:
    times, result = [], None
    for _ in range(ROUNDS):
        begun = time.process_time()
        result = work()
        times.append(time.process_time() - begun)
    return min(times), result


def peak_mb() -> float:
    return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024


def photo(size: tuple[int, int]) -> tuple[bytes, list[list[float]]]:
    board = draw_board(5, "white oak", LENGTH_MM, WIDTH_MM, thickness_mm=27, mm_per_px=1)
    shot = photograph(board, "A", 5, size=size)
    out = io.BytesIO()
    Image.fromarray(shot.image).save(out, "JPEG", quality=92)
    return out.getvalue(), shot.corners_px.round(1).tolist()


def bare(jpeg: bytes, size: tuple[int, int]) -> None:
    pixels = cv2.imdecode(np.frombuffer(jpeg, np.uint8), cv2.IMREAD_COLOR_BGR)
    assert pixels is not None
    cv2.warpPerspective(pixels, np.eye(3), size, flags=cv2.INTER_LINEAR)


def main() -> None:
    # Drawn by a process of its own, whose memory is not ours.
    with ProcessPoolExecutor(1, mp_context=multiprocessing.get_context("spawn")) as pool:
        jpeg, corners = pool.submit(photo, (4000, 3000)).result()
    print(f"JPEG of 4000 x 3000 pixels, {len(jpeg) / 2**20:.1f} MB; before any work {peak_mb():.0f} MB")
    receiving, received = cpu_s(lambda: photographs.receive(jpeg))
    print(f"request: checked, place taken out        {receiving:.3f} s")
    uprighting, upright = cpu_s(lambda: photographs.stand_upright(received.original))
    print(f"worker: upright and preview              {uprighting:.3f} s")
    squaring, squared = cpu_s(lambda: photographs.square_photo(upright.upright, corners, LENGTH_MM, WIDTH_MM))
    print(f"worker: squared to {squared.width_px} x {squared.height_px}, coded        {squaring:.3f} s")
    least, _ = cpu_s(lambda: bare(upright.upright, (squared.width_px, squared.height_px)))
    print(f"  bare decode and warp                   {least:.3f} s, ratio {squaring / least:.2f}")
    whole = receiving + uprighting + squaring
    print(f"JPEG to squared face                     {whole:.3f} s, peak {peak_mb():.0f} MB")
    proposing, _ = cpu_s(lambda: photographs.propose(upright.upright, LENGTH_MM, WIDTH_MM))
    print(f"worker, where no corners came: proposal  {proposing:.3f} s, peak {peak_mb():.0f} MB")
    suggesting, _ = cpu_s(lambda: photographs.suggestions_for(squared.jpeg, squared.mm_per_px, WIDTH_MM, "A"))
    print(f"worker, after the face is shown: marks   {suggesting:.3f} s, peak {peak_mb():.0f} MB")
    for name, value, limit in (
        ("CPU [s]", whole, GREATEST_CPU_S),
        ("memory [MB]", peak_mb(), GREATEST_MB),
        ("ratio", squaring / least, GREATEST_RATIO),
    ):
        print(f"{name}: {value:.2f} of at most {limit}: {'kept' if value <= limit else 'MISSED'}")


if __name__ == "__main__":
    main()
