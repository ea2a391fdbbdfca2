/** What fingers do to marks: which of drawing, moving, pulling or panning a press begins, and what each slide makes of it. */
import type { MarkKind, MarkShape } from '../../../../api/rows';
import { type BoardMm, distance, minus, type Point, type ScreenPx } from '../../../../geometry/point';
import { type View, viewLink } from '../../../../geometry/view';
import { type Handle, handlePlaces, pulled } from './handles';
import type { Mark } from './history';
import { type Board, distanceTo, drawn, hit, moved, tapped } from './shape';

export const GRAB_PX = 26;
export const TAP_PX = 8;
const SHAKE_PX = 5;

export type Doing =
  | { readonly what: 'draw'; readonly kind: MarkKind; readonly path: Point<BoardMm>[] }
  | { readonly what: 'pull'; readonly mark: Mark; readonly handle: Handle; readonly off: Point<BoardMm> }
  | { readonly what: 'move'; readonly mark: Mark; readonly from: Point<BoardMm> }
  | { readonly what: 'pan' };

interface Ground extends Board {
  readonly view: View;
  readonly marks: readonly Mark[];
  readonly selected: Mark | null;
  /** The kind in hand, or null when the hand only looks and moves. */
  readonly kind: MarkKind | null;
}

export function begin(at: Point<ScreenPx>, { view, selected, kind }: Ground): Doing {
  const p = viewLink('board mm', view).back(at);
  if (selected) {
    const places = handlePlaces(selected.shape, view).map((place) => ({ ...place, away: distance(place.at, at) }));
    const nearest = places.sort((a, b) => a.away - b.away)[0];
    const within = distanceTo(selected.shape, p) * view.scale;
    if (nearest && nearest.away <= GRAB_PX && (nearest.away < 14 || within > 0 || selected.shape.type !== 'ellipse')) {
      return { what: 'pull', mark: selected, handle: nearest.handle.handle, off: minus(nearest.handle.at, p) };
    }
    if (within <= (kind ? 6 : 16)) return { what: 'move', mark: selected, from: p };
  }
  return kind ? { what: 'draw', kind, path: [p] } : { what: 'pan' };
}

/** The shape as it is with the finger at `at`; null when there is none yet. */
export function shapeNow(doing: Doing, at: Point<ScreenPx>, ground: Ground, type: (kind: MarkKind) => MarkShape['type']): MarkShape | null {
  const p = viewLink('board mm', ground.view).back(at);
  switch (doing.what) {
    case 'draw':
      doing.path.push(p);
      return drawn(type(doing.kind), doing.path, SHAKE_PX / ground.view.scale, ground);
    case 'pull':
      return pulled(doing.mark.shape, doing.handle, { x: p.x + doing.off.x, y: p.y + doing.off.y } as Point<BoardMm>, ground);
    case 'move':
      return moved(doing.mark.shape, p.x - doing.from.x, p.y - doing.from.y, ground);
    case 'pan':
      return null;
  }
}

export const tappedShape = (doing: Doing & { what: 'draw' }, type: MarkShape['type'], board: Board): MarkShape | null =>
  doing.path[0] ? tapped(type, doing.path[0], board) : null;

export const under = (at: Point<ScreenPx>, { view, marks }: Ground, reachPx = 18): Mark | null =>
  hit(marks, viewLink('board mm', view).back(at), reachPx / view.scale);
