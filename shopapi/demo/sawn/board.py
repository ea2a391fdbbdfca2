"""A board sawn from a log: both faces in colour, and the truth about every flaw."""

from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from shopapi.craft.marks import Outline
from shopapi.demo.sawn import flaws
from shopapi.demo.sawn.flaws import Crack, Flaw
from shopapi.demo.sawn.grain import paint
from shopapi.demo.sawn.log import Knot, Log, Slice, cut, grow
from shopapi.demo.sawn.looks import look_of, painted
from shopapi.demo.sawn.noise import Field, layered, wander

Picture = NDArray[np.uint8]
Sawn = Literal["flat", "rift", "quarter"]


@dataclass(frozen=True, eq=False)
class SawnBoard:
    """Both faces as seen (butt end left, upper edge at row 0, RGB), its edges and butt end, and its flaws.

    Face B is seen from its own side, so its upper edge is face A's lower one; flaws are in face A's coordinates.
    """

    species: str
    length_mm: float
    width_mm: float
    thickness_mm: float
    mm_per_px: float
    face_a: Picture
    face_b: Picture
    end_grain: Picture  # of the butt end, face A up, looking along +x
    flaws: tuple[Flaw, ...]

    def face(self, name: str) -> Picture:
        return {"A": self.face_a, "B": self.face_b}[name]

    def flaws_on(self, face: str) -> tuple[Flaw, ...]:
        return tuple(flaw for flaw in self.flaws if flaw.face == face)


def draw_board(
    seed: int,
    species: str,
    length_mm: float,
    width_mm: float,
    *,
    thickness_mm: float = 27.0,
    sawn: Sawn | None = None,
    knots: int | None = None,
    cracks: int | None = None,
    sap: bool | None = None,
    wane: bool = False,
    worm_holes: bool = False,
    streak: bool | None = None,
    curl: bool | None = None,
    mm_per_px: float = 0.8,
) -> SawnBoard:
    """A board from a seed; what is not said is drawn by lot, as a middling board of that wood would have it.

    species: "white oak", "sugar maple", "black cherry", "black walnut" (or hard maple, cherry, walnut).
    The same seed and arguments give the same board.
    """
    rng = np.random.default_rng(seed)
    look = look_of(species)
    usual: tuple[Sawn, ...] = ("flat", "flat", "rift", "quarter")
    sawn = sawn or usual[int(rng.integers(len(usual)))]
    knots = int(rng.integers(0, 4)) if knots is None else knots
    cracks = int(rng.integers(0, 3)) if cracks is None else cracks
    sap = bool(rng.random() < 0.3) if sap is None else sap
    streak = bool(rng.random() < look.streaks) if streak is None else streak
    curl = bool(rng.random() < look.curl) if curl is None else curl
    pith = _pith(rng, sawn, width_mm, thickness_mm)
    tree = _tree_radius(rng, pith, width_mm, sap_mm=look.sap_mm if sap else 0.0, wane=wane)
    branches = tuple(_branch(rng, pith, length_mm, width_mm, i, knots) for i in range(knots))
    log = grow(
        rng,
        look,
        length_mm=length_mm,
        width_mm=width_mm,
        mm_per_px=mm_per_px,
        pith_mm=pith,
        tree_mm=tree,
        knots=branches,
    )
    splits = [
        flaws.end_crack(
            rng,
            length_mm,
            width_mm,
            at_butt=bool(rng.random() < 0.5),
            kind="split" if i == 0 and rng.random() < 0.4 else "check",
            faces="A",
        )
        for i in range(cracks)
    ]
    splits = [crack if crack.kind == "check" else _through(crack) for crack in splits]
    extras = _Extras(
        splits=tuple(splits),
        holes=(float(rng.uniform(0.2, 0.8) * length_mm), float(rng.uniform(0.2, 0.8) * width_mm))
        if worm_holes
        else None,
        streak=_lens(rng, length_mm, width_mm) if streak else None,
        curl=_stretch_along(rng, length_mm) if curl else None,
        rays=sawn == "quarter" and look.ray_mm > 10,
    )
    faces, told = [], []
    for name, z in (("A", 0.0), ("B", -thickness_mm)):
        plane = cut(log, z)
        picture = paint(np.random.default_rng((seed, ord(name))), log, plane)
        told += _finish(np.random.default_rng((seed, ord(name), 1)), log, plane, picture, name, extras)
        faces.append(np.clip(picture, 0, 255).astype(np.uint8))
    shown_on = {number: {flaw.face for flaw in told if flaw.number == number} for number in {f.number for f in told}}
    told = [Flaw(f.number, f.face, f.kind, f.shape, through=len(shown_on[f.number]) == 2, note=f.note) for f in told]
    return SawnBoard(
        species=species,
        length_mm=length_mm,
        width_mm=width_mm,
        thickness_mm=thickness_mm,
        mm_per_px=mm_per_px,
        face_a=np.ascontiguousarray(faces[0][::-1]),
        face_b=faces[1],
        end_grain=_end_grain(np.random.default_rng((seed, 3)), log, thickness_mm),
        flaws=tuple(told),
    )


@dataclass(frozen=True)
class _Extras:
    splits: tuple[Crack, ...]
    holes: tuple[float, float] | None
    streak: flaws.Ellipse | None
    curl: tuple[float, float] | None
    rays: bool


def _pith(rng: np.random.Generator, sawn: Sawn, width: float, thickness: float) -> tuple[float, float]:
    """Where the pith passes, (y, z): under a flatsawn board, beside a quartersawn one."""
    side = float(rng.choice([-1, 1]))
    if sawn == "flat":
        return width * (0.5 + side * rng.uniform(0.0, 0.28)), -thickness - rng.uniform(35, 90)
    away = {"rift": rng.uniform(30, 80), "quarter": rng.uniform(50, 120)}[sawn]
    below = {"rift": thickness + rng.uniform(60, 110), "quarter": thickness / 2 + rng.uniform(-9, 9)}[sawn]
    return (-away if side < 0 else width + away), -below


def _tree_radius(
    rng: np.random.Generator, pith: tuple[float, float], width: float, *, sap_mm: float, wane: bool
) -> float:
    farthest = max(np.hypot(y - pith[0], pith[1]) for y in (0, width))
    if wane:
        return farthest - rng.uniform(2, 5)
    if sap_mm:
        return farthest + sap_mm * rng.uniform(0.15, 0.45) + 12
    return farthest + 3 * sap_mm + rng.uniform(90, 160)


def _branch(
    rng: np.random.Generator, pith: tuple[float, float], length: float, width: float, number: int, count: int
) -> Knot:
    """A knot that shows on face A in its own stretch of the board."""
    x = length * (number + rng.uniform(0.2, 0.8)) / count
    y = width * rng.uniform(0.12, 0.88)
    radius = float(np.clip(rng.lognormal(np.log(7.5), 0.5), 2.2, 0.14 * width))
    dy, dz = y - pith[0], -pith[1]
    out = float(np.hypot(dy, dz))
    lean = rng.uniform(0.15, 0.55)
    dead = rng.random() < 0.3
    return Knot(
        x0_mm=x - lean * out,
        angle_rad=float(np.arctan2(dy, dz)),
        lean=lean,
        spread=radius / out,
        greatest_mm=radius * 1.15,
        live_mm=out * rng.uniform(0.55, 0.95) if dead else 1e6,
    )


def _through(crack: Crack) -> Crack:
    return Crack(crack.x0_mm, crack.x1_mm, crack.y_mm, crack.slope, crack.open_mm, "AB", crack.kind, crack.bend)


def _lens(rng: np.random.Generator, length: float, width: float) -> flaws.Ellipse:
    return flaws.Ellipse(
        float(rng.uniform(0.15, 0.85) * length),
        float(rng.uniform(0.2, 0.8) * width),
        float(rng.uniform(45, 130)),
        float(rng.uniform(3.5, 9)),
    )


def _stretch_along(rng: np.random.Generator, length: float) -> tuple[float, float]:
    first = float(rng.uniform(0.0, 0.4) * length)
    return first, float(min(length, first + rng.uniform(0.4, 0.7) * length))


def _finish(rng: np.random.Generator, log: Log, plane: Slice, picture: Field, face: str, extras: _Extras) -> list[Flaw]:
    """Paint what is not growth, weather the surface, and tell every flaw of the face. Numbers tie the faces
    together."""
    mm, told = log.mm_per_px, []
    width, length = log.width_mm, log.shape[1] * mm
    for number, ellipse in flaws.knots_of(log, plane):
        dead = log.knots[number].live_mm < 1e5
        told.append(Flaw(number, face, "knot", ellipse, note="loose" if dead else "tight"))
    wane = plane.radius_mm > log.bark_mm
    for outline in flaws.outlines_of(wane, mm, least_mm2=60, within_mm=1.2):
        told.append(Flaw(300 + len(told) + 50 * (face == "B"), face, "wane", outline))
    if log.look.sap_mm < 60:
        pale = (plane.radius_mm > log.sap_from_mm) & ~wane
        for outline in flaws.outlines_of(pale, mm, least_mm2=1200, within_mm=2.0):
            told.append(Flaw(400 + len(told) + 50 * (face == "B"), face, "sapwood", outline))
    if extras.curl:
        flaws.paint_curl(rng, picture, extras.curl, mm)
        told.append(Flaw(500, face, "figure", _band(*extras.curl, width), note="curl"))
    if extras.rays:
        told.append(Flaw(501, face, "figure", _band(0.0, length, width), note="ray fleck"))
    if extras.streak and face == "A":
        tint = (0.52, 0.58, 0.52) if log.look.tones[0][2] > 140 else (0.42, 0.36, 0.34)
        flaws.paint_streak(rng, picture, plane, extras.streak, mm, tint)
        told.append(Flaw(502, face, "stain", extras.streak, note="mineral streak"))
    if extras.holes and face == "A":
        told.append(Flaw(503, face, "worm_holes", flaws.paint_holes(rng, picture, extras.holes, mm)))
    _weather(rng, picture, mm)
    for number, crack in enumerate(extras.splits):
        if face in crack.faces:
            flaws.paint_crack(picture, crack, mm)
            told.append(Flaw(600 + number, face, crack.kind, crack.line()))
    return told


def _band(x0: float, x1: float, width: float) -> Outline:
    return Outline(((x0, 0.0), (x1, 0.0), (x1, width), (x0, width)))


def _weather(rng: np.random.Generator, picture: Field, mm: float) -> None:
    """The planer's ripple, a little dust, rounded edges."""
    rows, columns = picture.shape[:2]
    xs = (np.arange(columns, dtype=np.float32) + 0.5) * np.float32(mm)
    pitch = 6.5 + 1.5 * float(rng.random())
    strength = 0.005 * (1 + 0.8 * wander(rng, columns, 220 / mm))
    ripple = 1 + strength * np.sin(2 * np.pi * xs / pitch)
    light = 1 + 0.018 * layered(rng, (rows, columns), 260 / mm, 120 / mm, 2)
    picture *= (ripple[None] * light)[..., None]
    for row, shade in ((0, 0.80), (1, 0.93), (rows - 1, 0.80), (rows - 2, 0.93)):
        picture[row] *= shade


def _end_grain(rng: np.random.Generator, log: Log, thickness: float) -> Picture:
    mm = log.mm_per_px
    rows, columns = max(2, round(thickness / mm)), log.shape[0]
    ys = ((np.arange(columns, dtype=np.float32) + 0.5) * np.float32(mm))[None]
    zs = -((np.arange(rows, dtype=np.float32) + 0.5) * np.float32(mm))[:, None]
    radius = np.hypot(ys - log.pith_y_mm[0], zs - log.pith_z_mm[0]).astype(np.float32)
    years = np.interp(radius, log.ring_edges_mm, np.arange(len(log.ring_edges_mm))).astype(np.float32)
    rings = 0.5 + 0.5 * np.cos(2 * np.pi * years)
    dark = 0.5 + 0.22 * rings + 0.06 * layered(rng, (rows, columns), 12 / mm, 8 / mm, 2)
    return np.clip(painted(log.look.tones, dark.astype(np.float32)), 0, 255).astype(np.uint8)
