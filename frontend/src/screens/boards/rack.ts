/** The rack as a list: boards with the picture and the reading that stand for them. */
import type { BoardRow, ReadingRow, ShotRow } from '../../api/rows';
import { grouped } from '../../grouped';
import { db } from '../../offline/db';
import { isSquare } from '../../offline/pictures';

export interface RackLine {
  board: BoardRow;
  shot: ShotRow | null;
  reading: ReadingRow | null;
}

const byTag = new Intl.Collator(undefined, { numeric: true, sensitivity: 'base' });

/** The shot to show for a face: squared before unsquared, newer before older. */
export function bestShot(shots: ShotRow[]): ShotRow | null {
  const rank = (shot: ShotRow) => (isSquare(shot) ? 1 : 0);
  const sorted = [...shots].sort((a, b) => rank(b) - rank(a) || b.created_at.localeCompare(a.created_at));
  return sorted[0] ?? null;
}

export const latestReading = (readings: ReadingRow[]): ReadingRow | null =>
  [...readings].sort((a, b) => b.read_on.localeCompare(a.read_on) || b.created_at.localeCompare(a.created_at))[0] ?? null;

export async function rackLines(): Promise<RackLine[]> {
  const [boards, shots, readings] = await Promise.all([
    db.rows('board').toArray(),
    db.rows('shot').toArray(),
    db.rows('reading').toArray(),
  ]);
  const shotsOf = grouped(shots, (shot) => shot.board);
  const readingsOf = grouped(readings, (reading) => reading.board);
  return boards
    .sort((a, b) => byTag.compare(a.tag, b.tag))
    .map((board) => {
      const own = shotsOf.get(board.id) ?? [];
      const faceA = own.filter((shot) => shot.face === 'A');
      return {
        board,
        shot: bestShot(faceA.length > 0 ? faceA : own),
        reading: latestReading(readingsOf.get(board.id) ?? []),
      };
    });
}

/** Whether every word of the search stands somewhere on the board's label. */
export function matches(board: BoardRow, search: string): boolean {
  const label = [board.tag, board.species, board.place, board.flitch, board.source].join(' ').toLowerCase();
  return search
    .toLowerCase()
    .split(/\s+/)
    .every((word) => label.includes(word));
}
