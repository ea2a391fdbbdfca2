/** Fetches what changed in the shop since the last time and lays it under what waits on this device. */
import type { Row } from '../api/rows';
import type { OutboxEntry, ShopDb } from './db';
import { KINDS, KIND_NAMES } from './kinds';
import { makesOf, sawnHere } from './making';
import { overlay } from './merge';

export interface FeedEntry {
  seq: number;
  kind: string;
  id: string;
  gone: boolean;
  row: Record<string, unknown> | null;
}

export interface FeedPage {
  entries: FeedEntry[];
  next: number;
  more: boolean;
}

export async function pull(
  db: ShopDb,
  fetchPage: (since: number) => Promise<FeedPage>,
  progress: (rows: number) => void = () => {},
): Promise<number> {
  let since = (await db.recall<number>('since')) ?? 0;
  let rows = 0;
  for (;;) {
    const page = await fetchPage(since);
    if (page.entries.length > 0) await applyPage(db, page);
    else await db.remember('since', page.next);
    rows += page.entries.length;
    progress(rows);
    since = page.next;
    if (!page.more) return rows;
  }
}

async function applyPage(db: ShopDb, page: FeedPage): Promise<void> {
  const tables = KIND_NAMES.map((kind) => db.table(kind));
  await db.transaction('rw', [...tables, db.outbox, db.shop_rows, db.meta], async () => {
    const waiting = new Map<string, OutboxEntry[]>();
    const all = await db.outbox.orderBy('seq').toArray();
    for (const entry of all) {
      waiting.set(entry.row_id, [...(waiting.get(entry.row_id) ?? []), entry]);
    }
    for (const entry of page.entries) {
      // A kind that a newer server has and this app does not know yet.
      if (!(entry.kind in KINDS)) continue;
      await applyEntry(db, entry, waiting.get(entry.id) ?? [], all);
    }
    await db.remember('since', page.next);
  });
}

async function applyEntry(db: ShopDb, entry: FeedEntry, waiting: OutboxEntry[], all: OutboxEntry[]): Promise<void> {
  const table = db.table(entry.kind);
  const kind = entry.kind as keyof typeof KINDS;
  if (entry.gone || !entry.row) {
    await db.shop_rows.delete(entry.id);
    // What this device still wants to say about it stays visible until that is settled.
    if (waiting.length === 0) await table.delete(entry.id);
    return;
  }
  const row = entry.row as unknown as Row;
  if (waiting.length === 0) {
    const shown = (await table.get(entry.id)) as Row | undefined;
    if (!shown || shown.revision <= row.revision) await table.put(sawnHere(kind, row, all));
    return;
  }
  await db.shop_rows.put({ id: entry.id, kind, row });
  const shown = overlay(row, waiting);
  if (shown) await table.put(sawnHere(kind, shown, all));
  else await table.delete(entry.id);
}

/** Forgets what came from the shop, keeping what waits; the next pull reads everything again. */
export async function forgetShop(db: ShopDb): Promise<void> {
  await db.transaction('rw', db.tables, async () => {
    const waiting = new Set((await db.outbox.toArray()).flatMap((entry) => [entry.row_id, ...makesOf(entry)]));
    for (const kind of KIND_NAMES) {
      await db.table(kind).filter((row: Row) => !waiting.has(row.id)).delete();
    }
    await db.pictures.clear();
    await db.remember('since', 0);
  });
}
