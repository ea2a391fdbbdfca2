/** The clear wood of a board put in order for drawing, and where the shop tells its grade. */
import type { components } from '../../../api/schema';
import { printLength, type TapeStyle } from '../../../measures/print';
import type { Drawn } from '../photo/drawing/placement';
import type { Area } from './clear_face';

export type ClearWood = components['schemas']['ClearWood'];
export const clearPath = (board: string) => `/api/boards/${board}/clear/`;

/** `1: 49 3/4" × 6 1/4"`: as it is written into the drawing. */
export function drawnAreas(areas: readonly Area[], tape: TapeStyle): Drawn[] {
  return areas.map((area, at) => ({
    ...area,
    id: String(at),
    label: `${at + 1}: ${printLength(area.length_mm, tape)} × ${printLength(area.width_mm, tape)}`.replaceAll('"', '″'),
  }));
}

/** What is narrower or shorter makes no part worth naming. Common practice, no source. */
const LEAST_MM = { length: 150, width: 25 };
export const worthTelling = (areas: readonly Area[]): Area[] => areas.filter((area) => area.length_mm >= LEAST_MM.length && area.width_mm >= LEAST_MM.width);

/** Clear wood is not told to be more than it is. */
export const shareWords = (share: number): string => `${Math.floor(share * 100 + 1e-9)} %`;
