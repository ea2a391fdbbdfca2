/** Polygons and paths as lists of points; a polygon closes from its last point to its first. */
import { between, clamp, distance, type Frame, type Point } from './point';

export function signedArea<F extends Frame>(points: readonly Point<F>[]): number {
  let twice = 0;
  points.forEach((p, i) => {
    const q = points[(i + 1) % points.length]!;
    twice += p.x * q.y - q.x * p.y;
  });
  return twice / 2;
}

/** Even-odd rule; a point on the border may fall either way. */
export function inside<F extends Frame>(points: readonly Point<F>[], p: Point<F>): boolean {
  let odd = false;
  points.forEach((a, i) => {
    const b = points[(i + 1) % points.length]!;
    if (a.y > p.y !== b.y > p.y && p.x < a.x + ((p.y - a.y) * (b.x - a.x)) / (b.y - a.y)) odd = !odd;
  });
  return odd;
}

export function distanceToSegment<F extends Frame>(p: Point<F>, a: Point<F>, b: Point<F>): number {
  const square = (b.x - a.x) ** 2 + (b.y - a.y) ** 2;
  const along = square === 0 ? 0 : ((p.x - a.x) * (b.x - a.x) + (p.y - a.y) * (b.y - a.y)) / square;
  return distance(p, between(a, b, clamp(along, 0, 1)));
}

export function distanceToPath<F extends Frame>(p: Point<F>, points: readonly Point<F>[], closed = false): number {
  if (points.length === 1) return distance(p, points[0]!);
  let nearest = Infinity;
  const last = closed ? points.length : points.length - 1;
  for (let i = 0; i < last; i += 1) {
    nearest = Math.min(nearest, distanceToSegment(p, points[i]!, points[(i + 1) % points.length]!));
  }
  return nearest;
}

/** Fewer points within `tolerance` of the drawn path (Ramer 1972, Douglas and Peucker 1973). */
export function thinned<F extends Frame>(points: readonly Point<F>[], tolerance: number): Point<F>[] {
  if (points.length < 3) return [...points];
  const first = points[0]!;
  const last = points[points.length - 1]!;
  let farthest = 0;
  let at = 0;
  for (let i = 1; i < points.length - 1; i += 1) {
    const away = distanceToSegment(points[i]!, first, last);
    if (away > farthest) [farthest, at] = [away, i];
  }
  if (farthest <= tolerance) return [first, last];
  return [...thinned(points.slice(0, at + 1), tolerance).slice(0, -1), ...thinned(points.slice(at), tolerance)];
}
