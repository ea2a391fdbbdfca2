/** Points that remember their frame: a photo pixel cannot be passed where board millimetres are meant. */

/** Pixels of the upright photo, x right, y down. */
export type PhotoPx = 'photo px';
/** Millimetres on the board: x along the grain from the butt end, y across from the lower edge of face A. */
export type BoardMm = 'board mm';
/** CSS pixels of a picture area on the screen, x right, y down, from its upper left corner. */
export type ScreenPx = 'screen px';
export type Frame = PhotoPx | BoardMm | ScreenPx;

declare const frame: unique symbol;

export interface Point<F extends Frame> {
  readonly x: number;
  readonly y: number;
  readonly [frame]: F;
}

const make = <F extends Frame>(x: number, y: number): Point<F> => ({ x, y }) as Point<F>;

export const photoPx = (x: number, y: number): Point<PhotoPx> => make(x, y);
export const boardMm = (x: number, y: number): Point<BoardMm> => make(x, y);
export const screenPx = (x: number, y: number): Point<ScreenPx> => make(x, y);

export const plus = <F extends Frame>(a: Point<F>, b: Point<F>): Point<F> => make(a.x + b.x, a.y + b.y);
export const minus = <F extends Frame>(a: Point<F>, b: Point<F>): Point<F> => make(a.x - b.x, a.y - b.y);
export const times = <F extends Frame>(a: Point<F>, k: number): Point<F> => make(a.x * k, a.y * k);
export const between = <F extends Frame>(a: Point<F>, b: Point<F>, t = 0.5): Point<F> =>
  make(a.x + (b.x - a.x) * t, a.y + (b.y - a.y) * t);
export const distance = <F extends Frame>(a: Point<F>, b: Point<F>): number => Math.hypot(a.x - b.x, a.y - b.y);

/** Twice the signed area of the triangle; with y down, negative when a, b, c turn anticlockwise to the eye. */
export const turn = <F extends Frame>(a: Point<F>, b: Point<F>, c: Point<F>): number =>
  (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);

export const clamp = (value: number, low: number, high: number): number => Math.min(Math.max(value, low), high);
