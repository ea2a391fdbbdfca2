/** Draws a stretch of a board with its marks on a canvas: pale halo, dark core, so that they show on maple and on walnut. */
import type { MarkShape } from '../../../../api/rows';
import { type BoardMm, boardMm, distance, type Point, screenPx, type ScreenPx } from '../../../../geometry/point';
import { heightOf, widthOf } from '../../../../geometry/rectangle';
import { type View, viewLink } from '../../../../geometry/view';
import { CORE, CRAYON, HALO } from '../stage/inks';
import { handlePlaces } from './handles';
import type { Mark } from './history';
import { KINDS } from './kinds';
import { patternOf } from './pattern';
import { type Board, boundsOf, middleOf, pairPoint } from './shape';
import { SIGN_PX, signOf } from './signs';

export interface Ground extends Board {
  readonly image: HTMLImageElement | null;
  readonly view: View;
  readonly density: number;
}

/** Below this many pixels for a millimetre, signs would only lie on one another. */
const SIGNS_FROM = 0.55;
const BUTT_PX = 6;

/** The wood, without marks. `ctx` is scaled to CSS pixels, as for all that follows. */
export function paintBoard(ctx: CanvasRenderingContext2D, { image, view, lengthMm, widthMm }: Ground): void {
  const { there } = viewLink('board mm', view);
  const [a, b] = [there(boardMm(0, 0)), there(boardMm(lengthMm, widthMm))];
  const [left, top, wide, high] = [a.x, Math.min(a.y, b.y), b.x - a.x, Math.abs(b.y - a.y)];
  if (image) {
    // The picture may be a fraction of a pixel taller than the board: its upper edge and its scale count.
    ctx.save();
    ctx.beginPath();
    ctx.rect(left, top, wide, high);
    ctx.clip();
    ctx.drawImage(image, left, top, wide, Math.max((image.naturalHeight * wide) / image.naturalWidth, high));
    ctx.restore();
  } else {
    ctx.fillStyle = '#e9dcc0';
    ctx.fillRect(left, top, wide, high);
  }
  ctx.fillStyle = CRAYON;
  ctx.fillRect(left - BUTT_PX, top, 4, high);
}

export function trace(ctx: CanvasRenderingContext2D, shape: MarkShape, view: View): void {
  const { there } = viewLink('board mm', view);
  ctx.beginPath();
  if (shape.type === 'ellipse') {
    const c = there(boardMm(shape.cx_mm, shape.cy_mm));
    ctx.ellipse(c.x, c.y, Math.max(shape.rx_mm * view.scale, 1.5), Math.max(shape.ry_mm * view.scale, 1.5), 0, 0, 2 * Math.PI);
    return;
  }
  shape.points.forEach((p, i) => {
    const q = there(pairPoint(p));
    if (i === 0) ctx.moveTo(q.x, q.y);
    else ctx.lineTo(q.x, q.y);
  });
  if (shape.type === 'outline') ctx.closePath();
}

export function paintMark(ctx: CanvasRenderingContext2D, ground: Ground, mark: Mark, chosen: boolean): void {
  const { view, density } = ground;
  const kind = KINDS[mark.kind];
  const { shape } = mark;
  const ink = chosen ? CRAYON : CORE;
  trace(ctx, shape, view);
  ctx.lineJoin = 'round';
  ctx.lineCap = 'round';
  if (shape.type === 'line') {
    const wide = Math.max(shape.width_mm * view.scale, 2);
    stroke(ctx, HALO, wide + 4);
    ctx.setLineDash(kind.dashes ? kind.dashes.map((d) => d + (d > 1 ? wide / 2 : 0)) : []);
    stroke(ctx, ink, wide);
  } else {
    if (kind.pattern) {
      ctx.fillStyle = patternOf(ctx, kind.pattern, density);
      ctx.fill();
    }
    stroke(ctx, HALO, chosen ? 6 : 4.5);
    if (mark.blocks === 'none') ctx.setLineDash([5, 4]);
    stroke(ctx, ink, chosen ? 3 : 2);
  }
  ctx.setLineDash([]);
  if (mark.kind === 'knot' && shape.type === 'ellipse') paintRings(ctx, shape, view, ink);
  // The one in hand is named below the board; its sign would only lie under a handle.
  if (view.scale >= SIGNS_FROM && !chosen) paintSign(ctx, ground, mark, ink);
}

export function stroke(ctx: CanvasRenderingContext2D, colour: string, width: number): void {
  ctx.strokeStyle = colour;
  ctx.lineWidth = width;
  ctx.stroke();
}

function paintRings(ctx: CanvasRenderingContext2D, shape: MarkShape & { type: 'ellipse' }, view: View, ink: string): void {
  if (Math.min(shape.rx_mm, shape.ry_mm) * view.scale < 9) return;
  trace(ctx, { ...shape, rx_mm: shape.rx_mm * 0.5, ry_mm: shape.ry_mm * 0.5 }, view);
  stroke(ctx, HALO, 3);
  stroke(ctx, ink, 1);
}

/** The sign sits inside a large mark and beside a small one, joined to it, so that the flaw stays in sight. */
function signPlace(shape: MarkShape, { view, lengthMm, widthMm }: Ground): { at: Point<ScreenPx>; from: Point<ScreenPx> | null } {
  const box = boundsOf(shape);
  const { there } = viewLink('board mm', view);
  const middle = there(middleOf(shape));
  const [wide, high] = [widthOf(box) * view.scale, heightOf(box) * view.scale];
  const isLarge = Math.min(wide, high) > SIGN_PX * 1.25 && Math.max(wide, high) > SIGN_PX * 3;
  if (shape.type !== 'line' && isLarge) return { at: middle, from: null };
  const [butt, far] = [there(boardMm(0, 0)), there(boardMm(lengthMm, widthMm))];
  const gap = SIGN_PX * 0.75;
  const above = middle.y - high / 2 - gap > Math.min(butt.y, far.y) - SIGN_PX * 0.6;
  const y = above ? middle.y - high / 2 - gap : middle.y + high / 2 + gap;
  const x = wide > SIGN_PX * 2 ? middle.x : Math.min(middle.x + wide / 2 + SIGN_PX * 0.45, far.x);
  const from = shape.type === 'ellipse' && wide <= SIGN_PX * 2 ? middle : screenPx(middle.x, y + (above ? gap : -gap));
  return { at: screenPx(x, y), from: shape.type === 'line' ? middle : from };
}

function paintSign(ctx: CanvasRenderingContext2D, ground: Ground, mark: Mark, ink: string): void {
  const { at, from } = signPlace(mark.shape, ground);
  if (from && distance(from, at) > SIGN_PX / 2) {
    ctx.beginPath();
    ctx.moveTo(from.x, from.y);
    ctx.lineTo(at.x, at.y);
    stroke(ctx, HALO, 3);
    stroke(ctx, ink, 1);
  }
  const sign = signOf(mark.kind, ink, mark.through, ground.density);
  const side = sign.width / ground.density;
  ctx.drawImage(sign, at.x - side / 2, at.y - side / 2, side, side);
}

export function paintHandles(ctx: CanvasRenderingContext2D, view: View, shape: MarkShape): void {
  const { there } = viewLink('board mm', view);
  for (const { handle, at } of handlePlaces(shape, view)) {
    const root: Point<ScreenPx> = there(handle.at as Point<BoardMm>);
    ctx.beginPath();
    ctx.moveTo(root.x, root.y);
    ctx.lineTo(at.x, at.y);
    stroke(ctx, HALO, 4);
    stroke(ctx, CRAYON, 1.5);
    ctx.beginPath();
    ctx.arc(at.x, at.y, 8, 0, 2 * Math.PI);
    ctx.fillStyle = HALO;
    ctx.fill();
    stroke(ctx, CRAYON, 3);
  }
}
