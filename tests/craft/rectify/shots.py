"""Shots of stretches of a face, by random cameras that know nothing of homographies, with the truth about each."""

from dataclasses import dataclass

import cv2
import numpy as np

from shopapi.craft import rectify

HALF = np.array([[1.0, 0, -0.5], [0, 1, -0.5], [0, 0, 1]])  # cv2 puts pixel centres on whole numbers


@dataclass(frozen=True, eq=False)
class Seen:
    """A photo and its camera: face millimetres to photo pixels, through the lens."""

    image: np.ndarray
    camera: np.ndarray
    lens: rectify.Lens

    def see(self, points_mm):
        points = np.column_stack([points_mm, np.zeros(len(points_mm)), np.ones(len(points_mm))])
        moved = points @ self.camera.T
        return self.lens.bent(moved[:, :2] / moved[:, 2:])


def shoot(face, length_mm, width_mm, x0, x1, rng, *, size=(1600, 1200), k=0.0, tilt_deg=30.0, draw=True):
    """Photograph the stretch x0 to x1 of a face (butt end left, upper edge at row 0) from where a person may stand."""
    middle = np.array([(x0 + x1) / 2, width_mm / 2, 0.0])
    tilt, turn, roll = np.radians([rng.uniform(5, tilt_deg), rng.uniform(0, 360), rng.uniform(-8, 8)])
    away = np.array([np.sin(tilt) * np.cos(turn), np.sin(tilt) * np.sin(turn), np.cos(tilt)])
    right = np.cross([0.0, 1.0, 0.0], away)
    right /= np.linalg.norm(right)
    down = -np.cross(away, right)
    axes = np.array([np.cos(roll) * right + np.sin(roll) * down, np.cos(roll) * down - np.sin(roll) * right, -away])
    focal = rng.uniform(0.72, 0.8) * size[0]
    distance = (x1 - x0) / 2 * focal / (size[0] / 2) / rng.uniform(0.72, 0.85)
    k_matrix = np.array([[focal, 0, size[0] / 2], [0, focal, size[1] / 2], [0, 0, 1.0]])
    ends = np.array([(x, y, 0.0, 1.0) for x in (x0, x1) for y in (0.0, width_mm)])
    while True:  # stepping back until the whole stretch is in the frame
        camera = k_matrix @ np.column_stack([axes, -axes @ (middle + away * distance)])
        seen = ends @ camera.T
        if ((seen[:, 2:] > 0) & (np.abs(seen[:, :2] / seen[:, 2:] / size - 0.5) < 0.49)).all():
            break
        distance *= 1.03
    lens = rectify.Lens.of_photo(k, size)
    image = _draw(face, length_mm, width_mm, camera, lens, size, rng) if draw else np.zeros((1, 1, 3), np.uint8)
    return Seen(image, camera, lens)


def ticks(seen, x0, x1, width_mm, rng, slip_px=1.0, step_mm=500.0):
    """Reference points on both edges at the stretch's ends and every `step_mm` between, tapped with a slip."""
    xs = np.unique(np.append(np.arange(np.ceil(x0 / step_mm) * step_mm, x1, step_mm), [x0, x1]))
    points = np.array([(x, y) for y in (0.0, width_mm) for x in xs])
    return seen.see(points) + rng.uniform(-slip_px, slip_px, (len(points), 2)), points


def dotted(length_mm, width_mm, mm_per_px, rng, spots):
    """A streaky face with black dots at `spots`, to be found again."""
    rows, columns = round(width_mm / mm_per_px), round(length_mm / mm_per_px)
    streaks = cv2.GaussianBlur(rng.normal(0, 1, (rows, columns)), (0, 0), sigmaX=14 / mm_per_px, sigmaY=1.6)
    blotches = cv2.GaussianBlur(rng.normal(0, 1, (rows, columns)), (0, 0), sigmaX=4 / mm_per_px, sigmaY=4 / mm_per_px)
    grey = 165 + 22 * streaks / streaks.std() + 9 * blotches / blotches.std()
    face = np.clip(grey[..., None] * np.array([0.72, 0.88, 1.0]), 0, 255).astype(np.uint8)
    for x, y in spots:
        at = (round((x / mm_per_px - 0.5) * 16), round(((width_mm - y) / mm_per_px - 0.5) * 16))
        cv2.circle(face, at, round(5 / mm_per_px * 16), (235, 250, 250), -1, cv2.LINE_AA, 4)
        cv2.circle(face, at, round(2.5 / mm_per_px * 16), (10, 10, 10), -1, cv2.LINE_AA, 4)
    return face


def _draw(face, length_mm, width_mm, camera, lens, size, rng):
    rows, columns = face.shape[:2]
    to_mm = np.array([[length_mm / columns, 0, 0], [0, -width_mm / rows, width_mm], [0, 0, 1.0]])
    to_photo = camera[:, [0, 1, 3]] @ to_mm
    # By the inverse map at twice the size, so that a bending lens is drawn as exactly as a straight one.
    xs, ys = np.meshgrid(np.arange(size[0]) + 0.5, np.arange(size[1]) + 0.5)
    straight = (
        lens.straightened(np.column_stack([xs.ravel(), ys.ravel()]))
        if lens.k
        else np.column_stack([xs.ravel(), ys.ravel()])
    )
    source = np.column_stack([straight, np.ones(len(straight))]) @ np.linalg.inv(to_photo).T
    source = source[:, :2] / source[:, 2:] - 0.5
    maps = source.reshape(size[1], size[0], 2).astype(np.float32)
    floor = np.clip(rng.normal(96, 6, 3), 0, 255)
    photo = cv2.remap(
        face, maps[..., 0], maps[..., 1], cv2.INTER_LINEAR, borderMode=cv2.BORDER_CONSTANT, borderValue=floor
    )
    light = rng.uniform(0.85, 1.1)
    return np.clip(photo * light + rng.normal(0, 2.0, photo.shape), 0, 255).astype(np.uint8)
