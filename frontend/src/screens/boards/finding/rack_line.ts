/** One board of the rack with all that it is searched and sorted by. */
import type { BoardRow, MarkRow, ReadingRow, ShotRow } from '../../../api/rows';
import { bestShot, latestReading } from '../rack';
import { spoiltBy, type Spoilt } from './clear_room';

export interface RackLine {
  board: BoardRow;
  shot: ShotRow | null;
  mc_pct: number | null;
  spoilt: Spoilt[];
  /** `w-00000009`: sorts as people count, by plain comparison. */
  tagKey: string;
  /** Everything written on the board, in small letters. */
  label: string;
}

export function rackLine(board: BoardRow, shots: ShotRow[], marks: MarkRow[], readings: ReadingRow[]): RackLine {
  const faceA = shots.filter((shot) => shot.face === 'A');
  return {
    board,
    shot: bestShot(faceA.length > 0 ? faceA : shots),
    mc_pct: latestReading(readings)?.mc_pct ?? null,
    spoilt: spoiltBy(marks),
    tagKey: countingKey(board.tag),
    label: [board.tag, board.species, board.place, board.flitch, board.source, board.notes].join('\n').toLowerCase(),
  };
}

export const countingKey = (tag: string): string => tag.toLowerCase().replace(/\d+/g, (digits) => digits.padStart(8, '0'));

export const byTag = (a: RackLine, b: RackLine): number =>
  a.tagKey < b.tagKey ? -1 : a.tagKey > b.tagKey ? 1 : a.board.id < b.board.id ? -1 : 1;
