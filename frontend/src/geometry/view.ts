/** What part of a picture is on the screen: pan, pinch, zoom buttons. Content is photo pixels or board millimetres. */
import type { Link } from './convert';
import { type BoardMm, clamp, distance, between, type Frame, type PhotoPx, type Point, type ScreenPx, screenPx } from './point';
import { centreOf, heightOf, type Rectangle, widthOf } from './rectangle';

/** Screen = content x scale + (x, y); `up` is -1 where the content's y grows upwards on the screen. */
export interface View {
  readonly scale: number;
  readonly x: number;
  readonly y: number;
  readonly up: 1 | -1;
}

export interface Size {
  readonly width: number;
  readonly height: number;
}

export interface Limits {
  readonly least: number;
  readonly most: number;
}

export function viewLink<F extends PhotoPx | BoardMm>(content: F, view: View): Link<F, ScreenPx> {
  return {
    ends: [content, 'screen px'],
    there: (p) => screenPx(p.x * view.scale + view.x, p.y * view.scale * view.up + view.y),
    back: (p) => ({ x: (p.x - view.x) / view.scale, y: (p.y - view.y) / (view.scale * view.up) }) as Point<F>,
  };
}

/** The view in which the whole of `content` is seen, centred, with `margin` screen pixels around it. */
export function fitted<F extends Frame>(content: Rectangle<F>, stage: Size, margin: number, up: 1 | -1 = 1): View {
  const scale = Math.max(
    1e-6,
    Math.min((stage.width - 2 * margin) / widthOf(content), (stage.height - 2 * margin) / heightOf(content)),
  );
  return centredOn(centreOf(content), { scale, x: 0, y: 0, up }, stage);
}

export function centredOn<F extends Frame>(p: Point<F>, view: View, stage: Size): View {
  return { ...view, x: stage.width / 2 - p.x * view.scale, y: stage.height / 2 - p.y * view.scale * view.up };
}

export const panned = (view: View, dx: number, dy: number): View => ({ ...view, x: view.x + dx, y: view.y + dy });

/** Zoomed so that what lies under `about` stays there. */
export function zoomed(view: View, about: Point<ScreenPx>, factor: number, { least, most }: Limits): View {
  const scale = clamp(view.scale * factor, least, most);
  const k = scale / view.scale;
  return { ...view, scale, x: about.x - (about.x - view.x) * k, y: about.y - (about.y - view.y) * k };
}

/** Two fingers moved from one pair of places to another: what was between them stays between them. */
export function pinched(
  view: View,
  [a, b]: readonly [Point<ScreenPx>, Point<ScreenPx>],
  [c, d]: readonly [Point<ScreenPx>, Point<ScreenPx>],
  limits: Limits,
): View {
  const before = between(a, b);
  const after = between(c, d);
  const factor = distance(c, d) / Math.max(distance(a, b), 1);
  return panned(zoomed(view, before, factor, limits), after.x - before.x, after.y - before.y);
}

/** Keeps `content` in reach: no side of it may leave the far `margin` of the stage. */
export function kept<F extends Frame>(view: View, content: Rectangle<F>, stage: Size, margin: number): View {
  const side = (low: number, size: number, room: number): number =>
    size <= room - 2 * margin
      ? clamp(low, margin, room - margin - size)
      : clamp(low, room - margin - size, margin);
  const left = content.low.x * view.scale;
  const top = Math.min(content.low.y * view.up, content.high.y * view.up) * view.scale;
  return {
    ...view,
    x: side(view.x + left, widthOf(content) * view.scale, stage.width) - left,
    y: side(view.y + top, heightOf(content) * view.scale, stage.height) - top,
  };
}
