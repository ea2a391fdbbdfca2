"""The log a board is sawn from: pith, growth rings, knots, heartwood, bark.

Board coordinates [mm]: x along from the butt end, y across from the lower edge as seen on face A, z out of face A
(face A
lies at z = 0, face B at z = -thickness). The pith runs roughly along x, somewhere beside or below the board.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from shopapi.demo.sawn.looks import Look
from shopapi.demo.sawn.noise import Field, layered, step, wander


@dataclass(frozen=True)
class Knot:
    """A branch: a cone from the pith outwards, leaning towards the tree's top.

    x0_mm: where it leaves the pith; angle_rad: its direction around the pith (0 = towards face A, positive towards +y);
    lean: how far along x it moves per millimetre outwards; spread: radius per millimetre outwards;
    greatest_mm: radius it never exceeds; live_mm: distance from the pith up to which it has grown together with
    the wood.
    """

    x0_mm: float
    angle_rad: float
    lean: float
    spread: float
    greatest_mm: float
    live_mm: float


@dataclass(frozen=True, eq=False)
class Log:
    """Everything that is random about the log; fields along x have a value per column."""

    look: Look
    mm_per_px: float
    shape: tuple[int, int]  # rows (y), columns (x)
    width_mm: float
    pith_y_mm: Field
    pith_z_mm: Field
    taper_mm: Field  # by how much the log has thinned at that column
    ring_edges_mm: NDArray[np.float32]
    ring_tones: NDArray[np.float32]
    ring_contrasts: NDArray[np.float32]
    bark_mm: float
    sap_from_mm: float
    knots: tuple[Knot, ...]
    ripple: tuple[Field, Field]  # unevenness of the rings: the first for every z, the second growing with depth [mm]
    ray_wobble: Field


@dataclass(frozen=True, eq=False)
class Slice:
    """What the log shows on a plane z = const; row 0 is the lowest y."""

    radius_mm: Field  # distance from the pith as the rings count it
    year: NDArray[np.int32]
    phase: Field  # 0 at the start of the year's ring, 1 at its end
    ring_px: Field  # width of a ring as the plane shows it, in pixels
    around_mm: Field  # arc length around the pith at a fixed radius, for rays
    aside_mm: Field  # how far fibres are pushed across the grain by knots
    knot: Field  # 0 at the heart of the nearest knot, 1 at its rim, more outside
    knot_rim_mm: Field  # radius of that knot here
    knot_turn: Field  # direction from its heart [rad]
    knot_halo: Field  # 1 beside a knot, fading along the grain
    knot_dead: Field  # 1 where that knot is dead


RAY_RADIUS_MM = 150.0
_FAR = np.float32(9.0)


def grow(
    rng: np.random.Generator,
    look: Look,
    *,
    length_mm: float,
    width_mm: float,
    mm_per_px: float,
    pith_mm: tuple[float, float],
    tree_mm: float,
    knots: tuple[Knot, ...],
) -> Log:
    """A log whose pith passes at `pith_mm` (y, z) of the butt end's cross-section and whose wood reaches out to
    `tree_mm`."""
    columns, rows = round(length_mm / mm_per_px), round(width_mm / mm_per_px)
    xs = (np.arange(columns, dtype=np.float32) + 0.5) * np.float32(mm_per_px)
    feature = 700 / mm_per_px
    taper_per_mm = rng.uniform(0.002, 0.006)
    lean_z, lean_y = rng.normal(0, 0.004, 2)
    pith_y = pith_mm[0] + lean_y * (xs - length_mm / 2) + 6 * wander(rng, columns, feature)
    pith_z = pith_mm[1] + lean_z * (xs - length_mm / 2) + 5 * wander(rng, columns, feature)
    years = int(tree_mm / look.ring_mm * 2.5) + 60
    slow = wander(rng, years, 14.0)
    widths = look.ring_mm * np.exp(0.20 * slow + 0.16 * rng.standard_normal(years)).astype(np.float32)
    ripple = [
        1.3 * layered(rng, (rows, columns), 420 / mm_per_px, 75 / mm_per_px, 2)
        + 0.40 * smooth_ripple(rng, (rows, columns), mm_per_px)
        for _ in range(2)
    ]
    return Log(
        look=look,
        mm_per_px=mm_per_px,
        shape=(rows, columns),
        width_mm=width_mm,
        pith_y_mm=pith_y.astype(np.float32),
        pith_z_mm=pith_z.astype(np.float32),
        taper_mm=(taper_per_mm * xs).astype(np.float32),
        ring_edges_mm=np.concatenate([[0], np.cumsum(widths)]).astype(np.float32),
        ring_tones=rng.standard_normal(years).astype(np.float32),
        ring_contrasts=np.exp(0.25 * rng.standard_normal(years)).astype(np.float32),
        bark_mm=tree_mm,
        sap_from_mm=tree_mm - look.sap_mm * rng.uniform(0.8, 1.25),
        knots=knots,
        ripple=(ripple[0], ripple[1]),
        ray_wobble=layered(rng, (rows, columns), 34 / mm_per_px, 70 / mm_per_px, 3),
    )


def smooth_ripple(rng: np.random.Generator, shape: tuple[int, int], mm_per_px: float) -> Field:
    """The small unevenness that gives cathedrals their ragged outline."""
    return layered(rng, shape, 90 / mm_per_px, 9 / mm_per_px, 2)


def cut(log: Log, z_mm: float) -> Slice:
    """The log on the plane z = z_mm."""
    rows, columns = log.shape
    ys = ((np.arange(rows, dtype=np.float32) + 0.5) * np.float32(log.mm_per_px))[:, None]
    xs = ((np.arange(columns, dtype=np.float32) + 0.5) * np.float32(log.mm_per_px))[None]
    dy, dz = ys - log.pith_y_mm[None], np.float32(z_mm) - log.pith_z_mm[None]
    distance = np.sqrt(dy * dy + dz * dz)
    angle = np.arctan2(dy, np.broadcast_to(dz, dy.shape))
    depth = np.float32(-z_mm / 40.0)
    ripple = log.ripple[0] + depth * log.ripple[1]
    # Rings near the pith are rounder: the unevenness grows with the distance.
    radius = distance + log.taper_mm[None] + ripple * np.minimum(1, distance / 40)
    near = _knots(log, xs, dy, dz)
    radius = radius - near.swell
    years = np.interp(radius, log.ring_edges_mm, np.arange(len(log.ring_edges_mm), dtype=np.float32)).astype(np.float32)
    year = np.floor(years).astype(np.int32)
    grade_y, grade_x = np.gradient(years) if min(years.shape) > 1 else (years * 0, years * 0)
    return Slice(
        radius_mm=radius,
        year=np.clip(year, 0, len(log.ring_tones) - 1),
        phase=years - year,
        ring_px=1 / np.maximum(np.hypot(grade_x, grade_y), 1e-3),
        around_mm=angle * np.float32(RAY_RADIUS_MM) + log.ray_wobble * 0.30 + depth * 7,
        aside_mm=near.aside,
        knot=near.share,
        knot_rim_mm=near.rim,
        knot_turn=near.turn,
        knot_halo=near.halo,
        knot_dead=near.dead,
    )


@dataclass(frozen=True, eq=False)
class _Near:
    """What knots do to every pixel of a plane."""

    share: Field  # of the nearest knot: 0 heart, 1 rim
    rim: Field  # its radius [mm]
    turn: Field  # direction from its heart
    dead: Field
    halo: Field
    swell: Field  # by how much rings bulge [mm]
    aside: Field  # by how much fibres are pushed aside [mm]


def _knots(log: Log, xs: Field, dy: Field, dz: Field) -> _Near:
    shape = dy.shape
    near = _Near(np.full(shape, _FAR, np.float32), *(np.zeros(shape, np.float32) for _ in range(6)))
    outwards = float(np.hypot(dy, dz).max())
    for knot in log.knots:
        # where the branch can meet this plane: along x only, the cone decides the rest
        reach = 14 * knot.greatest_mm + 30
        low, high = sorted((knot.x0_mm, knot.x0_mm + knot.lean * outwards))
        first, last = int((low - reach) / log.mm_per_px), int((high + reach) / log.mm_per_px)
        window = np.s_[:, max(0, first) : max(0, min(shape[1], last))]
        if xs[window].size:
            _add_knot(near, knot, window, xs[window], dy[window], np.broadcast_to(dz, shape)[window])
    return near


def _add_knot(near: _Near, knot: Knot, window: tuple[slice, slice], xs: Field, dy: Field, dz: Field) -> None:
    s, c = np.float32(np.sin(knot.angle_rad)), np.float32(np.cos(knot.angle_rad))
    out, beside = dy * s + dz * c, dy * c - dz * s
    ahead = (xs - knot.x0_mm - knot.lean * out) / np.float32(np.hypot(1, knot.lean))
    size = np.clip(out * knot.spread, 0.05, knot.greatest_mm)
    size *= step(0, 25, out) * 0.5 + 0.5
    there = out > 0
    turn = np.arctan2(beside, ahead)
    a = knot.x0_mm  # each knot's own irregularity
    uneven = 1 + 0.09 * np.sin(2 * turn + a) + 0.07 * np.sin(3 * turn + 2.1 * a) + 0.04 * np.sin(7 * turn + 3.3 * a)
    share = np.where(there, np.sqrt(ahead * ahead + beside * beside) / (size * uneven), _FAR)
    stretched = np.sqrt((ahead / 2.2) ** 2 + beside * beside)
    swell = size * np.exp(-np.maximum(stretched - 0.5 * size, 0) / (1.1 * size + 1))
    near.swell[window] += np.where(there, 1.15 * swell, 0)
    push = -beside * (size / np.maximum(stretched, size * 0.8)) ** 2
    near.aside[window] += np.where(there, push * abs(c), 0)
    halo = np.exp(-((ahead / (7 * size)) ** 2) - (beside / (1.9 * size)) ** 2)
    near.halo[window] = np.maximum(near.halo[window], np.where(there, halo, 0))
    closer = share < near.share[window]
    for field, value in (
        (near.share, share),
        (near.rim, size),
        (near.turn, turn),
        (near.dead, (out > knot.live_mm).astype(np.float32)),
    ):
        field[window] = np.where(closer, value, field[window])
