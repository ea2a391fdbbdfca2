"""Painting a slice of the log as wood: rings, pores, rays, knots, sapwood, bark."""

import cv2
import numpy as np

from shopapi.demo.sawn.log import Log, Slice
from shopapi.demo.sawn.looks import BARK, painted
from shopapi.demo.sawn.noise import Field, layered, smooth, step, wander


def paint(rng: np.random.Generator, log: Log, plane: Slice) -> Field:
    """The slice in colour, (rows, columns, 3) in 0..255, row 0 = lowest y."""
    look, mm = log.look, log.mm_per_px
    shape = plane.phase.shape
    fibre = _along_fibres(plane, mm, _fibres(rng, shape, mm))
    fleck = _rays(rng, log, plane)
    edge = np.clip(1.3 / np.maximum(plane.ring_px, 0.5), 0, 0.5)  # rings finer than the picture fade to their mean
    early = 1 - step(look.early - 0.22, look.early + 0.12, plane.phase)
    early *= step(0.0, 0.06, plane.phase)
    line = step(0.72, 0.97, plane.phase) * look.late_line
    contrast = look.ring_contrast * log.ring_contrasts[plane.year] * (1 - edge)
    tone = 0.06 * log.ring_tones[plane.year] + look.stripe * _stripes(rng, log, plane)
    cloud = 0.05 * smooth(rng, shape, 500 / mm, 60 / mm) + 0.03 * layered(rng, shape, 120 / mm, 14 / mm, 2)
    dark = 0.27 + tone * 0.5 + contrast * (early - look.early) + line * (1 - edge) + cloud + 0.045 * fibre
    dark += look.pores * _pores(rng, log, plane, early)
    dark += look.rays * fleck
    dark = _near_knots(dark, plane, fibre)
    heart = painted(look.tones, dark)
    wood = _sapwood(rng, log, plane, heart, dark)
    wood = _knot_wood(rng, log, plane, wood, fibre)
    return _bark(rng, log, plane, wood)


def _fibres(rng: np.random.Generator, shape: tuple[int, int], mm: float) -> Field:
    """Fine streaks along the grain, in three lengths."""
    long = smooth(rng, shape, 160 / mm, 1.6 / mm)
    middle = smooth(rng, shape, 45 / mm, 0.8 / mm)
    short = smooth(rng, shape, 9 / mm, 0.6 / mm)
    return 0.5 * long + 0.5 * middle + 0.55 * short


def _along_fibres(plane: Slice, mm: float, field: Field) -> Field:
    """A field drawn for straight grain, led around the knots."""
    if not plane.aside_mm.any():
        return field
    rows, columns = field.shape
    x = np.broadcast_to(np.arange(columns, dtype=np.float32), field.shape)
    y = np.arange(rows, dtype=np.float32)[:, None] + plane.aside_mm / np.float32(mm)
    return _looked_up(field, np.ascontiguousarray(x), y)


def _looked_up(field: Field, x: Field, y: Field) -> Field:
    """The field's values at places between its pixels."""
    values = cv2.remap(field, x, y.astype(np.float32), cv2.INTER_LINEAR, borderMode=cv2.BORDER_REFLECT)
    return values.astype(np.float32, copy=False)


def _stripes(rng: np.random.Generator, log: Log, plane: Slice) -> Field:
    """Pigment several rings wide; it follows the rings and fades along them."""
    years = len(log.ring_tones)
    per_year = wander(rng, years, 7.0) + 0.4 * wander(rng, years, 2.5)
    exact = plane.year + plane.phase
    along = 0.75 + 0.25 * smooth(rng, plane.phase.shape, 600 / log.mm_per_px, 40 / log.mm_per_px)
    return np.interp(exact, np.arange(years), per_year).astype(np.float32) * along


def _pores(rng: np.random.Generator, log: Log, plane: Slice, early: Field) -> Field:
    """Cut vessels: short dark dashes, crowded in the earlywood of ring-porous woods."""
    look, mm = log.look, log.mm_per_px
    dashes = smooth(rng, plane.phase.shape, look.pore_mm / mm, 0.45 / mm)
    dashes += 0.6 * smooth(rng, plane.phase.shape, look.pore_mm * 0.45 / mm, 0.4 / mm)
    dashes = _along_fibres(plane, mm, dashes)
    where = look.pores_late + (1 - look.pores_late) * early
    return step(0.1, 2.6, dashes) * where


def _rays(rng: np.random.Generator, log: Log, plane: Slice) -> Field:
    """Ray fleck: where the plane runs along the rays they lie as broad pale flakes, where it crosses them as dark
    dashes."""
    look, mm = log.look, log.mm_per_px
    around = plane.around_mm
    grade = float(np.median(np.abs(np.diff(around, axis=0)))) + 1e-4  # mm around the pith per pixel across
    fine = max(look.ray_thick_mm / 2, grade)
    low = float(around.min())
    tall = int((float(around.max()) - low) / fine) + 2
    wide = around.shape[1]
    stretch = max(1, int(np.ceil(tall * wide / 9e6)))  # a full round of fine rays would not fit: repeat it
    sheet = smooth(rng, (tall // stretch + 2, wide), look.ray_mm / mm, look.ray_thick_mm / fine)
    sheet = step(0.75, 1.7, sheet)
    x = np.ascontiguousarray(np.broadcast_to(np.arange(wide, dtype=np.float32), around.shape))
    seen = _looked_up(sheet, x, (around - low) / np.float32(fine))
    flat = cv2.blur(np.abs(np.gradient(around, axis=0)), (1, 9)) / np.float32(look.ray_thick_mm)
    broad = 1 - step(0.25, 1.1, flat)  # 1 where one ray covers several pixels
    return seen * (0.20 * (1 - broad) - 0.30 * broad)


def _near_knots(dark: Field, plane: Slice, fibre: Field) -> Field:
    """Wood darkens and tightens towards a knot, and a stain runs from it along the grain."""
    close = 0.20 * (1 - step(0.9, 1.9, plane.knot))
    return dark + close + plane.knot_halo * (0.13 + 0.06 * fibre)


def _sapwood(rng: np.random.Generator, log: Log, plane: Slice, heart: Field, dark: Field) -> Field:
    ragged = plane.radius_mm + 1.5 * smooth(rng, plane.phase.shape, 160 / log.mm_per_px, 12 / log.mm_per_px)
    share = step(log.sap_from_mm - 1.5, log.sap_from_mm + 2.5, ragged)
    if not share.any():
        return heart
    sap = painted(log.look.sap, dark)
    return heart + (sap - heart) * share[..., None]


def _knot_wood(rng: np.random.Generator, log: Log, plane: Slice, wood: Field, fibre: Field) -> Field:
    inside = 1 - step(0.90, 1.08, plane.knot)
    if not inside.any():
        return wood
    shape = plane.phase.shape
    age = plane.knot * plane.knot_rim_mm
    uneven = layered(rng, shape, 11 / log.mm_per_px, 8 / log.mm_per_px, 3)
    rings = np.sin(2 * np.pi * (age + 0.5 * uneven) / 1.7)
    dark = 0.22 + 0.05 * rings + 0.13 * uneven + 0.03 * fibre + 0.16 * plane.knot**2
    dark += 0.22 * (1 - step(0.0, 0.30, plane.knot))
    dark += plane.knot_dead * (0.20 + 0.55 * step(0.78, 0.98, plane.knot))
    dark += (1 - plane.knot_dead) * 0.18 * step(0.75, 1.0, plane.knot)
    dark += 0.8 * _knot_cracks(plane, uneven)
    knot = painted(log.look.knot, dark)
    return wood + (knot - wood) * inside[..., None]


def _knot_cracks(plane: Slice, uneven: Field) -> Field:
    """Star checks from the knot's heart; larger knots have more of them."""
    cracks = np.zeros_like(plane.knot)
    for number, turn in enumerate((0.35, 2.5, 4.4)):
        beside = np.sin(plane.knot_turn - turn - 0.25 * uneven + 0.9 * number * plane.knot_dead)
        ahead = np.cos(plane.knot_turn - turn)
        width = 0.55 * (1 - plane.knot) * step(3.0 + 4 * number, 9.0 + 4 * number, plane.knot_rim_mm)
        near = np.abs(beside) * plane.knot * plane.knot_rim_mm
        cracks = np.maximum(cracks, np.where(ahead > 0, step(1, 0, near / np.maximum(width, 0.02)), 0))
    return cracks


def _bark(rng: np.random.Generator, log: Log, plane: Slice, wood: Field) -> Field:
    """Wane: where the plane leaves the log, bark and its underside show."""
    ragged = plane.radius_mm + 2.0 * layered(rng, plane.phase.shape, 90 / log.mm_per_px, 9 / log.mm_per_px, 3)
    share = step(log.bark_mm - 0.8, log.bark_mm + 0.8, ragged)
    if not share.any():
        return wood
    rough = layered(rng, plane.phase.shape, 26 / log.mm_per_px, 4 / log.mm_per_px, 4)
    deeper = np.clip((ragged - log.bark_mm) / 18, 0, 1)
    bark = painted(BARK, 0.30 + 0.24 * rough + 0.35 * deeper + 0.35 * (1 - step(0, 2.5, ragged - log.bark_mm)))
    return wood + (bark - wood) * share[..., None]
