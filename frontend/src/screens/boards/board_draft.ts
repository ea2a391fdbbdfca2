import type { BoardRow } from '../../api/rows';
import { db } from '../../offline/db';

/** A board on its form: sizes may still be unreadable, 0 quarters stands for none. */
export interface BoardDraft {
  tag: string;
  species: string;
  length_mm: number | null;
  width_mm: number | null;
  thickness_mm: number | null;
  thickness_quarters: number;
  price: number | null;
  source: string;
  place: string;
  flitch: string;
  notes: string;
  status: BoardRow['status'];
}

export function draftOf(row: BoardRow): BoardDraft {
  const { tag, species, length_mm, width_mm, thickness_mm, source, place, flitch, notes, status } = row;
  const price = row.price === null || row.price === undefined ? null : Number(row.price);
  const thickness_quarters = row.thickness_quarters ?? 0;
  return { tag, species, length_mm, width_mm, thickness_mm, thickness_quarters, price, source, place, flitch, notes, status };
}

/** A new board starts from the last one: thirty boards of one delivery differ in tag and size only. */
export async function blankBoard(): Promise<BoardDraft> {
  const boards = await db.rows('board').toArray();
  const last = boards.sort((a, b) => b.created_at.localeCompare(a.created_at))[0];
  return {
    tag: last ? nextTag(last.tag, new Set(boards.map((board) => board.tag))) : '',
    species: last?.species ?? '',
    length_mm: null,
    width_mm: null,
    thickness_mm: last?.thickness_mm ?? 25.4,
    thickness_quarters: last?.thickness_quarters ?? 4,
    price: null,
    source: last?.source ?? '',
    place: last?.place ?? '',
    flitch: last?.flitch ?? '',
    notes: '',
    status: 'in_rack',
  };
}

/** `W-09` is followed by `W-10`; a tag without a number by nothing. */
export function nextTag(last: string, taken: Set<string>): string {
  const found = /^(.*?)(\d+)(\D*)$/.exec(last);
  if (!found) return '';
  const [, head, digits, tail] = found as unknown as [string, string, string, string];
  for (let number = Number(digits) + 1; number < Number(digits) + 1000; number += 1) {
    const tag = `${head}${String(number).padStart(digits.length, '0')}${tail}`;
    if (!taken.has(tag)) return tag;
  }
  return '';
}
