/** Rectangles with sides along the axes of their frame. */
import { clamp, type Frame, type Point } from './point';

export interface Rectangle<F extends Frame> {
  readonly low: Point<F>;
  readonly high: Point<F>;
}

const at = <F extends Frame>(x: number, y: number): Point<F> => ({ x, y }) as Point<F>;

export const rectangle = <F extends Frame>(a: Point<F>, b: Point<F>): Rectangle<F> => ({
  low: at(Math.min(a.x, b.x), Math.min(a.y, b.y)),
  high: at(Math.max(a.x, b.x), Math.max(a.y, b.y)),
});

/** The smallest rectangle around the points; at least one point is needed. */
export function around<F extends Frame>(points: readonly Point<F>[]): Rectangle<F> {
  if (points.length === 0) throw new RangeError('No points to put a rectangle around.');
  const xs = points.map((p) => p.x);
  const ys = points.map((p) => p.y);
  return { low: at(Math.min(...xs), Math.min(...ys)), high: at(Math.max(...xs), Math.max(...ys)) };
}

export const widthOf = <F extends Frame>(r: Rectangle<F>): number => r.high.x - r.low.x;
export const heightOf = <F extends Frame>(r: Rectangle<F>): number => r.high.y - r.low.y;
export const centreOf = <F extends Frame>(r: Rectangle<F>): Point<F> =>
  at((r.low.x + r.high.x) / 2, (r.low.y + r.high.y) / 2);

export const holds = <F extends Frame>(r: Rectangle<F>, p: Point<F>): boolean =>
  p.x >= r.low.x && p.x <= r.high.x && p.y >= r.low.y && p.y <= r.high.y;

export const overlap = <F extends Frame>(a: Rectangle<F>, b: Rectangle<F>): boolean =>
  a.low.x <= b.high.x && b.low.x <= a.high.x && a.low.y <= b.high.y && b.low.y <= a.high.y;

export const grown = <F extends Frame>(r: Rectangle<F>, by: number): Rectangle<F> => ({
  low: at(r.low.x - by, r.low.y - by),
  high: at(r.high.x + by, r.high.y + by),
});

export const nearestIn = <F extends Frame>(r: Rectangle<F>, p: Point<F>): Point<F> =>
  at(clamp(p.x, r.low.x, r.high.x), clamp(p.y, r.low.y, r.high.y));
