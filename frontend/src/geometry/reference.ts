/** Points at known places of a board, more than four: the map that fits them best, and how far each is off. */
import { apply, inverse, type Matrix, multiply } from './homography';
import { type BoardMm, boardMm, distance, type PhotoPx, photoPx, type Point } from './point';

export interface Reference {
  readonly px: Point<PhotoPx>;
  /** From the butt end, from the lower edge as the face is looked at. */
  readonly mm: Point<BoardMm>;
}

export interface Fit {
  readonly toBoard: Matrix;
  readonly toPhoto: Matrix;
  /** As given, or with the edges put right where they were taken for each other. */
  readonly references: readonly Reference[];
  /** How far each point is on the board from where the others put it [mm]. */
  readonly residualsMm: readonly number[];
  readonly inPhoto: (p: Point<BoardMm>) => Point<PhotoPx>;
}

const LEAST_APART_PX = 4;
const LEAST_APART_MM = 1;
/** A tape read a little long is no mistake. */
const TAPE_SLACK_MM = 3;

/** The fit, or in words why the points allow none. Same rules as the server's. */
export function fitted(given: readonly Reference[], lengthMm: number, widthMm: number): Fit | { refusal: string } {
  const refusal = refuse(given, lengthMm, widthMm);
  if (refusal) return { refusal };
  const first = solved(given);
  if (!first) return IN_LINE;
  if (!isMirrored(first, given)) return fitOf(first, given);
  const righted = given.map(({ px, mm }) => ({ px, mm: boardMm(mm.x, widthMm - mm.y) }));
  const second = solved(righted);
  return second ? fitOf(second, righted) : IN_LINE;
}

const IN_LINE = { refusal: 'The points lie in one line. Set some on the other edge of the board too.' };

function refuse(given: readonly Reference[], lengthMm: number, widthMm: number): string | null {
  if (given.length < 4) return 'Four points are needed: two on each edge.';
  for (const [i, { px, mm }] of given.entries()) {
    if (mm.x < -TAPE_SLACK_MM || mm.x > lengthMm + TAPE_SLACK_MM) {
      return `Point ${i + 1} is said to lie beyond the board's ends. Correct its distance, or the board's length.`;
    }
    const twin = given.findIndex((other, j) => j < i && distance(other.px, px) < LEAST_APART_PX);
    if (twin >= 0) return `Points ${twin + 1} and ${i + 1} lie on the same spot. Move one of them.`;
    const same = given.findIndex((other, j) => j < i && distance(other.mm, mm) < LEAST_APART_MM);
    if (same >= 0) return `Points ${same + 1} and ${i + 1} are said to be the same place of the board. Correct one of them.`;
  }
  const across = given.map(({ mm }) => mm.y);
  return Math.max(...across) - Math.min(...across) < widthMm / 4 ? IN_LINE.refusal : null;
}

function fitOf(toBoard: Matrix, references: readonly Reference[]): Fit {
  const toPhoto = inverse(toBoard);
  return {
    toBoard,
    toPhoto,
    references,
    residualsMm: references.map(({ px, mm }) => distance(apply<PhotoPx, BoardMm>(toBoard, px), mm)),
    inPhoto: (p) => apply<BoardMm, PhotoPx>(toPhoto, p),
  };
}

/** A camera sees y up where the photo's y runs down; if not, upper and lower edge were taken for each other. */
function isMirrored(toBoard: Matrix, references: readonly Reference[]): boolean {
  const sum = references.reduce((s, { px }) => ({ x: s.x + px.x, y: s.y + px.y }), { x: 0, y: 0 });
  const [x, y] = [sum.x / references.length, sum.y / references.length];
  const [a, b, c] = [photoPx(x, y), photoPx(x + 1, y), photoPx(x, y + 1)].map((p) => apply<PhotoPx, BoardMm>(toBoard, p));
  return (b!.x - a!.x) * (c!.y - a!.y) - (b!.y - a!.y) * (c!.x - a!.x) > 0;
}

/**
 * Least squares by the direct linear transform on numbers of size one, the errors weighed as board millimetres by a few rounds.
 * Source: R. Hartley, A. Zisserman, Multiple View Geometry in Computer Vision, 2nd ed. 2004, sections 4.1 and 4.4 (from memory).
 */
function solved(references: readonly Reference[]): Matrix | null {
  const from = spread(references.map(({ px }) => px));
  const to = spread(references.map(({ mm }) => mm));
  const pairs = references.map(({ px, mm }) => ({
    u: (px.x - from.x) / from.size, v: (px.y - from.y) / from.size, x: (mm.x - to.x) / to.size, y: (mm.y - to.y) / to.size,
  }));
  let h: number[] | null = null;
  for (let round = 0; round < 4; round += 1) {
    const rows: number[][] = [];
    for (const { u, v, x, y } of pairs) {
      const w = h ? 1 / (h[6]! * u + h[7]! * v + 1) : 1;
      rows.push([u, v, 1, 0, 0, 0, -u * x, -v * x, x].map((value) => value * w));
      rows.push([0, 0, 0, u, v, 1, -u * y, -v * y, y].map((value) => value * w));
    }
    h = leastSquares(rows);
    if (!h) return null;
  }
  if (!h) return null;
  const unit: Matrix = [h[0]!, h[1]!, h[2]!, h[3]!, h[4]!, h[5]!, h[6]!, h[7]!, 1];
  const small: Matrix = [1 / from.size, 0, -from.x / from.size, 0, 1 / from.size, -from.y / from.size, 0, 0, 1];
  const large: Matrix = [to.size, 0, to.x, 0, to.size, to.y, 0, 0, 1];
  const toBoard = multiply(large, multiply(unit, small));
  return toBoard.every(Number.isFinite) ? toBoard : null;
}

function spread(points: readonly { x: number; y: number }[]): { x: number; y: number; size: number } {
  const n = points.length;
  const x = points.reduce((sum, p) => sum + p.x, 0) / n;
  const y = points.reduce((sum, p) => sum + p.y, 0) / n;
  const size = points.reduce((sum, p) => sum + Math.hypot(p.x - x, p.y - y), 0) / n || 1;
  return { x, y, size };
}

/** The unknowns of rows [a1 .. an, b]; null where they do not settle them. Householder reflections, as normal equations lose half the digits. */
function leastSquares(given: number[][]): number[] | null {
  const rows = given.map((row) => [...row]);
  const n = rows[0]!.length - 1;
  for (let k = 0; k < n; k += 1) {
    const norm = Math.hypot(...rows.slice(k).map((row) => row[k]!));
    if (norm < 1e-9) return null;
    const alpha = rows[k]![k]! > 0 ? -norm : norm;
    const v = rows.slice(k).map((row, i) => (i === 0 ? row[k]! - alpha : row[k]!));
    const vv = v.reduce((sum, value) => sum + value * value, 0);
    for (let column = k; column <= n; column += 1) {
      const dot = v.reduce((sum, value, i) => sum + value * rows[k + i]![column]!, 0);
      v.forEach((value, i) => (rows[k + i]![column]! -= (2 * dot * value) / vv));
    }
  }
  const out = Array.from({ length: n }, () => 0);
  for (let k = n - 1; k >= 0; k -= 1) {
    const rest = out.reduce((sum, value, j) => (j > k ? sum + rows[k]![j]! * value : sum), 0);
    out[k] = (rows[k]![n]! - rest) / rows[k]![k]!;
  }
  return out;
}
