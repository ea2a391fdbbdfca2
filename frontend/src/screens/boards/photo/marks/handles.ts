/** Handles by which a selected mark is pulled into shape, and the button twins of pulling. */
import type { MarkShape } from '../../../../api/rows';
import { type BoardMm, boardMm, distance, type Point, screenPx, type ScreenPx } from '../../../../geometry/point';
import { rectangle } from '../../../../geometry/rectangle';
import { type View, viewLink } from '../../../../geometry/view';
import { type Board, boundsOf, ellipseIn, LEAST_MM, middleOf, onBoard, pairPoint, sizeOf, tenth } from './shape';

/** A side of an ellipse, or the number of a point. */
export type Handle = 'left' | 'right' | 'low' | 'high' | number;

export interface HandleAt {
  readonly handle: Handle;
  /** Where it really is. */
  readonly at: Point<BoardMm>;
}

export function handlesOf(shape: MarkShape): HandleAt[] {
  if (shape.type !== 'ellipse') return shape.points.map((p, i) => ({ handle: i, at: pairPoint(p) }));
  const { low, high } = boundsOf(shape);
  return [
    { handle: 'left', at: boardMm(low.x, shape.cy_mm) },
    { handle: 'right', at: boardMm(high.x, shape.cy_mm) },
    { handle: 'low', at: boardMm(shape.cx_mm, low.y) },
    { handle: 'high', at: boardMm(shape.cx_mm, high.y) },
  ];
}

/** Handles stand off small marks, away from their middle, so that a finger can tell one from another. */
export const STAND_OFF_PX = 20;
export function standOff(at: Point<ScreenPx>, middle: Point<ScreenPx>): Point<ScreenPx> {
  const away = distance(at, middle);
  if (away === 0) return screenPx(at.x + STAND_OFF_PX, at.y);
  const k = STAND_OFF_PX / away;
  return screenPx(at.x + (at.x - middle.x) * k, at.y + (at.y - middle.y) * k);
}

/** Where each handle of the selected mark is drawn and taken hold of. */
export function handlePlaces(shape: MarkShape, view: View): { handle: HandleAt; at: Point<ScreenPx> }[] {
  const { there } = viewLink('board mm', view);
  const middle = there(middleOf(shape));
  return handlesOf(shape).map((handle) => ({
    handle,
    at: shape.type === 'outline' ? there(handle.at) : standOff(there(handle.at), middle),
  }));
}

export function pulled(shape: MarkShape, handle: Handle, to: Point<BoardMm>, board: Board): MarkShape {
  const p = onBoard(to, board);
  if (shape.type !== 'ellipse') {
    return { ...shape, points: shape.points.map((old, i) => (i === handle ? [tenth(p.x), tenth(p.y)] : old)) };
  }
  let { low, high } = boundsOf(shape);
  if (handle === 'left') low = boardMm(Math.min(p.x, high.x - LEAST_MM), low.y);
  if (handle === 'right') high = boardMm(Math.max(p.x, low.x + LEAST_MM), high.y);
  if (handle === 'low') low = boardMm(low.x, Math.min(p.y, high.y - LEAST_MM));
  if (handle === 'high') high = boardMm(high.x, Math.max(p.y, low.y + LEAST_MM));
  return ellipseIn(rectangle(low, high));
}

/** Longer or shorter by `alongMm`, wider or narrower by `acrossMm`, about its middle; a line's width is its own. */
export function resized(shape: MarkShape, alongMm: number, acrossMm: number, board: Board): MarkShape {
  const [along, across] = sizeOf(shape);
  const u = Math.max(along + alongMm, LEAST_MM) / Math.max(along, 0.1);
  const v = Math.max(across + acrossMm, LEAST_MM) / Math.max(across, 0.1);
  if (shape.type === 'ellipse') return { ...shape, rx_mm: tenth(shape.rx_mm * u), ry_mm: tenth(shape.ry_mm * v) };
  const { low, high } = boundsOf(shape);
  const [cx, cy] = [(low.x + high.x) / 2, (low.y + high.y) / 2];
  const grownPoint = (x: number, y: number, w: number): [number, number] => {
    const p = onBoard(boardMm(cx + (x - cx) * u, cy + (y - cy) * w), board);
    return [tenth(p.x), tenth(p.y)];
  };
  if (shape.type === 'line') {
    return { ...shape, width_mm: tenth(shape.width_mm * v), points: shape.points.map(([x, y]) => grownPoint(x, y, u)) };
  }
  return { ...shape, points: shape.points.map(([x, y]) => grownPoint(x, y, v)) };
}
