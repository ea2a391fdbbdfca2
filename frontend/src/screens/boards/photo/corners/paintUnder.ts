/** What the magnifier shows over a photo: the picture around the target and the outline's edges that meet there. */
import { between, minus, type PhotoPx, type Point } from '../../../../geometry/point';

interface Under {
  readonly image: HTMLImageElement;
  readonly widthPx: number;
  readonly target: Point<PhotoPx>;
  /** Loupe pixels for one pixel of the photo. */
  readonly scale: number;
  /** The outline's four, then points that belong to no outline. */
  readonly corners: readonly Point<PhotoPx>[];
}

export function paintUnder(ctx: CanvasRenderingContext2D, sizePx: number, { image, widthPx, target, scale, corners }: Under): void {
  const shrunk = image.naturalWidth / widthPx;
  const side = (sizePx / scale) * shrunk;
  ctx.imageSmoothingEnabled = scale < 3;
  ctx.drawImage(
    image,
    target.x * shrunk - side / 2, target.y * shrunk - side / 2, side, side,
    0, 0, sizePx, sizePx,
  );
  const here = corners.findIndex((p) => p.x === target.x && p.y === target.y);
  if (here < 0 || here > 3) return;
  for (const other of [corners[(here + 1) % 4]!, corners[(here + 3) % 4]!]) {
    const from = minus(between(target, other, 0.002), target);
    const to = minus(other, target);
    const c = sizePx / 2;
    for (const [width, colour] of [[3, 'rgba(255, 250, 240, 0.8)'], [1, '#1c1a17']] as const) {
      ctx.beginPath();
      ctx.moveTo(c + from.x * scale, c + from.y * scale);
      ctx.lineTo(c + to.x * scale, c + to.y * scale);
      ctx.lineWidth = width;
      ctx.strokeStyle = colour;
      ctx.stroke();
    }
  }
}
