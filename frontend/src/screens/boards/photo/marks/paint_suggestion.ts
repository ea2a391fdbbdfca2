/** A suggestion on the board: a beaded outline and a question mark, so that nobody takes it for a mark. */
import { screenPx } from '../../../../geometry/point';
import { overlap, rectangle } from '../../../../geometry/rectangle';
import { type Size, type View, viewLink } from '../../../../geometry/view';
import { CORE, CRAYON, HALO } from '../stage/inks';
import { stroke, trace } from './paint';
import type { Suggestion } from './session.svelte';
import { boundsOf } from './shape';

const BADGE_PX = 11;
const REACH_PX = 40;

export function paintSuggestion(ctx: CanvasRenderingContext2D, view: View, size: Size, { shape }: Suggestion, isConsidered: boolean): void {
  const { there } = viewLink('board mm', view);
  const box = boundsOf(shape);
  const onScreen = rectangle(there(box.low), there(box.high));
  const seen = rectangle(screenPx(-REACH_PX, -REACH_PX), screenPx(size.width + REACH_PX, size.height + REACH_PX));
  if (!overlap(onScreen, seen)) return;
  const ink = isConsidered ? CRAYON : CORE;
  ctx.save();
  ctx.lineCap = 'round';
  ctx.lineJoin = 'round';
  trace(ctx, shape, view);
  stroke(ctx, HALO, isConsidered ? 8 : 6);
  ctx.setLineDash([0.1, 7]);
  stroke(ctx, ink, isConsidered ? 5 : 4);
  ctx.setLineDash([]);
  const x = onScreen.high.x + BADGE_PX * 0.8;
  const y = Math.max(onScreen.low.y - BADGE_PX * 0.8, BADGE_PX + 1);
  ctx.beginPath();
  ctx.rect(x - BADGE_PX, y - BADGE_PX, 2 * BADGE_PX, 2 * BADGE_PX);
  ctx.fillStyle = HALO;
  ctx.fill();
  stroke(ctx, ink, isConsidered ? 3 : 1.5);
  ctx.fillStyle = ink;
  ctx.font = '700 17px system-ui, sans-serif';
  ctx.textAlign = 'center';
  ctx.textBaseline = 'middle';
  ctx.fillText('?', x, y + 1);
  ctx.restore();
}
