/** How far a mark may be off when the corners were not met exactly. */
import { apply, inverse, type Matrix, squaringFrom } from './homography';
import { type BoardMm, boardMm, distance, type PhotoPx, photoPx, type Point } from './point';
import type { Quad } from './quad';

/** A careful finger with the magnifier misses a corner by about this much; common practice, no source. */
export const SLIP_PX = 2;
const DIRECTIONS = 16;

const shifted = (q: Quad<PhotoPx>, corner: number, angle: number, px: number): Quad<PhotoPx> =>
  q.map((p, i) => (i === corner ? photoPx(p.x + px * Math.cos(angle), p.y + px * Math.sin(angle)) : p)) as unknown as Quad<PhotoPx>;

function grid(lengthMm: number, widthMm: number): Point<BoardMm>[] {
  const steps = [0, 0.25, 0.5, 0.75, 1];
  return steps.flatMap((u) => steps.map((v) => boardMm(u * lengthMm, v * widthMm)));
}

const moved = (toPhoto: Matrix, toBoard: Matrix, p: Point<BoardMm>): number =>
  distance(p, apply<PhotoPx, BoardMm>(toBoard, apply<BoardMm, PhotoPx>(toPhoto, p)));

/**
 * The most [mm] that a mark anywhere on the face is off when one corner slips by `px` in the worst direction.
 * Null when the corners are no board.
 */
export function slipMm(corners: Quad<PhotoPx>, lengthMm: number, widthMm: number, px = SLIP_PX): number | null {
  const exact = squaringFrom(corners, lengthMm, widthMm);
  if ('refusal' in exact) return null;
  const places = grid(lengthMm, widthMm);
  let worst = 0;
  for (let corner = 0; corner < 4; corner += 1) {
    for (let k = 0; k < DIRECTIONS; k += 1) {
      const off = squaringFrom(shifted(corners, corner, (2 * Math.PI * k) / DIRECTIONS, px), lengthMm, widthMm);
      if ('refusal' in off) return null;
      const back = inverse(off.toPhoto);
      for (const place of places) worst = Math.max(worst, moved(exact.toPhoto, back, place));
    }
  }
  return worst;
}
