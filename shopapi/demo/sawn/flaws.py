"""Flaws that are not part of the log's growth: checks, splits, worm holes, stains, gum, curl; each painted and told."""

from dataclasses import dataclass

import cv2
import numpy as np
from numpy.typing import NDArray

from shopapi.craft.marks import Ellipse, Line, Outline, Shape
from shopapi.demo.sawn.log import Log, Slice
from shopapi.demo.sawn.noise import Field, layered, smooth, step


@dataclass(frozen=True)
class Flaw:
    """The truth about one flaw on one face, in face A's coordinates [mm].

    number: the same for what one flaw shows on both faces; through: whether it shows on both.
    """

    number: int
    face: str
    kind: str
    shape: Shape
    through: bool = False
    note: str = ""


@dataclass(frozen=True)
class Crack:
    """A check or split running in from an end (or in the field), the same on every face it shows on."""

    x0_mm: float
    x1_mm: float
    y_mm: float
    slope: float
    open_mm: float
    faces: str
    kind: str
    bend: float

    def middle(self, xs: Field) -> Field:
        along = xs - np.float32(self.x0_mm)
        return self.y_mm + self.slope * along + 0.9 * np.sin(along / 19 + self.bend) + 0.4 * np.sin(along / 6.3)

    def line(self) -> Line:
        xs = np.linspace(self.x0_mm, self.x1_mm, 5).astype(np.float32)
        points = tuple((float(x), float(y)) for x, y in zip(xs, self.middle(xs), strict=True))
        return Line(points, max(2.0, 2 * self.open_mm))


def end_crack(
    rng: np.random.Generator, length_mm: float, width_mm: float, *, at_butt: bool, kind: str, faces: str
) -> Crack:
    reach = rng.uniform(110, 240) if kind == "split" else rng.uniform(45, 140)
    y = float(rng.uniform(0.2, 0.8) * width_mm)
    opening = rng.uniform(1.0, 1.9) if kind == "split" else rng.uniform(0.5, 1.0)
    ends = (0.0, reach) if at_butt else (length_mm, length_mm - reach)
    return Crack(*ends, y, rng.normal(0, 0.015), opening, faces, kind, rng.uniform(0, 6))


def paint_crack(picture: Field, crack: Crack, mm: float) -> None:
    columns = picture.shape[1]
    first, last = sorted((int(crack.x0_mm / mm), int(crack.x1_mm / mm)))
    window = slice(max(0, first - 1), min(columns, last + 1))
    xs = (np.arange(window.start, window.stop, dtype=np.float32) + 0.5) * np.float32(mm)
    ys = ((np.arange(picture.shape[0], dtype=np.float32) + 0.5) * np.float32(mm))[:, None]
    share = np.clip((xs - crack.x0_mm) / (crack.x1_mm - crack.x0_mm), 0, 1)
    half = crack.open_mm * (1 - share) ** 0.6 * (0.8 + 0.2 * np.sin(xs / 7))
    away = np.abs(ys - crack.middle(xs)[None])
    # thinner than a pixel: paler instead of narrower
    dark = np.clip((half[None] - away) / np.float32(mm) + 0.5, 0, 1) * np.minimum(1, half[None] / (0.5 * mm))
    shade = 0.25 * np.exp(-away / 2.2) * (1 - share[None])
    part = picture[:, window]
    part *= (1 - 0.86 * dark - shade * (1 - dark))[..., None]


def paint_holes(rng: np.random.Generator, picture: Field, centre: tuple[float, float], mm: float) -> Ellipse:
    """A few worm holes; the smallest ellipse along the grain that holds them with a little to spare."""
    count = int(rng.integers(4, 9))
    spots = np.array(centre) + rng.normal(0, 1, (count, 2)) * (16, 7)
    scaled = np.clip(picture, 0, 255).astype(np.uint8)
    for x, y in spots:
        place = (round((x / mm - 0.5) * 16), round((y / mm - 0.5) * 16))
        radius = rng.uniform(0.6, 1.1) / mm
        cv2.circle(
            scaled,
            place,
            round(radius * 1.9 * 16),
            tuple(float(v) for v in picture.mean((0, 1)) * 0.7),
            -1,
            cv2.LINE_AA,
            4,
        )
        cv2.circle(scaled, place, round(radius * 16), (28, 20, 15), -1, cv2.LINE_AA, 4)
    picture[:] = scaled
    middle = (spots.max(axis=0) + spots.min(axis=0)) / 2
    half = (spots.max(axis=0) - spots.min(axis=0)) / 2
    return Ellipse(float(middle[0]), float(middle[1]), float(half[0] * 1.25 + 3), float(half[1] * 1.25 + 3))


def paint_streak(
    rng: np.random.Generator,
    picture: Field,
    plane: Slice,
    ellipse: Ellipse,
    mm: float,
    tint: tuple[float, float, float],
) -> None:
    """A stain or gum streak: a lens along the grain, uneven like smoke."""
    rows, columns = picture.shape[:2]
    xs = (np.arange(columns, dtype=np.float32) + 0.5) * np.float32(mm)
    ys = ((np.arange(rows, dtype=np.float32) + 0.5) * np.float32(mm))[:, None] + plane.aside_mm
    lens = 1 - ((xs[None] - ellipse.cx_mm) / ellipse.rx_mm) ** 2 - ((ys - ellipse.cy_mm) / ellipse.ry_mm) ** 2
    smoke = 0.45 * layered(rng, (rows, columns), 60 / mm, 2.4 / mm, 3)
    share = step(0.05, 0.8, lens + smoke * (lens > -0.3)) * np.float32(0.85)
    share[lens < 0] = 0
    picture *= 1 - share[..., None] * (1 - np.array(tint, np.float32))


def paint_curl(rng: np.random.Generator, picture: Field, x_range: tuple[float, float], mm: float) -> None:
    """Curly figure: the fibres wave, so light and shade change every centimetre along the board."""
    rows, columns = picture.shape[:2]
    xs = (np.arange(columns, dtype=np.float32) + 0.5) * np.float32(mm)
    wobble = 5.0 * layered(rng, (rows, columns), 70 / mm, 24 / mm, 2)
    wave = np.sin(2 * np.pi * (xs[None] + wobble) / 9.5) + 0.4 * np.sin(2 * np.pi * (xs[None] + 1.4 * wobble) / 5.6)
    strength = 0.075 * (0.55 + 0.45 * smooth(rng, (rows, columns), 90 / mm, 30 / mm))
    inside = step(x_range[0], x_range[0] + 60, xs) * step(x_range[1], x_range[1] - 60, xs)
    picture *= (1 + strength * wave * inside[None])[..., None]


def outlines_of(mask: NDArray[np.bool_], mm: float, *, least_mm2: float, within_mm: float) -> list[Outline]:
    """Outlines [mm] around the areas of a mask (row 0 = lowest y), simplified to `within_mm`."""
    padded = cv2.copyMakeBorder(mask.astype(np.uint8), 1, 1, 1, 1, cv2.BORDER_CONSTANT, value=0)
    padded = cv2.morphologyEx(padded, cv2.MORPH_CLOSE, np.ones((3, max(3, int(12 / mm))), np.uint8))
    found, _ = cv2.findContours(padded, cv2.RETR_EXTERNAL, cv2.CHAIN_APPROX_NONE)
    outlines = []
    for contour in found:
        if cv2.contourArea(contour) * mm * mm < least_mm2:
            continue
        points = cv2.approxPolyDP(contour, within_mm / mm, closed=True)[:, 0].astype(float) - 1 + 0.5
        height, width = mask.shape
        points[:, 0] = np.where(points[:, 0] >= width - 1, width, np.where(points[:, 0] <= 1, 0, points[:, 0]))
        points[:, 1] = np.where(points[:, 1] >= height - 1, height, np.where(points[:, 1] <= 1, 0, points[:, 1]))
        if len(points) >= 3:
            outlines.append(Outline(tuple((float(x * mm), float(y * mm)) for x, y in points)))
    return outlines


def knots_of(log: Log, plane: Slice) -> list[tuple[int, Ellipse]]:
    """(number of the knot, ellipse along the grain around it) for every knot the plane shows."""
    found = []
    mask = (plane.knot < 1).astype(np.uint8)
    count, _, stats, _ = cv2.connectedComponentsWithStats(mask)
    mm = log.mm_per_px
    for left, bottom, wide, high, area in stats[1:count]:
        if area * mm * mm < 5:
            continue
        cx, cy = (left + wide / 2) * mm, (bottom + high / 2) * mm
        ellipse = Ellipse(float(cx), float(cy), float(wide * mm / 2 + 0.5), float(high * mm / 2 + 0.5))
        found.append((_nearest_knot(log, float(cx)), ellipse))
    return found


def _nearest_knot(log: Log, x_mm: float) -> int:
    """Which knot shows at this x; branches leave the pith far enough apart for x alone to tell."""
    column = min(log.shape[1] - 1, max(0, int(x_mm / log.mm_per_px)))
    depth = float(abs(log.pith_z_mm[column]))
    return min(
        range(len(log.knots)),
        key=lambda i: abs(
            log.knots[i].x0_mm + log.knots[i].lean * depth / max(0.2, np.cos(log.knots[i].angle_rad)) - x_mm
        ),
    )
