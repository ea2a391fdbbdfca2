/** Going from one frame to another is always one call that names both: `convert(p, { from, to, by })`. */
import { apply, type Squaring } from './homography';
import { type BoardMm, boardMm, type Frame, type PhotoPx, type Point } from './point';

/** A pair of frames and the way between them, both ways. */
export interface Link<A extends Frame, B extends Frame> {
  readonly ends: readonly [A, B];
  readonly there: (p: Point<A>) => Point<B>;
  readonly back: (p: Point<B>) => Point<A>;
}

interface Route<A extends Frame, B extends Frame> {
  readonly from: A;
  readonly to: B;
  readonly by: NoInfer<Link<A, B> | Link<B, A>>;
}

export function convert<A extends Frame, B extends Frame>(p: Point<NoInfer<A>>, { from, by }: Route<A, B>): Point<B> {
  return by.ends[0] === from ? (by as Link<A, B>).there(p) : (by as Link<B, A>).back(p);
}

/** From the first end of `first` to the last end of `second`. */
export function joined<A extends Frame, B extends Frame, C extends Frame>(
  first: Link<A, B>,
  second: Link<B, C>,
): Link<A, C> {
  return {
    ends: [first.ends[0], second.ends[1]],
    there: (p) => second.there(first.there(p)),
    back: (p) => first.back(second.back(p)),
  };
}

export const photoAndBoard = (squaring: Squaring): Link<PhotoPx, BoardMm> => ({
  ends: ['photo px', 'board mm'],
  there: (p) => apply(squaring.toBoard, p),
  back: (p) => apply(squaring.toPhoto, p),
});

/** A place on face B in face A's coordinates, and the other way round: the board turned over along its length. */
export const mirrored = (p: Point<BoardMm>, widthMm: number): Point<BoardMm> => boardMm(p.x, widthMm - p.y);
