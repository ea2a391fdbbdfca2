/** Draws a stretch of a board with its marks on a canvas: pale halo, dark core, so that they show on maple and on walnut. */
import type { MarkShape } from '../../../../api/rows';
import { type BoardMm, boardMm, distance, type Point, screenPx, type ScreenPx } from '../../../../geometry/point';
import { heightOf, overlap, rectangle, widthOf } from '../../../../geometry/rectangle';
import { type Size, type View, viewLink } from '../../../../geometry/view';
import { CORE, CRAYON, HALO } from '../stage/inks';
import { handlesOf, standOff } from './handles';
import type { Mark } from './history';
import { KINDS } from './kinds';
import { patternOf } from './pattern';
import { type Board, boundsOf, pairPoint } from './shape';

export interface Scene extends Board {
  readonly image: HTMLImageElement | null;
  readonly view: View;
  readonly size: Size;
  readonly density: number;
  readonly marks: readonly Mark[];
  readonly selected: Mark | null;
  /** Drawn instead of the mark with its id, or besides all when its id is new. */
  readonly draft: Mark | null;
  readonly handles: boolean;
}

const GLYPH_PX = 22;
/** Below this many pixels for a millimetre, signs would only lie on one another. */
const GLYPHS_FROM = 0.55;

export function paint(ctx: CanvasRenderingContext2D, scene: Scene): void {
  const { size, density, view } = scene;
  ctx.setTransform(density, 0, 0, density, 0, 0);
  ctx.clearRect(0, 0, size.width, size.height);
  paintBoard(ctx, scene);
  const { back } = viewLink('board mm', view);
  const seen = rectangle(back(screenPx(-30, -30)), back(screenPx(size.width + 30, size.height + 30)));
  const { draft, selected } = scene;
  for (const mark of scene.marks) {
    if (mark.id === draft?.id || mark.id === selected?.id) continue;
    if (overlap(boundsOf(mark.shape), seen)) paintMark(ctx, scene, mark, false);
  }
  const top = draft ?? selected;
  if (!top) return;
  paintMark(ctx, scene, top, true);
  if (scene.handles && !draft) paintHandles(ctx, scene, top.shape);
}

function paintBoard(ctx: CanvasRenderingContext2D, { image, view, lengthMm, widthMm }: Scene): void {
  const { there } = viewLink('board mm', view);
  const a = there(boardMm(0, 0));
  const b = there(boardMm(lengthMm, widthMm));
  const [left, top, wide, high] = [a.x, Math.min(a.y, b.y), b.x - a.x, Math.abs(b.y - a.y)];
  if (image) {
    // The picture may be a fraction of a pixel taller than the board: its upper edge and its scale count.
    const scale = wide / image.naturalWidth;
    ctx.save();
    ctx.beginPath();
    ctx.rect(left, top, wide, high);
    ctx.clip();
    ctx.drawImage(image, left, top, wide, Math.max(image.naturalHeight * scale, high));
    ctx.restore();
  } else {
    ctx.fillStyle = '#e9dcc0';
    ctx.fillRect(left, top, wide, high);
  }
  ctx.fillStyle = CRAYON;
  ctx.fillRect(left - 6, top, 4, high);
}

function trace(ctx: CanvasRenderingContext2D, shape: MarkShape, view: View): void {
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

function paintMark(ctx: CanvasRenderingContext2D, scene: Scene, mark: Mark, chosen: boolean): void {
  const { view, density } = scene;
  const kind = KINDS[mark.kind];
  const { shape } = mark;
  trace(ctx, shape, view);
  ctx.lineJoin = 'round';
  ctx.lineCap = 'round';
  const ink = chosen ? CRAYON : CORE;
  if (shape.type === 'line') {
    const wide = Math.max(shape.width_mm * view.scale, 2);
    stroke(ctx, HALO, wide + 4);
    ctx.setLineDash(kind.dashes ? kind.dashes.map((d) => d + (d > 1 ? wide / 2 : 0)) : []);
    stroke(ctx, ink, wide);
    ctx.setLineDash([]);
  } else {
    if (kind.pattern) {
      ctx.fillStyle = patternOf(ctx, kind.pattern, density);
      ctx.fill();
    }
    stroke(ctx, HALO, chosen ? 6 : 4.5);
    if (mark.blocks === 'none') ctx.setLineDash([5, 4]);
    stroke(ctx, ink, chosen ? 3 : 2);
    ctx.setLineDash([]);
    if (mark.kind === 'knot' && shape.type === 'ellipse') paintRings(ctx, shape, view, ink);
  }
  if (view.scale >= GLYPHS_FROM || chosen) paintGlyph(ctx, scene, mark, ink);
}

function stroke(ctx: CanvasRenderingContext2D, colour: string, width: number): void {
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

/** The sign sits in the middle of a large mark and beside a small one, joined to it, so that the flaw stays in sight. */
function glyphPlace(shape: MarkShape, view: View, size: Size): { at: Point<ScreenPx>; from: Point<ScreenPx> | null } {
  const box = boundsOf(shape);
  const { there } = viewLink('board mm', view);
  const middle = there(shapeMiddle(shape));
  if (shape.type !== 'line' && Math.min(widthOf(box), heightOf(box)) * view.scale > GLYPH_PX * 2.2) return { at: middle, from: null };
  const [a, b] = [there(box.low), there(box.high)];
  const up = Math.min(a.y, b.y) - GLYPH_PX * 0.75;
  const y = up > GLYPH_PX / 2 ? up : Math.max(a.y, b.y) + GLYPH_PX * 0.75;
  const x = shape.type === 'line' ? middle.x : Math.min(Math.max(a.x, b.x) + GLYPH_PX * 0.45, size.width - GLYPH_PX / 2);
  return { at: screenPx(x, y), from: middle };
}

const shapeMiddle = (shape: MarkShape): Point<BoardMm> => {
  const { low, high } = boundsOf(shape);
  return boardMm((low.x + high.x) / 2, (low.y + high.y) / 2);
};

const paths = new Map<string, Path2D>();
function signPath(sign: string): Path2D {
  const known = paths.get(sign) ?? new Path2D(sign);
  paths.set(sign, known);
  return known;
}

function paintGlyph(ctx: CanvasRenderingContext2D, { view, size, density }: Scene, mark: Mark, ink: string): void {
  const { at, from } = glyphPlace(mark.shape, view, size);
  if (from && distance(from, at) > GLYPH_PX) {
    ctx.beginPath();
    ctx.moveTo(from.x, from.y);
    ctx.lineTo(at.x, at.y);
    stroke(ctx, HALO, 3);
    stroke(ctx, ink, 1);
  }
  ctx.beginPath();
  ctx.arc(at.x, at.y, GLYPH_PX / 2, 0, 2 * Math.PI);
  ctx.fillStyle = HALO;
  ctx.fill();
  stroke(ctx, ink, mark.through ? 2.5 : 1);
  const k = (GLYPH_PX * 0.66) / 24;
  ctx.setTransform(density * k, 0, 0, density * k, density * (at.x - 12 * k), density * (at.y - 12 * k));
  ctx.strokeStyle = ink;
  ctx.lineWidth = 2.4;
  ctx.stroke(signPath(KINDS[mark.kind].sign));
  ctx.setTransform(density, 0, 0, density, 0, 0);
}

/** Where each handle of the selected mark is drawn and taken hold of. */
export function handlePlaces(shape: MarkShape, view: View): { handle: ReturnType<typeof handlesOf>[number]; at: Point<ScreenPx> }[] {
  const { there } = viewLink('board mm', view);
  const middle = there(shapeMiddle(shape));
  return handlesOf(shape).map((handle) => ({
    handle,
    at: shape.type === 'outline' ? there(handle.at) : standOff(there(handle.at), middle),
  }));
}

function paintHandles(ctx: CanvasRenderingContext2D, { view }: Scene, shape: MarkShape): void {
  const { there } = viewLink('board mm', view);
  for (const { handle, at } of handlePlaces(shape, view)) {
    const root = there(handle.at);
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
