/** The four corners of a board in a photo: which order, and which sets of four cannot be a board. */
import { signedArea } from './polygon';
import { distance, type Frame, type PhotoPx, type Point, turn } from './point';

/** Butt-end lower, far-end lower, far-end upper, butt-end upper. */
export type Quad<F extends Frame> = readonly [Point<F>, Point<F>, Point<F>, Point<F>];

/** Closer than this, two corners are the same finger twice. */
const SAME_PX = 4;
/** Height of the flattest triangle of three corners that still counts as a triangle. */
const FLAT_PX = 2;
/** From this length to width, the picture itself tells the long edges from the ends. */
const CLEARLY_LONG = 1.5;

/** As the eye sees it, y down: the right order of corners runs anticlockwise. */
export const clockwise = <F extends Frame>(q: Quad<F>): boolean => signedArea(q) > 0;

const segmentsCross = <F extends Frame>(a: Point<F>, b: Point<F>, c: Point<F>, d: Point<F>): boolean =>
  turn(a, b, c) * turn(a, b, d) < 0 && turn(c, d, a) * turn(c, d, b) < 0;

/** Two opposite edges that cut each other: a bow tie. */
export const crossed = <F extends Frame>([a, b, c, d]: Quad<F>): boolean =>
  segmentsCross(a, b, c, d) || segmentsCross(b, c, d, a);

function tooClose<F extends Frame>(q: Quad<F>): boolean {
  return q.some((p, i) => q.slice(i + 1).some((other) => distance(p, other) < SAME_PX));
}

function inOneLine<F extends Frame>(q: Quad<F>): boolean {
  return q.some((_, i) => {
    const [a, b, c] = q.filter((__, j) => j !== i) as [Point<F>, Point<F>, Point<F>];
    const longest = Math.max(distance(a, b), distance(b, c), distance(a, c));
    return Math.abs(turn(a, b, c)) / longest < FLAT_PX;
  });
}

/** Why these four cannot be a board, in words that say what would work; null when they can. */
export function refuseQuad<F extends Frame>(q: Quad<F>): string | null {
  if (q.length !== 4 || q.some((p) => !Number.isFinite(p.x) || !Number.isFinite(p.y))) return 'A corner is missing. Place all four.';
  if (tooClose(q)) return 'Two corners lie on the same spot. Put one on each corner of the board.';
  if (crossed(q)) {
    return 'The corners are crossed: the outline cuts itself. Go round the board along its edge.';
  }
  if (inOneLine(q)) return 'Three corners lie in one line. Put one on each corner of the board.';
  const turns = q.map((p, i) => Math.sign(turn(p, q[(i + 1) % 4]!, q[(i + 2) % 4]!)));
  if (new Set(turns).size > 1) return 'One corner lies inside the other three. Put one on each corner of the board.';
  return null;
}

export const refuseSize = (lengthMm: number, widthMm: number): string | null =>
  lengthMm > 0 && widthMm > 0 && Number.isFinite(lengthMm * widthMm)
    ? null
    : 'The board has no size yet. Give its length and width as the tape shows them.';

const SIDES_SWAPPED =
  'The first two corners lie on a short side. Start at the lower corner of the butt end and go along the lower edge.';

/** Whether the sides placed as length are clearly the short ones; foreshortening never turns a real board that far. */
function endsFirst<F extends Frame>([a, b, c, d]: Quad<F>, lengthMm: number, widthMm: number): boolean {
  const seen = (distance(a, b) + distance(c, d)) / (distance(b, c) + distance(d, a));
  const real = lengthMm / widthMm;
  return (real > CLEARLY_LONG && seen < 1 / CLEARLY_LONG) || (real < 1 / CLEARLY_LONG && seen > CLEARLY_LONG);
}

/**
 * The four corners in the right order, or why they cannot be put right. Same rule as the server's.
 * A clockwise round is a mirror image, which no camera sees: one along the upper edge keeps its butt end, one that goes
 * up the butt end first keeps its first corner.
 */
export function inOrder(q: Quad<PhotoPx>, lengthMm: number, widthMm: number): Quad<PhotoPx> | { refusal: string } {
  const refusal = refuseSize(lengthMm, widthMm) ?? refuseQuad(q);
  if (refusal) return { refusal };
  const [a, b, c, d] = q;
  const short = endsFirst(q, lengthMm, widthMm);
  if (clockwise(q)) return short ? [a, d, c, b] : [d, c, b, a];
  return short ? { refusal: SIDES_SWAPPED } : q;
}
