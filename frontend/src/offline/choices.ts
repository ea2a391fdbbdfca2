/** What the maker decides about entries that the shop refused, or that both sides changed. */
import type { Row } from '../api/rows';
import type { OutboxEntry, ShopDb } from './db';
import { newId } from './ids';
import { forgetPieces, makesOf } from './making';
import { overlay } from './merge';

function mentions(value: unknown, ids: Set<string>): boolean {
  if (typeof value === 'string') return ids.has(value);
  if (Array.isArray(value)) return value.some((item) => mentions(item, ids));
  return false;
}

/** Whether an entry is about, or refers to, one of these rows. */
export function touches(entry: Pick<OutboxEntry, 'row_id' | 'body'>, ids: Set<string>): boolean {
  return ids.has(entry.row_id) || Object.values(entry.body).some((value) => mentions(value, ids));
}

/** The entry and, when it made a row, all that were built on that row. */
export function withDependents(first: OutboxEntry, all: OutboxEntry[]): OutboxEntry[] {
  if (first.method !== 'POST') return [first];
  const ids = new Set([first.row_id, ...makesOf(first)]);
  const found = [first];
  for (const entry of all) {
    if (entry.seq <= first.seq || !touches(entry, ids)) continue;
    found.push(entry);
    if (entry.method === 'POST') [entry.row_id, ...makesOf(entry)].forEach((id) => ids.add(id));
  }
  return found;
}

export async function dependentsOf(db: ShopDb, seq: number): Promise<OutboxEntry[]> {
  const all = await db.outbox.orderBy('seq').toArray();
  const first = all.find((entry) => entry.seq === seq);
  return first ? withDependents(first, all).slice(1) : [];
}

/** Both changed it and mine stands: it goes out again, on top of what the shop has. */
export async function keepMine(db: ShopDb, seq: number): Promise<void> {
  const entry = await db.outbox.get(seq);
  if (entry?.state !== 'conflict') return;
  await db.outbox.update(seq, { base: entry.current, current: null, state: 'waiting', key: newId(), tries: 0, problem: null });
}

export async function tryAgain(db: ShopDb, seq: number): Promise<void> {
  await db.outbox.update(seq, { state: 'waiting', key: newId(), tries: 0, problem: null });
}

/** Gives an entry up, with all that was built on it; the rows go back to what the shop has. */
export async function discard(db: ShopDb, seq: number): Promise<void> {
  await db.transaction('rw', db.tables, () => discardIn(db, seq));
}

/** The same inside a transaction that is already open over all tables. */
export async function discardIn(db: ShopDb, seq: number): Promise<void> {
  const all = await db.outbox.orderBy('seq').toArray();
  const first = all.find((entry) => entry.seq === seq);
  if (!first) return;
  const going = withDependents(first, all);
  await db.outbox.bulkDelete(going.map((entry) => entry.seq));
  await db.photos.bulkDelete(going.flatMap((entry) => entry.photo ?? []));
  for (const entry of going) await showShopVersion(db, entry);
  for (const entry of going) await forgetPieces(db, entry);
}

async function showShopVersion(db: ShopDb, entry: OutboxEntry): Promise<void> {
  const left = await db.outbox.where('row_id').equals(entry.row_id).sortBy('seq');
  const shop: Row | null = (await db.shop_rows.get(entry.row_id))?.row ?? null;
  const shown = overlay(shop, left);
  if (shown) await db.table(entry.kind).put(shown);
  else await db.table(entry.kind).delete(entry.row_id);
  if (left.length === 0) await db.shop_rows.delete(entry.row_id);
}
