/** Where a board lies in a photo, and how its corners and ticks are called there. */
import { clamp, type PhotoPx } from '../../../../geometry/point';
import { asPhotoQuad } from '../../../../geometry/homography';
import type { Quad } from '../../../../geometry/quad';

/** Where in the photo the butt end is. */
export type ButtSide = 'left' | 'bottom' | 'right' | 'top';
export const SIDES: readonly ButtSide[] = ['left', 'bottom', 'right', 'top'];

/** The corner's two words as the eye sees them in this photo, for each side that the butt end may be on. */
const SEEN: Record<ButtSide, readonly [lower: string, upper: string]> = {
  left: ['lower', 'upper'],
  bottom: ['right', 'left'],
  right: ['upper', 'lower'],
  top: ['left', 'right'],
};

/** The place as the eye sees it in this photo, where only a stretch is seen. */
export function placeWords({ xMm, edge }: Place, side: ButtSide, format: (mm: number) => string): string {
  const [lower, upper] = SEEN[side];
  return `${xMm < 1 ? 'Butt end' : `${format(xMm)} tick`}, ${edge === 'lower' ? lower : upper} edge`;
}

export function cornerWords(corner: number, side: ButtSide): string {
  const [lower, upper] = SEEN[side];
  return `${corner === 0 || corner === 3 ? 'Butt end' : 'Far end'}, ${corner < 2 ? lower : upper} corner`;
}

const FILL = 0.8;
const LEAST_SPREAD = 0.14;

/** A board in the middle of the photo, along its longer side, wide enough for fingers to tell the corners apart. */
export function proposed(widthPx: number, heightPx: number, lengthMm: number, widthMm: number, side: ButtSide): Quad<PhotoPx> {
  const across = side === 'left' || side === 'right';
  const [longRoom, wideRoom] = across ? [widthPx, heightPx] : [heightPx, widthPx];
  const spread = clamp((longRoom * FILL * widthMm) / lengthMm, wideRoom * LEAST_SPREAD, wideRoom * FILL) / 2;
  const reach = (longRoom * FILL) / 2;
  const lying: [number, number][] = [[-reach, spread], [reach, spread], [reach, -spread], [-reach, -spread]];
  const turned = (x: number, y: number): [number, number] =>
    ({ left: [x, y], bottom: [y, -x], right: [-x, -y], top: [-y, x] })[side] as [number, number];
  return asPhotoQuad(lying.map(([x, y]) => turned(x, y)).map(([x, y]) => [x + widthPx / 2, y + heightPx / 2]));
}

export function buttSideOf([a, b, c, d]: Quad<PhotoPx>): ButtSide {
  const x = b.x + c.x - a.x - d.x;
  const y = b.y + c.y - a.y - d.y;
  if (Math.abs(x) >= Math.abs(y)) return x > 0 ? 'left' : 'right';
  return y < 0 ? 'bottom' : 'top';
}

/** Where a point lies on the face as it is looked at: from the butt end, on which edge. */
export interface Place {
  readonly xMm: number;
  readonly edge: 'lower' | 'upper';
}
