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
  if (q.some((p) => !Number.isFinite(p.x) || !Number.isFinite(p.y))) return 'A corner is missing. Place all four.';
  if (tooClose(q)) return 'Two corners lie on the same spot. Put one on each corner of the board.';
  if (crossed(q)) {
    return 'The corners are crossed: the outline cuts itself. Put both butt-end corners at the same end of the board.';
  }
  if (inOneLine(q)) return 'Three corners lie in one line. Put one on each corner of the board.';
  const turns = q.map((p, i) => Math.sign(turn(p, q[(i + 1) % 4]!, q[(i + 2) % 4]!)));
  if (new Set(turns).size > 1) return 'One corner lies inside the other three. Put one on each corner of the board.';
  return null;
}

function anticlockwise<F extends Frame>(q: Quad<F>): Quad<F> {
  const x = (q[0].x + q[1].x + q[2].x + q[3].x) / 4;
  const y = (q[0].y + q[1].y + q[2].y + q[3].y) / 4;
  const angle = (p: Point<F>): number => Math.atan2(p.y - y, p.x - x);
  return [...q].sort((a, b) => angle(b) - angle(a)) as unknown as Quad<F>;
}

/**
 * The same four points in the right order, or null when the picture does not tell.
 * A photo is never mirrored, so the order must run anticlockwise; the ends are the short sides of a long board; the butt
 * end is where both corners placed as butt-end corners are, or else, if the outline is not crossed, the first of them.
 */
export function inOrder(q: Quad<PhotoPx>, lengthMm: number, widthMm: number): Quad<PhotoPx> | null {
  const round = anticlockwise(q);
  if (refuseQuad(round)) return null;
  const turns = [0, 1, 2, 3].map((k) => round.map((_, i) => round[(i + k) % 4]!) as unknown as Quad<PhotoPx>);
  const long = ([a, b, c, d]: Quad<PhotoPx>): number =>
    (distance(a, b) + distance(c, d)) / (distance(b, c) + distance(d, a));
  const clear = lengthMm / widthMm > CLEARLY_LONG ? turns.filter((t) => long(t) > CLEARLY_LONG) : [];
  const possible = clear.length > 0 ? clear : turns;
  const buttPair = possible.filter((t) => [t[0], t[3]].every((p) => p === q[0] || p === q[3]));
  if (buttPair.length === 1) return buttPair[0]!;
  if (crossed(q)) return null;
  return clear.find((t) => t[0] === q[0] || t[3] === q[0]) ?? null;
}
