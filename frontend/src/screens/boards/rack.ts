/** Which photograph and which reading stand for a board. */
import type { ReadingRow, ShotRow } from '../../api/rows';
import { isSquare } from '../../offline/pictures';

/** The shot to show for a face: squared before unsquared, newer before older. */
export function bestShot(shots: ShotRow[]): ShotRow | null {
  const rank = (shot: ShotRow) => (isSquare(shot) ? 1 : 0);
  const sorted = [...shots].sort((a, b) => rank(b) - rank(a) || b.created_at.localeCompare(a.created_at));
  return sorted[0] ?? null;
}

export const latestReading = (readings: ReadingRow[]): ReadingRow | null =>
  [...readings].sort((a, b) => b.read_on.localeCompare(a.read_on) || b.created_at.localeCompare(a.created_at))[0] ?? null;
