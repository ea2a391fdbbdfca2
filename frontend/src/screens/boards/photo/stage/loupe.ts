/** Where the magnifier goes: never under the finger or the hand that comes from below. */
import type { Point, ScreenPx } from '../../../../geometry/point';
import type { Size } from '../../../../geometry/view';

export const LOUPE_PX = 144;
const MARGIN = 8;

/** Upper corner away from the finger; when the finger is up there too, the other upper corner. */
export function loupeLeft(finger: Point<ScreenPx>, stage: Size, now: number | null): number {
  const left = MARGIN;
  const right = Math.max(stage.width - LOUPE_PX - MARGIN, left);
  const current = now ?? (finger.x < stage.width / 2 ? right : left);
  const covered = finger.y < LOUPE_PX + 56 && finger.x > current - 40 && finger.x < current + LOUPE_PX + 40;
  if (!covered) return current;
  return current === left ? right : left;
}

/** Photo or board units to loupe pixels: six times the screen, but a pixel of the photo is never less than 3/4 px. */
export const loupeScale = (screenScale: number, least: number): number =>
  Math.max(Math.min(screenScale * 6, 4 * least), screenScale * 2, least);
