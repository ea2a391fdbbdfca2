/** How far a mark may be off when the corners were not met exactly. */
import { apply, squaringFrom } from './homography';
import { type BoardMm, boardMm, type PhotoPx, photoPx, type Point } from './point';
import type { Quad } from './quad';

/** A careful finger with the magnifier misses a corner by about this much; common practice, no source. */
export const SLIP_PX = 2;
const DIRECTIONS = 36;
const STEP_PX = 0.25;

export interface Slip {
  /** Root mean square at the worst place, each corner slipping in a direction of its own. */
  readonly typicalMm: number;
  /** Every corner slipping in its worst direction. */
  readonly worstMm: number;
}

/** How a mark moves on the board, along and across, with one corner moved by one pixel along x or y of the photo. */
type Move = readonly [along: number, across: number];

const shifted = (q: Quad<PhotoPx>, corner: number, dx: number, dy: number): Quad<PhotoPx> =>
  q.map((p, i) => (i === corner ? photoPx(p.x + dx, p.y + dy) : p)) as unknown as Quad<PhotoPx>;

function grid(lengthMm: number, widthMm: number): Point<BoardMm>[] {
  const across = [0, 0.25, 0.5, 0.75, 1];
  return Array.from({ length: 13 }, (_, i) => across.map((v) => boardMm((i / 12) * lengthMm, v * widthMm))).flat();
}

/** For each of the eight corner coordinates, the moves of every place; null when the corners are no board. */
function movesOf(corners: Quad<PhotoPx>, lengthMm: number, widthMm: number): Move[][] | null {
  const exact = squaringFrom(corners, lengthMm, widthMm);
  if ('refusal' in exact) return null;
  const places = grid(lengthMm, widthMm).map((p) => apply<BoardMm, PhotoPx>(exact.toPhoto, p));
  const all: Move[][] = [];
  for (let k = 0; k < 8; k += 1) {
    const [dx, dy] = k % 2 === 0 ? [STEP_PX, 0] : [0, STEP_PX];
    const ahead = squaringFrom(shifted(corners, k >> 1, dx, dy), lengthMm, widthMm);
    const behind = squaringFrom(shifted(corners, k >> 1, -dx, -dy), lengthMm, widthMm);
    if ('refusal' in ahead || 'refusal' in behind) return null;
    all.push(
      places.map((p): Move => {
        const a = apply<PhotoPx, BoardMm>(ahead.toBoard, p);
        const b = apply<PhotoPx, BoardMm>(behind.toBoard, p);
        return [(a.x - b.x) / (2 * STEP_PX), (a.y - b.y) / (2 * STEP_PX)];
      }),
    );
  }
  return all;
}

/**
 * How far a mark may be off when the corners slip by `px`; null when they are no board. Same figure as the server's.
 * First order in the slip: good while the slip is small beside the board's width in the photo. A long narrow board seen
 * small is at the mercy of a pixel, because its length is foreshortened by what the widths of its two ends say.
 */
export function slipOf(corners: Quad<PhotoPx>, lengthMm: number, widthMm: number, px = SLIP_PX): Slip | null {
  const moves = movesOf(corners, lengthMm, widthMm);
  if (!moves) return null;
  let worst = 0;
  let square = 0;
  moves[0]!.forEach((_, place) => {
    const here = moves.map((one) => one[place]!);
    square = Math.max(square, here.reduce((sum, [u, v]) => sum + u * u + v * v, 0));
    for (let k = 0; k < DIRECTIONS; k += 1) {
      const [cos, sin] = [Math.cos((Math.PI * k) / DIRECTIONS), Math.sin((Math.PI * k) / DIRECTIONS)];
      const along = here.map(([u, v]) => u * cos + v * sin);
      const sum = [0, 2, 4, 6].reduce((total, i) => total + Math.hypot(along[i]!, along[i + 1]!), 0);
      worst = Math.max(worst, sum);
    }
  });
  return { typicalMm: Math.sqrt(square / 2) * px, worstMm: worst * px };
}
