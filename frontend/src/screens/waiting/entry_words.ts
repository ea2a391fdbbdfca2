/** What a waiting entry is, in words: `New board W-14`, `Change to part Leg: length`. */
import type { Row } from '../../api/rows';
import type { OutboxEntry } from '../../offline/db';
import { KINDS } from '../../offline/kinds';

const VERB = { POST: 'New', PATCH: 'Change to', DELETE: 'Removal of' };
const UNIT_ENDINGS = [' mm', ' pct', ' c', ' px'];

/** The name a person knows a row by. */
export function nameOfRow(row: Partial<Record<string, unknown>> | null | undefined): string {
  for (const field of ['tag', 'title', 'name', 'kind', 'face']) {
    const value = row?.[field];
    if (typeof value === 'string' && value) return field === 'face' ? `of face ${value}` : value.replaceAll('_', ' ');
  }
  return '';
}

export function entryWords(entry: OutboxEntry, shown: Row | undefined): string {
  const name = nameOfRow((shown ?? entry.base ?? entry.body) as Record<string, unknown>);
  return [VERB[entry.method], KINDS[entry.kind].word, name].filter(Boolean).join(' ');
}

/** `length_mm` as `length`. */
export function fieldWords(field: string): string {
  const plain = field.replaceAll('_', ' ');
  const ending = UNIT_ENDINGS.find((unit) => plain.endsWith(unit));
  return ending ? plain.slice(0, -ending.length) : plain;
}

export interface FieldClash {
  field: string;
  mine: unknown;
  theirs: unknown;
}

/** Where my version and the shop's differ. */
export function differences(entry: OutboxEntry): FieldClash[] {
  const theirs = (entry.current ?? {}) as unknown as Record<string, unknown>;
  return Object.entries(entry.body)
    .filter(([field, mine]) => JSON.stringify(mine) !== JSON.stringify(theirs[field]))
    .map(([field, mine]) => ({ field, mine, theirs: theirs[field] }));
}
