import type { Row } from '../api/rows';
import type { OutboxEntry } from './db';

type Fields = Record<string, unknown>;

export function same(a: unknown, b: unknown): boolean {
  return a === b || JSON.stringify(a ?? null) === JSON.stringify(b ?? null);
}

/** The row to show: what the shop has, with this device's waiting writes on top, in the order they were made. */
export function overlay(shop: Row | null, waiting: Pick<OutboxEntry, 'method' | 'body'>[]): Row | null {
  let shown: Row | null = shop;
  for (const entry of waiting) {
    if (entry.method === 'DELETE') shown = null;
    else if (entry.method === 'POST') shown = { ...(entry.body as unknown as Row), ...shown };
    else if (shown) shown = { ...shown, ...entry.body };
  }
  return shown;
}

export interface Merge {
  /** Fields changed here and, differently, in the shop since `base`. */
  clashes: string[];
  /** My change, less what the shop has anyway. */
  body: Fields;
}

/** Three versions of a row: as it was, my change to it, as the shop has it now. */
export function threeWay(base: Row | null, mine: Fields, theirs: Row): Merge {
  const was = (base ?? {}) as unknown as Fields;
  const now = theirs as unknown as Fields;
  const body: Fields = {};
  const clashes: string[] = [];
  for (const [field, value] of Object.entries(mine)) {
    if (same(value, now[field])) continue;
    body[field] = value;
    if (!same(was[field], now[field])) clashes.push(field);
  }
  return { clashes, body };
}
