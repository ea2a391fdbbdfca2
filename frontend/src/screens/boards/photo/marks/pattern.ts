/** Fill patterns of marks: pale lines under dark ones, as a tile of 12 px, made once. */
import { CORE, HALO } from '../stage/inks';

export const TILE_PX = 12;
const made = new Map<string, CanvasPattern | string>();

export function patternOf(ctx: CanvasRenderingContext2D, path: string, density: number): CanvasPattern | string {
  const key = `${density} ${path}`;
  const known = made.get(key);
  if (known) return known;
  const tile = document.createElement('canvas');
  tile.width = tile.height = Math.round(TILE_PX * density);
  const pen = tile.getContext('2d');
  if (!pen) return 'transparent';
  const k = tile.width / TILE_PX;
  pen.scale(k, k);
  const lines = new Path2D(path);
  for (const [colour, width, alpha] of [[HALO, 2.8, 0.75], [CORE, 1.1, 1]] as const) {
    pen.globalAlpha = alpha;
    pen.strokeStyle = colour;
    pen.lineWidth = width;
    pen.stroke(lines);
  }
  const pattern = ctx.createPattern(tile, 'repeat');
  pattern?.setTransform(new DOMMatrix().scale(1 / k));
  const fill = pattern ?? 'transparent';
  made.set(key, fill);
  return fill;
}
