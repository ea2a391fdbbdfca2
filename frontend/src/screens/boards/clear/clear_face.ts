/** The clear wood of a face, reckoned on the device. The same rules as the shop's, held together by tests/vectors/clear_wood.json. */
import type { BoardRow, Face, MarkKind, MarkRow } from '../../../api/rows';
import { boardMm, clamp } from '../../../geometry/point';
import { boundsOf, distanceTo } from '../photo/marks/shape';

export interface Area {
  x_mm: number;
  y_mm: number;
  length_mm: number;
  width_mm: number;
}

export interface ClearFace {
  /** 0 to 1, by the true shapes of the flaws. */
  clear_share: number;
  /** The largest clear rectangle, the largest in what is left, and so on. */
  rectangles: Area[];
}

/** Sapwood and figure are clear wood by the grading rules, and snipe is planed off. */
export const NOT_CLEAR: readonly MarkKind[] = ['bark_pocket', 'check', 'knot', 'other', 'pitch', 'pith', 'split', 'stain', 'wane', 'worm_holes'];

/** What is thinner lies between two roundings of the same edge. */
const LEAST_MM = 0.5;

type Size = Pick<BoardRow, 'length_mm' | 'width_mm'>;
type Seen = Pick<MarkRow, 'kind' | 'face' | 'through' | 'shape'>;

export function clearFace(board: Size, marks: readonly Seen[], face: Face, most = 5): ClearFace {
  const shapes = marks.filter((mark) => NOT_CLEAR.includes(mark.kind) && (mark.through || mark.face === face)).map((mark) => mark.shape);
  const held = shapes.map((shape) => {
    const { low, high } = boundsOf(shape);
    return { x_mm: low.x, y_mm: low.y, length_mm: high.x - low.x, width_mm: high.y - low.y };
  });
  const rectangles: Area[] = [];
  while (rectangles.length < most) {
    const next = largest(board, [...held, ...rectangles]);
    if (!next) break;
    rectangles.push(next);
  }
  return { clear_share: 1 - spoiltShare(board, shapes), rectangles };
}

/** Points along and across that are looked at; a share is good to half a percent. */
const ALONG = 800;
const ACROSS = 160;

function spoiltShare(board: Size, shapes: readonly MarkRow['shape'][]): number {
  const stepX = board.length_mm / ALONG;
  const stepY = board.width_mm / ACROSS;
  const spoilt = new Uint8Array(ALONG * ACROSS);
  for (const shape of shapes) {
    const { low, high } = boundsOf(shape);
    const columns = [Math.max(0, Math.floor(low.x / stepX)), Math.min(ALONG, Math.ceil(high.x / stepX))] as const;
    const rows = [Math.max(0, Math.floor(low.y / stepY)), Math.min(ACROSS, Math.ceil(high.y / stepY))] as const;
    for (let row = rows[0]; row < rows[1]; row += 1) {
      for (let column = columns[0]; column < columns[1]; column += 1) {
        const at = row * ALONG + column;
        if (!spoilt[at] && distanceTo(shape, boardMm((column + 0.5) * stepX, (row + 0.5) * stepY)) === 0) spoilt[at] = 1;
      }
    }
  }
  return spoilt.reduce((sum, one) => sum + one, 0) / spoilt.length;
}

/**
 * Exactly the largest clear rectangle; of equals the one nearest the butt end, then the lower edge, then the longest. Its
 * sides lie on edges of what is held, so it is found on the grid of those, row by row under a skyline of clear runs.
 */
function largest(board: Size, held: readonly Area[]): Area | null {
  const xs = edges(board.length_mm, held.flatMap((one) => [one.x_mm, one.x_mm + one.length_mm]));
  const ys = edges(board.width_mm, held.flatMap((one) => [one.y_mm, one.y_mm + one.width_mm]));
  const blocked = heldCells(board, held, xs, ys);
  const columns = xs.length - 1;
  /** The row at which the clear run under each cell starts. */
  const floors = new Array<number>(columns).fill(0);
  let best: Area | null = null;
  for (let row = 0; row < ys.length - 1; row += 1) {
    for (let column = 0; column < columns; column += 1) if (blocked[row * columns + column]) floors[column] = row + 1;
    for (const [first, last, floor] of under(floors, row)) {
      const area = { x_mm: xs[first]!, y_mm: ys[floor]!, length_mm: xs[last]! - xs[first]!, width_mm: ys[row + 1]! - ys[floor]! };
      if (Math.min(area.length_mm, area.width_mm) >= LEAST_MM && (!best || isBetter(area, best))) best = area;
    }
  }
  return best;
}

/** (first column, column after the last, floor) of the widest clear rectangles that end with this row. */
function under(floors: readonly number[], row: number): [number, number, number][] {
  const found: [number, number, number][] = [];
  /** Runs not yet closed, each with a lower floor than the one before. */
  const open: [number, number][] = [];
  [...floors, row + 1].forEach((floor, column) => {
    let first = column;
    while (open.length > 0 && open.at(-1)![1] < floor) {
      const [start, lower] = open.pop()!;
      first = start;
      found.push([first, column, lower]);
    }
    if (floor <= row && (open.length === 0 || open.at(-1)![1] > floor)) open.push([first, floor]);
  });
  return found;
}

function isBetter(a: Area, b: Area): boolean {
  const by = [b.length_mm * b.width_mm - a.length_mm * a.width_mm, a.x_mm - b.x_mm, a.y_mm - b.y_mm, b.length_mm - a.length_mm];
  return (by.find((difference) => difference !== 0) ?? 0) < 0;
}

function heldCells(board: Size, held: readonly Area[], xs: readonly number[], ys: readonly number[]): Uint8Array {
  const columnOf = new Map(xs.map((x, at) => [x, at]));
  const rowOf = new Map(ys.map((y, at) => [y, at]));
  const cells = new Uint8Array((xs.length - 1) * (ys.length - 1));
  for (const one of held) {
    const from = columnOf.get(clamp(one.x_mm, 0, board.length_mm))!;
    const to = columnOf.get(clamp(one.x_mm + one.length_mm, 0, board.length_mm))!;
    const low = rowOf.get(clamp(one.y_mm, 0, board.width_mm))!;
    const high = rowOf.get(clamp(one.y_mm + one.width_mm, 0, board.width_mm))!;
    for (let row = low; row < high; row += 1) cells.fill(1, row * (xs.length - 1) + from, row * (xs.length - 1) + to);
  }
  return cells;
}

const edges = (end: number, values: readonly number[]): number[] =>
  [...new Set([0, end, ...values.map((value) => clamp(value, 0, end))])].sort((a, b) => a - b);
