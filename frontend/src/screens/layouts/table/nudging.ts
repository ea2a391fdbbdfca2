/** Moving a piece by one step of the tape, or ten. */
import type { Units } from '../../../api/rows';
import type { Place } from './snapping';

export type Way = 'butt' | 'far' | 'lower' | 'upper';

const MM_PER_INCH = 25.4;
const STEP_MM = { inch: { small: MM_PER_INCH / 16, wide: MM_PER_INCH }, metric: { small: 1, wide: 10 } } as const;

/** The next place in whole millimetres; inches go from mark to mark of the tape, so that no rounding adds up. */
export function nudged(from: Place, way: Way, isWide: boolean, units: Units): Place {
  const { small, wide } = STEP_MM[units];
  const sign = way === 'far' || way === 'upper' ? 1 : -1;
  const next = (at: number): number => Math.round(Math.round(at / small) * small + sign * (isWide ? wide : small));
  return way === 'butt' || way === 'far' ? { x_mm: next(from.x_mm), y_mm: from.y_mm } : { x_mm: from.x_mm, y_mm: next(from.y_mm) };
}
