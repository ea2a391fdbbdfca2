/** Shapes of marks in board millimetres: bounds, what a finger hits, moving, and what a drawn path becomes. */
import type { MarkShape, Point as Pair } from '../../../../api/rows';
import { type BoardMm, boardMm, clamp, distance, type Point } from '../../../../geometry/point';
import { distanceToPath, inside, signedArea, thinned } from '../../../../geometry/polygon';
import { around, centreOf, grown, heightOf, type Rectangle, rectangle, widthOf } from '../../../../geometry/rectangle';

export interface Board {
  readonly lengthMm: number;
  readonly widthMm: number;
}

export const LEAST_MM = 1;
const MOST_POINTS = 120;

export const pairPoint = ([x, y]: Pair): Point<BoardMm> => boardMm(x, y);
export const tenth = (value: number): number => Math.round(value * 10) / 10;
const pair = (p: Point<BoardMm>): Pair => [tenth(p.x), tenth(p.y)];

export function boundsOf(shape: MarkShape): Rectangle<BoardMm> {
  if (shape.type === 'ellipse') {
    const { cx_mm, cy_mm, rx_mm, ry_mm } = shape;
    return rectangle(boardMm(cx_mm - rx_mm, cy_mm - ry_mm), boardMm(cx_mm + rx_mm, cy_mm + ry_mm));
  }
  const box = around(shape.points.map(pairPoint));
  return shape.type === 'line' ? grown(box, shape.width_mm / 2) : box;
}

export function middleOf(shape: MarkShape): Point<BoardMm> {
  return centreOf(boundsOf(shape));
}

export function areaOf(shape: MarkShape): number {
  if (shape.type === 'ellipse') return Math.PI * shape.rx_mm * shape.ry_mm;
  if (shape.type === 'outline') return Math.abs(signedArea(shape.points.map(pairPoint)));
  return lineLength(shape.points) * shape.width_mm;
}

export function lineLength(points: readonly Pair[]): number {
  return points.slice(1).reduce((sum, p, i) => sum + distance(pairPoint(points[i]!), pairPoint(p)), 0);
}

/** How far [mm] a place is from the mark's wood; 0 on it. An ellipse's distance is that along the ray from its centre. */
export function distanceTo(shape: MarkShape, p: Point<BoardMm>): number {
  if (shape.type === 'ellipse') {
    const [dx, dy] = [p.x - shape.cx_mm, p.y - shape.cy_mm];
    const out = Math.hypot(dx / shape.rx_mm, dy / shape.ry_mm);
    return out <= 1 ? 0 : Math.hypot(dx, dy) * (1 - 1 / out);
  }
  const points = shape.points.map(pairPoint);
  if (shape.type === 'line') return Math.max(0, distanceToPath(p, points) - shape.width_mm / 2);
  return inside(points, p) ? 0 : distanceToPath(p, points, true);
}

/** The mark under a finger: nearest, and of those that lie under it the smallest, so that a knot in sapwood can be had. */
export function hit<M extends { shape: MarkShape }>(marks: readonly M[], p: Point<BoardMm>, reachMm: number): M | null {
  let best: { mark: M; away: number; area: number } | null = null;
  for (const mark of marks) {
    const away = distanceTo(mark.shape, p);
    if (away > reachMm) continue;
    const area = areaOf(mark.shape);
    if (!best || away < best.away || (away === best.away && area < best.area)) best = { mark, away, area };
  }
  return best?.mark ?? null;
}

export function onBoard(p: Point<BoardMm>, { lengthMm, widthMm }: Board): Point<BoardMm> {
  return boardMm(clamp(p.x, 0, lengthMm), clamp(p.y, 0, widthMm));
}

/** The shape moved as far as it may: its bounds stay on the board, or its middle does when it is larger than that. */
export function moved(shape: MarkShape, dx: number, dy: number, { lengthMm, widthMm }: Board): MarkShape {
  const box = boundsOf(shape);
  const kept = (by: number, low: number, high: number, room: number): number =>
    high - low > room ? clamp(by, -(low + high) / 2, room - (low + high) / 2) : clamp(by, Math.min(-low, 0), Math.max(room - high, 0));
  const x = kept(dx, box.low.x, box.high.x, lengthMm);
  const y = kept(dy, box.low.y, box.high.y, widthMm);
  if (shape.type === 'ellipse') return { ...shape, cx_mm: tenth(shape.cx_mm + x), cy_mm: tenth(shape.cy_mm + y) };
  return { ...shape, points: shape.points.map(([px, py]) => [tenth(px + x), tenth(py + y)]) };
}

export function ellipseIn(box: Rectangle<BoardMm>): MarkShape {
  return {
    type: 'ellipse',
    cx_mm: tenth((box.low.x + box.high.x) / 2),
    cy_mm: tenth((box.low.y + box.high.y) / 2),
    rx_mm: tenth(Math.max(widthOf(box) / 2, LEAST_MM / 2)),
    ry_mm: tenth(Math.max(heightOf(box) / 2, LEAST_MM / 2)),
  };
}

function boxed(box: Rectangle<BoardMm>): MarkShape {
  const { low, high } = box;
  return { type: 'outline', points: [[low.x, low.y], [high.x, low.y], [high.x, high.y], [low.x, high.y]].map(([x, y]) => [tenth(x!), tenth(y!)]) };
}

const LINE_WIDTH_MM = 3;
/** A path this much longer than the way from its start to its end went round something; an L is at most 1.41 times. */
const WENT_ROUND = 1.5;

/** What a path drawn by finger becomes; null while it is too short to be meant. `fingerMm` is a finger's shake on the board. */
export function drawn(type: MarkShape['type'], path: readonly Point<BoardMm>[], fingerMm: number, board: Board): MarkShape | null {
  const points = path.map((p) => onBoard(p, board));
  const [first, last] = [points[0], points.at(-1)];
  if (!first || !last) return null;
  const way = points.slice(1).reduce((sum, p, i) => sum + distance(points[i]!, p), 0);
  if (way < fingerMm * 2) return null;
  if (type === 'ellipse') return ellipseIn(rectangle(first, last));
  if (type === 'line') {
    const thin = thinned(points, fingerMm);
    return lineLength(thin.map(pair)) < LEAST_MM ? null : { type: 'line', points: thin.map(pair), width_mm: LINE_WIDTH_MM };
  }
  if (way <= WENT_ROUND * distance(first, last)) {
    const box = rectangle(first, last);
    return widthOf(box) < LEAST_MM || heightOf(box) < LEAST_MM ? null : boxed(box);
  }
  const round = thinned(points, fingerMm / 2).slice(0, MOST_POINTS);
  const shape: MarkShape = { type: 'outline', points: round.map(pair) };
  return round.length < 3 || areaOf(shape) < LEAST_MM ? null : shape;
}

/** What a tap becomes: a mark of a usual size there, to be pulled into shape. */
export function tapped(type: MarkShape['type'], at: Point<BoardMm>, board: Board): MarkShape {
  const p = onBoard(at, board);
  const [half, deep] = type === 'ellipse' ? [10, 8] : [30, 12];
  const box = rectangle(
    onBoard(boardMm(p.x - half, p.y - deep), board),
    onBoard(boardMm(p.x + half, p.y + deep), board),
  );
  if (type === 'ellipse') return ellipseIn(box);
  if (type === 'outline') return boxed(box);
  return { type: 'line', points: [[tenth(box.low.x), tenth(p.y)], [tenth(box.high.x), tenth(p.y)]], width_mm: LINE_WIDTH_MM };
}

/** Longest measure first: a line's length and width, else along the grain and across. */
export function sizeOf(shape: MarkShape): readonly [along: number, across: number] {
  if (shape.type === 'line') return [lineLength(shape.points), shape.width_mm];
  const box = boundsOf(shape);
  return [widthOf(box), heightOf(box)];
}
