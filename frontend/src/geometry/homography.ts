/** Plane perspective maps: from pixels of the photo to millimetres of the board and back, without the server. */
import { clockwise, type Quad, refuseQuad, refuseSize } from './quad';
import { boardMm, type BoardMm, type Frame, photoPx, type PhotoPx, type Point } from './point';

/** Three rows of a 3x3 matrix; maps (x, y, 1) up to scale. */
export type Matrix = readonly [number, number, number, number, number, number, number, number, number];

export function multiply(a: Matrix, b: Matrix): Matrix {
  const cell = (row: number, column: number): number =>
    a[row * 3]! * b[column]! + a[row * 3 + 1]! * b[3 + column]! + a[row * 3 + 2]! * b[6 + column]!;
  return [0, 1, 2].flatMap((r) => [0, 1, 2].map((c) => cell(r, c))) as unknown as Matrix;
}

/** By the adjugate: exact up to rounding, and scale does not matter here. */
export function inverse([a, b, c, d, e, f, g, h, i]: Matrix): Matrix {
  const det = a * (e * i - f * h) - b * (d * i - f * g) + c * (d * h - e * g);
  if (!Number.isFinite(det) || det === 0) throw new RangeError('This map squeezes the board flat; it cannot be undone.');
  const adjugate = [
    e * i - f * h, c * h - b * i, b * f - c * e,
    f * g - d * i, a * i - c * g, c * d - a * f,
    d * h - e * g, b * g - a * h, a * e - b * d,
  ];
  return adjugate.map((value) => value / det) as unknown as Matrix;
}

export function apply<A extends Frame, B extends Frame>(m: Matrix, p: Point<A>): Point<B> {
  const w = m[6] * p.x + m[7] * p.y + m[8];
  return { x: (m[0] * p.x + m[1] * p.y + m[2]) / w, y: (m[3] * p.x + m[4] * p.y + m[5]) / w } as Point<B>;
}

/**
 * The map from the unit square (0,0) (1,0) (1,1) (0,1) to four points.
 * Source: P. S. Heckbert, Fundamentals of Texture Mapping and Image Warping, 1989, section 2.2.3.
 */
function fromUnitSquare([p0, p1, p2, p3]: Quad<Frame>): Matrix {
  const sx = p0.x - p1.x + p2.x - p3.x;
  const sy = p0.y - p1.y + p2.y - p3.y;
  const dx1 = p1.x - p2.x;
  const dx2 = p3.x - p2.x;
  const dy1 = p1.y - p2.y;
  const dy2 = p3.y - p2.y;
  const det = dx1 * dy2 - dx2 * dy1;
  const g = (sx * dy2 - dx2 * sy) / det;
  const h = (dx1 * sy - sx * dy1) / det;
  return [
    p1.x - p0.x + g * p1.x, p3.x - p0.x + h * p3.x, p0.x,
    p1.y - p0.y + g * p1.y, p3.y - p0.y + h * p3.y, p0.y,
    g, h, 1,
  ];
}

export interface Squaring {
  readonly toBoard: Matrix;
  readonly toPhoto: Matrix;
}

export interface Refusal {
  readonly refusal: string;
}

/** Corners in the order butt-end lower, far-end lower, far-end upper, butt-end upper, as the face is looked at. */
export function squaringFrom(corners: Quad<PhotoPx>, lengthMm: number, widthMm: number): Squaring | Refusal {
  const refusal = refuseSize(lengthMm, widthMm) ?? refuseQuad(corners);
  if (refusal) return { refusal };
  if (clockwise(corners)) return { refusal: 'The board would come out mirrored: lower and upper edge are swapped.' };
  const unitToPhoto = fromUnitSquare(corners);
  const toPhoto = multiply(unitToPhoto, [1 / lengthMm, 0, 0, 0, 1 / widthMm, 0, 0, 0, 1]);
  return { toPhoto, toBoard: inverse(toPhoto) };
}

export const boardCorners = (lengthMm: number, widthMm: number): Quad<BoardMm> => [
  boardMm(0, 0), boardMm(lengthMm, 0), boardMm(lengthMm, widthMm), boardMm(0, widthMm),
];

export const asPhotoQuad = (corners: readonly (readonly [number, number])[]): Quad<PhotoPx> =>
  corners.map(([x, y]) => photoPx(x, y)) as unknown as Quad<PhotoPx>;
