"""A phone held over a board: a pinhole camera somewhere a person would stand, with the corners' true pixels."""

from dataclasses import dataclass

import cv2
import numpy as np
from numpy.typing import NDArray

from shopapi.demo.sawn.board import Picture, SawnBoard
from shopapi.demo.sawn.floor import draw_floor, shadow
from shopapi.demo.sawn.noise import step

Points = NDArray[np.float64]

# A phone's main camera sees about 26 mm (35 mm film) wide: focal length over picture width. Common practice, no source.
_FOCAL = (0.72, 0.80)
_HALF = np.array([[1.0, 0, -0.5], [0, 1, -0.5], [0, 0, 1]])  # cv2 puts pixel centres on whole numbers


@dataclass(frozen=True, eq=False)
class Photograph:
    """A photo of one face.

    image: (H, W, 3) RGB; corners_px: butt-end lower, far-end lower, far-end upper, butt-end upper of the face as seen,
    x right, y down from the photo's upper left corner; camera: 3x4, face millimetres (x, y as seen on this face,
    z up from
    it) to pixels; it knows nothing of homographies.
    """

    image: Picture
    corners_px: Points
    camera: NDArray[np.float64]
    face: str

    def see(self, points_mm: Points) -> Points:
        """Photo pixels of (N, 2) places on the face."""
        return _project(self.camera, np.column_stack([points_mm, np.zeros(len(points_mm))]))


def photograph(
    board: SawnBoard,
    face: str,
    seed: int,
    *,
    size: tuple[int, int] = (3000, 2250),
    elevation_deg: tuple[float, float] = (46.0, 76.0),
    turn_deg: float = 13.0,
) -> Photograph:
    """Photograph a face so that all of it is in the picture, from a random but sensible place.

    size: width, height [px]; elevation_deg: how steeply the camera looks down; turn_deg: how far it stands aside,
    at most.
    """
    rng = np.random.default_rng((seed, ord(face)))
    camera = _stand(rng, board, size, elevation_deg, turn_deg)
    raised = board.thickness_mm + 38.0  # it lies on two sticks
    picture = draw_floor(rng, _plane(camera, -raised), size)
    picture = shadow(
        picture, _project(camera, _outline(board, -raised)), _project(camera, _outline(board, -raised, 30.0))
    )
    this, other = board.face(face), board.face("B" if face == "A" else "A")
    _draw_sides(picture, board, camera, this, other)
    _draw_face(picture, this, _plane(camera, 0.0) @ _picture_to_mm(board, this))
    return Photograph(_expose(rng, picture), _project(camera, _outline(board, 0.0)), camera, face)


def _stand(
    rng: np.random.Generator, board: SawnBoard, size: tuple[int, int], elevation: tuple[float, float], turn: float
) -> NDArray[np.float64]:
    width, height = size
    focal = rng.uniform(*_FOCAL) * max(width, height)
    k = np.array([[focal, 0, width / 2], [0, focal, height / 2], [0, 0, 1.0]])
    up, aside, roll = np.radians([rng.uniform(*elevation), rng.uniform(-turn, turn), rng.normal(0, 2.0)])
    away = np.array([np.sin(aside) * np.cos(up), -np.cos(aside) * np.cos(up), np.sin(up)])
    centre = np.array([board.length_mm / 2, board.width_mm / 2, 0.0])
    right = np.cross(-away, [0, 0, 1.0])
    right /= np.linalg.norm(right)
    down = np.cross(-away, right)
    turned = np.array([np.cos(roll) * right + np.sin(roll) * down, np.cos(roll) * down - np.sin(roll) * right, -away])
    margin = rng.uniform(0.03, 0.08)
    shift = rng.uniform(-0.4, 0.4, 2)  # nobody centres a board exactly
    near, far = 300.0, 20000.0
    for _ in range(40):
        middle = (near + far) / 2
        camera = k @ np.column_stack([turned, -turned @ (centre + middle * away)])
        corners = _project(camera, _outline(board, 0.0))
        spread = (corners.max(axis=0) - corners.min(axis=0)) / size
        fits = np.all(corners.min(axis=0) > -9 * np.array(size)) and spread.max() <= 1 - 2 * margin
        near, far = (near, middle) if fits else (middle, far)
    camera = k @ np.column_stack([turned, -turned @ (centre + far * away)])
    corners = _project(camera, _outline(board, 0.0))
    middle_px = (corners.max(axis=0) + corners.min(axis=0)) / 2
    free = (np.array(size) - (corners.max(axis=0) - corners.min(axis=0))) / 2 - np.array(size) * margin * 0.6
    wanted = np.array(size) / 2 - middle_px + shift * np.maximum(free, 0)
    move = np.array([[1, 0, wanted[0]], [0, 1, wanted[1]], [0, 0, 1.0]])  # a crop of a wider photo, as phones take
    return move @ camera


def _outline(board: SawnBoard, z_mm: float, grown_mm: float = 0.0) -> Points:
    g = grown_mm
    x, y = board.length_mm, board.width_mm
    return np.array([[-g, -g, z_mm], [x + g, -g, z_mm], [x + g, y + g, z_mm], [-g, y + g, z_mm]])


def _project(camera: NDArray[np.float64], points: Points) -> Points:
    moved = np.column_stack([points, np.ones(len(points))]) @ camera.T
    return moved[:, :2] / moved[:, 2:]


def _plane(camera: NDArray[np.float64], z_mm: float) -> NDArray[np.float64]:
    """Homography from millimetres on the plane z = z_mm to photo pixels."""
    return np.column_stack([camera[:, 0], camera[:, 1], camera[:, 2] * z_mm + camera[:, 3]])


def _picture_to_mm(board: SawnBoard, picture: Picture) -> NDArray[np.float64]:
    rows, columns = picture.shape[:2]
    x, y = board.length_mm / columns, board.width_mm / rows
    return np.array([[x, 0, 0], [0, -y, board.width_mm], [0, 0, 1.0]])


def _draw_face(picture: Picture, face: Picture, to_photo: NDArray[np.float64]) -> None:
    """Warp a texture onto the photo, its own outline antialiased."""
    rows, columns = face.shape[:2]
    corners = cv2.perspectiveTransform(np.array([[[0.0, 0], [columns, 0], [columns, rows], [0, rows]]]), to_photo)[0]
    shrink = max(1.0, columns / max(1.0, float(np.hypot(*(corners[1] - corners[0])))))
    if shrink > 1.3:
        size = (max(2, round(columns / shrink)), max(2, round(rows / shrink)))
        to_photo = to_photo @ np.diag([columns / size[0], rows / size[1], 1.0])
        face = cv2.resize(face, size, interpolation=cv2.INTER_AREA).astype(np.uint8, copy=False)
    left, top = np.floor(corners.min(axis=0)).astype(int) - 2
    right, bottom = np.ceil(corners.max(axis=0)).astype(int) + 2
    left, top = max(left, 0), max(top, 0)
    right, bottom = min(right, picture.shape[1]), min(bottom, picture.shape[0])
    if right <= left or bottom <= top:
        return
    window = np.array([[1.0, 0, -left], [0, 1, -top], [0, 0, 1]])
    matrix = _HALF @ window @ to_photo @ np.linalg.inv(_HALF)
    size = (int(right - left), int(bottom - top))
    drawn = cv2.warpPerspective(face, matrix, size, flags=cv2.INTER_CUBIC, borderMode=cv2.BORDER_REPLICATE)
    cover = np.zeros((size[1], size[0]), np.uint8)
    places = ((corners - (left, top) - 0.5) * 16).round().astype(np.int32)
    cv2.fillConvexPoly(cover, places, 255, cv2.LINE_AA, 4)
    part = picture[top:bottom, left:right]
    share = cover[..., None].astype(np.uint16)
    part[:] = ((part * (255 - share) + drawn * share + 127) // 255).astype(np.uint8)


def _draw_sides(picture: Picture, board: SawnBoard, camera: NDArray[np.float64], this: Picture, other: Picture) -> None:
    """Those edges and ends of the board that the camera sees."""
    x, y, t = board.length_mm, board.width_mm, board.thickness_mm
    eye = -np.linalg.solve(camera[:, :3], camera[:, 3])
    long_lower, long_upper = _edge(this[-1], other[0]), _edge(this[0], other[-1])
    for seen, texture, start, end, light in (
        (eye[1] < 0, long_lower, (0, 0), (x, 0), 0.74),
        (eye[1] > y, long_upper, (x, y), (0, y), 0.62),
        (eye[0] < 0, board.end_grain, (0, y), (0, 0), 0.72),
        (eye[0] > x, board.end_grain[:, ::-1], (x, 0), (x, y), 0.80),
    ):
        if not seen:
            continue
        texture = texture[:, ::-1] if start[0] > end[0] else texture
        rows, columns = texture.shape[:2]
        quad = np.array([[*start, 0.0], [*end, 0.0], [*end, -t], [*start, -t]], float)
        target = _project(camera, quad).astype(np.float32)
        source = np.array([[0, 0], [columns, 0], [columns, rows], [0, rows]], np.float32)
        to_photo = cv2.getPerspectiveTransform(source, target).astype(float)
        _draw_face(picture, (texture * np.float32(light)).astype(np.uint8), to_photo)


def _edge(upper: Picture, lower: Picture) -> Picture:
    """A long edge: the two faces' last rows run into each other."""
    share = np.linspace(0, 1, 24, dtype=np.float32)[:, None, None]
    blend = upper[None] * (1 - share) + lower[None] * share
    return np.clip(cv2.GaussianBlur(blend, (61, 1), 0) * 1.12, 0, 255).astype(np.uint8)


def _expose(rng: np.random.Generator, picture: Picture) -> Picture:
    """Soft light from one side, a lens that darkens its corners, a white balance slightly off, blur and noise."""
    height, width = picture.shape[:2]
    picture = cv2.GaussianBlur(picture, (0, 0), max(0.5, width / 5200)).astype(np.uint8, copy=False)
    y, x = np.mgrid[-1:1:36j, -1:1:48j].astype(np.float32)
    slope = rng.uniform(-0.12, 0.12, 2)
    pool = np.exp(-(((x - rng.uniform(-0.6, 0.6)) / 1.3) ** 2) - ((y - rng.uniform(-0.6, 0.6)) / 1.2) ** 2)
    light = (0.92 + slope[0] * x + slope[1] * y + 0.16 * pool) * (1 - 0.20 * step(0.5, 1.5, np.hypot(x, y)))
    gain = cv2.resize(light.astype(np.float32), (width, height), interpolation=cv2.INTER_CUBIC)
    tint = (1 + rng.normal(0, 0.008, 3)).astype(np.float32) * np.float32(rng.uniform(0.96, 1.06))
    grain = cv2.GaussianBlur(rng.standard_normal((512, 512), dtype=np.float32), (0, 0), 0.7) * np.float32(4.2)
    right, below = max(0, width - 512), max(0, height - 512)
    grain = cv2.copyMakeBorder(grain, 0, below, 0, right, cv2.BORDER_WRAP)[:height, :width]
    out = np.empty_like(picture)
    for channel in range(3):
        shade = cv2.multiply(picture[..., channel], gain, scale=float(tint[channel]), dtype=cv2.CV_32F)
        out[..., channel] = np.clip(shade + grain, 0, 255)
    return out
