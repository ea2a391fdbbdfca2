"""How well photographs are read: corners, scale cards, joined shots, suggested marks.

Run by hand: python -m tests.benchmarks.bench_vision [part ...] with parts corners, cards, joining, suggestions.
Drawn boards come from seeds that nothing was tuned on. Real photographs come from REFERENCE_DIR and are left out, with
a word, where it is absent.
"""

import json
import os
import sys
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

import cv2
import numpy as np

from shopapi.craft import rectify
from shopapi.craft.marks import Rect, bounds, mirror_across
from shopapi.craft.suggest import Suggestion, suggest_marks
from shopapi.demo.sawn import draw_board, photograph
from tests.craft.rectify.test_cards import laid
from tests.craft.rectify.test_joining import LENGTH, WIDTH, errors_mm, shots_of

SPECIES = ("white oak", "sugar maple", "black cherry", "black walnut")
# A proposal needs no nudge where each of the four corners lies within this of its true place on the board.
NO_NUDGE_MM = 3.0
REPOSITORY = Path(__file__).resolve().parents[2]
REFERENCE = Path(os.environ.get("REFERENCE_DIR") or REPOSITORY.parent / "shared" / "reference") / "photos"


@dataclass(frozen=True, eq=False)
class Case:
    """A photo with the truth about it; flaws as the face is seen."""

    image: np.ndarray
    corners_px: np.ndarray
    length_mm: float
    width_mm: float
    flaws: list[tuple[str, Rect]]


def drawn_cases(count: int, *, wane: bool, first_seed: int) -> Iterator[Case]:
    rng = np.random.default_rng(first_seed)
    for number in range(count):
        length, width = float(rng.uniform(900, 3200)), float(rng.uniform(90, 320))
        thickness, face = float(rng.choice([27, 34, 52])), "AB"[number % 2]
        species = SPECIES[number // 2 % 4]
        board = draw_board(first_seed + number, species, length, width, thickness_mm=thickness, wane=wane, mm_per_px=1)
        shot = photograph(board, face, number, size=(3000, 2250), elevation_deg=(40, 85))
        shapes = [
            (flaw.kind, flaw.shape if face == "A" else mirror_across(flaw.shape, width))
            for flaw in board.flaws_on(face)
        ]
        flaws = [(kind, bounds(shape)) for kind, shape in shapes if kind not in ("figure", "sapwood")]
        yield Case(np.ascontiguousarray(shot.image[:, :, ::-1]), shot.corners_px, length, width, flaws)


def sources() -> list[dict[str, Any]]:
    if not (REFERENCE / "SOURCES.json").is_file():
        print(f"REFERENCE_DIR: no photographs in {REFERENCE}; real ones are left out")
        return []
    return json.loads((REFERENCE / "SOURCES.json").read_text(encoding="utf-8"))["images"]


NAMED = {
    **dict.fromkeys(("live_knot", "dead_knot", "knot_with_crack", "knot_missing"), "knot"),
    "crack": "check",
}


def composite() -> Iterator[Case]:
    for row in sources():
        if "corners_px" in row:  # y runs downwards there
            size = row["board_mm"]
            width = float(size["width"])
            flaws = [
                (
                    NAMED.get(b["name"], b["name"]),
                    Rect(b["x"], width - b["y"] - b["h"], b["x"] + b["w"], width - b["y"]),
                )
                for b in row["boxes_mm"]
            ]
            image = cv2.imread(str(REFERENCE / row["file"]))
            yield Case(image, np.array(row["corners_px"])[[3, 2, 1, 0]], float(size["length"]), width, flaws)


def scans() -> Iterator[tuple[np.ndarray, float, list[tuple[str, Rect]]]]:
    """Whole-width scans turned so that the grain runs along, without the dark beside the board; 140 mm wide, assumed
    as for the composite."""
    for row in sources():
        if "mask" not in row:
            continue
        image = cv2.imread(str(REFERENCE / row["file"]))
        board = np.flatnonzero(np.median(cv2.cvtColor(image, cv2.COLOR_BGR2GRAY), axis=0) > 70)
        left, right = int(board[0]) + 2, int(board[-1]) - 1
        mm = 140 / (right - left)
        turned = np.ascontiguousarray(np.rot90(image[:, left:right]))
        flaws = []
        for box in row["boxes"]:  # turned a quarter left: across becomes along from the far side
            x0, x1 = max(0, box["x"] - left), min(right - left, box["x"] + box["w"] - left)
            if x1 > x0:
                flaw = Rect(box["y"] * mm, x0 * mm, (box["y"] + box["h"]) * mm, x1 * mm)
                flaws.append((NAMED.get(box["name"], box["name"]), flaw))
        yield turned, mm, flaws


def corners() -> None:
    print(f"\nPROPOSED CORNERS (no nudge: all four corners within {NO_NUDGE_MM:g} mm on the board)")
    print(f"{'':34} photos  proposed  no nudge  median mm  90 % mm  when sure >= 0.7")
    groups = {
        "drawn boards": drawn_cases(60, wane=False, first_seed=3000),
        "drawn boards with wane": drawn_cases(20, wane=True, first_seed=4000),
        "composite_3": composite(),
    }
    for name, cases in groups.items():
        off, sure = [], []
        count = 0
        for case in cases:
            count += 1
            proposal = rectify.propose_corners(case.image)
            if proposal.corners_px is None:
                continue
            squaring = rectify.square_corners(case.corners_px, case.length_mm, case.width_mm)
            true = rectify.corner_points_mm(case.length_mm, case.width_mm)
            off.append(np.hypot(*(squaring.to_board_mm(proposal.corners_px) - true).T))
            sure.append(proposal.sure)
        if not count:
            continue
        every, right = np.array(off), np.array(off).max(axis=1) < NO_NUDGE_MM
        certain = np.array(sure) >= 0.7
        print(
            f"{name:34} {count:6d}  {len(off):8d}  {right.sum() / count:7.0%}  {np.median(every):9.2f}  "
            f"{np.percentile(every, 90):7.2f}  {right[certain].sum()} of {certain.sum()}"
        )
    none = [
        rectify.propose_corners(np.ascontiguousarray(np.rot90(image))).corners_px is None for image, _, _ in scans()
    ]
    print(f"scans that show no outline, left to the maker: {sum(none)} of {len(none)}")


def cards() -> None:
    print("\nSCALE CARDS (drawn boards at 12 megapixels, two cards, no tape)")
    rng = np.random.default_rng(5000)
    found, asked = [], 24
    for number in range(asked):
        length, width = float(rng.uniform(1000, 3000)), float(rng.uniform(110, 300))
        board = draw_board(5000 + number, SPECIES[number % 4], length, width, mm_per_px=0.7)
        face = board.face_a
        for marker, (low, high) in zip(
            rectify.MARKER_IDS, ((60, 0.2 * length), (0.8 * length, length - 60)), strict=True
        ):
            place = (rng.uniform(low, high), rng.uniform(50, width - 50))
            face = laid(face, width, marker, *place, rng.uniform(0, 360))
        shot = photograph(replace(board, face_a=face), "A", number, size=(4000, 3000))
        read = rectify.find_cards(np.ascontiguousarray(shot.image[:, :, ::-1]))
        if read is not None and read.length_mm and read.width_mm:
            found.append((abs(read.length_mm - length), abs(read.width_mm - width), length))
    off = np.array(found)
    print(f"measured {len(found)} of {asked}; off by, median and worst:")
    print(f"length {np.median(off[:, 0]):.1f} mm, {off[:, 0].max():.1f} mm ({(off[:, 0] / off[:, 2]).max():.2%})")
    print(f"width  {np.median(off[:, 1]):.1f} mm, {off[:, 1].max():.1f} mm")


def joining() -> None:
    print(f"\nJOINED SHOTS (3 shots of a {LENGTH:g} mm board by random cameras, points tapped within a pixel or three)")
    for slip in (1.0, 3.0):
        worst, apart = [], []
        for seed in range(40):
            joined = rectify.join_shots(shots_of(np.random.default_rng(6000 + seed), slip_px=slip), LENGTH, WIDTH)
            worst.append(errors_mm(joined).max())
            apart += [overlap.disagreement_mm for overlap in joined.overlaps if overlap.disagreement_mm is not None]
        print(
            f"slip {slip:g} px: worst mark of a board, median {np.median(worst):.1f} mm, greatest {max(worst):.1f} mm; "
            f"overlaps disagree by {np.median(apart):.1f} mm, {max(apart):.1f} mm at most"
        )


def suggestions() -> None:
    print("\nSUGGESTED MARKS (right: its middle in the flaw, or the flaw's in it, 3 mm allowed)")
    print(f"{'':34} kind   flaws  recall  suggested  precision  on some flaw")
    tables: dict[str, list[tuple[tuple[Suggestion, ...], list[tuple[str, Rect]]]]] = {
        "scans of softwood": [(suggest_marks(image, mm), flaws) for image, mm, flaws in scans()],
        "composite_3 (squeezed softwood)": [_suggested(case) for case in composite()],
        "drawn boards": [_suggested(case) for case in drawn_cases(60, wane=False, first_seed=3000)],
        "drawn boards with wane": [_suggested(case) for case in drawn_cases(20, wane=True, first_seed=4000)],
    }
    for name, cases in tables.items():
        for kind in ("knot", "check", "wane"):
            kinds = (kind, "split") if kind == "check" else (kind,)
            true = [
                (flaw, [each for each in made if each.kind == kind])
                for made, flaws in cases
                for of, flaw in flaws
                if of in kinds
            ]
            own = [(bounds(each.shape), flaws) for made, flaws in cases for each in made if each.kind == kind]
            if not true and not own:
                continue
            met = sum(any(_meets(bounds(each.shape), flaw) for each in made) for flaw, made in true)
            right = sum(any(of in kinds and _meets(rect, flaw) for of, flaw in flaws) for rect, flaws in own)
            some = sum(any(_meets(rect, flaw) for _, flaw in flaws) for rect, flaws in own)
            print(
                f"{name:34} {kind:6} {len(true):5d}  {_share(met, len(true)):>6}  {len(own):9d}  "
                f"{_share(right, len(own)):>9}  {_share(some, len(own)):>12}"
            )


def _suggested(case: Case) -> tuple[tuple[Suggestion, ...], list[tuple[str, Rect]]]:
    squaring = rectify.square_corners(case.corners_px, case.length_mm, case.width_mm)
    picture, mm = rectify.warp(case.image, squaring, case.length_mm, case.width_mm)
    return suggest_marks(picture, mm), case.flaws


def _meets(a: Rect, b: Rect) -> bool:
    def holds(outer: Rect, inner: Rect) -> bool:
        x, y = (inner.x0_mm + inner.x1_mm) / 2, (inner.y0_mm + inner.y1_mm) / 2
        return outer.x0_mm - 3 <= x <= outer.x1_mm + 3 and outer.y0_mm - 3 <= y <= outer.y1_mm + 3

    return holds(a, b) or holds(b, a)


def _share(part: int, whole: int) -> str:
    return f"{part / whole:.0%}" if whole else "-"


PARTS: dict[str, Callable[[], None]] = {
    "corners": corners,
    "cards": cards,
    "joining": joining,
    "suggestions": suggestions,
}


def main() -> None:
    for part in sys.argv[1:] or PARTS:
        PARTS[part]()


if __name__ == "__main__":
    main()
