/** Sends what waits, in the order it was made, each exactly once; stops at refusals and what was built on them. */
import type { Row } from '../api/rows';
import { Problem, Unreachable, wordsOf } from '../api/problem';
import { touches } from './choices';
import { blobOf, type OutboxEntry, type ShopDb } from './db';
import { newId } from './ids';
import { makesOf, sawnHere } from './making';
import { overlay, threeWay } from './merge';

export interface Photo {
  blob: Blob;
  name: string;
}

/** Puts one entry to the server; answers the row as the server has it now, or null when there is none. */
export type Transport = (entry: OutboxEntry, photo: Photo | null) => Promise<Row | null>;

/** "drained": nothing sendable is left. "later": no answer, try again. "signed_out": sign in first. */
export type Outcome = 'drained' | 'later' | 'signed_out';

const BUSY = new Set([408, 425, 429, 502, 503, 504]);
/** After so many failures of the server itself an entry is set aside, so that it does not block the rest. */
const MOST_TRIES = 5;

export async function sendWaiting(db: ShopDb, transport: Transport): Promise<Outcome> {
  for (;;) {
    const entry = nextSendable(await db.outbox.orderBy('seq').toArray());
    if (!entry) return 'drained';
    const outcome = await sendOne(db, entry, transport);
    if (outcome !== 'drained') return outcome;
  }
}

/** The first waiting entry that neither follows a held one on the same row nor builds on a row not made yet. */
export function nextSendable(all: OutboxEntry[]): OutboxEntry | undefined {
  const heldRows = new Set<string>();
  const unmade = new Set<string>();
  for (const entry of all) {
    const isFree = !heldRows.has(entry.row_id) && !touches(entry, unmade);
    if (entry.state === 'waiting' && isFree) return entry;
    heldRows.add(entry.row_id);
    if (entry.method === 'POST') [entry.row_id, ...makesOf(entry)].forEach((id) => unmade.add(id));
  }
  return undefined;
}

async function sendOne(db: ShopDb, entry: OutboxEntry, transport: Transport): Promise<Outcome> {
  try {
    const photo = entry.photo ? await db.photos.get(entry.photo) : null;
    if (photo === undefined) throw new Error('The photograph that belongs to this is no longer on this device.');
    const toSend = photo ? { blob: blobOf(photo), name: photo.name } : null;
    await settle(db, entry, await transport(entry, toSend));
    return 'drained';
  } catch (failure) {
    return afterFailure(db, entry, failure);
  }
}

async function afterFailure(db: ShopDb, entry: OutboxEntry, failure: unknown): Promise<Outcome> {
  if (failure instanceof Unreachable) return 'later';
  if (!(failure instanceof Problem)) {
    await refuse(db, entry, 0, failure);
    return 'drained';
  }
  if (failure.status === 401) return 'signed_out';
  if (BUSY.has(failure.status)) return 'later';
  if (failure.status >= 500 && entry.tries + 1 < MOST_TRIES) {
    await db.outbox.update(entry.seq, { tries: entry.tries + 1 });
    return 'later';
  }
  if (failure.status === 404 && entry.method === 'DELETE') await settle(db, entry, null);
  else if (failure.status === 412 && failure.current) await bothChanged(db, entry, failure.current);
  else await refuse(db, entry, failure.status, failure);
  return 'drained';
}

async function refuse(db: ShopDb, entry: OutboxEntry, status: number, failure: unknown): Promise<void> {
  const errors = failure instanceof Problem ? failure.errors : {};
  await db.outbox.update(entry.seq, { state: 'refused', problem: { status, text: wordsOf(failure), errors } });
}

/** The entry arrived: later ones on the same row now build on the reply. */
async function settle(db: ShopDb, entry: OutboxEntry, reply: Row | null): Promise<void> {
  await db.transaction('rw', [db.table(entry.kind), db.outbox, db.shop_rows, db.photos, db.pictures], async () => {
    await db.outbox.delete(entry.seq);
    if (entry.photo) await keepSentPhoto(db, entry);
    const left = await db.outbox.where('row_id').equals(entry.row_id).sortBy('seq');
    if (reply) {
      for (const later of left) await db.outbox.update(later.seq, { base: reply });
      const shown = (await db.table(entry.kind).get(entry.row_id)) as Row | undefined;
      const isNews = left.length > 0 || !shown || shown.revision <= reply.revision;
      const row = isNews ? overlay(reply, left) : shown;
      if (row) await db.table(entry.kind).put(sawnHere(entry.kind, row, await db.outbox.toArray()));
    }
    if (reply && left.length > 0) await db.shop_rows.put({ id: reply.id, kind: entry.kind, row: reply });
    else await db.shop_rows.delete(entry.row_id);
  });
}

/** Until the server's own preview was fetched, the photo as taken stands in for it. */
async function keepSentPhoto(db: ShopDb, entry: OutboxEntry): Promise<void> {
  const photo = await db.photos.get(entry.photo!);
  await db.photos.delete(entry.photo!);
  if (!photo) return;
  const { bytes, type } = photo;
  await db.pictures.put({ key: `${entry.row_id}/sent`, bytes, type, used_at: Date.now() });
}

/** Fields that only this device changed go out again by themselves; where both did, the maker chooses. */
async function bothChanged(db: ShopDb, entry: OutboxEntry, current: Row): Promise<void> {
  await db.transaction('rw', [db.table(entry.kind), db.outbox, db.shop_rows], async () => {
    const ours = await db.outbox.where('row_id').equals(entry.row_id).sortBy('seq');
    const isRemoval = ours.some((own) => own.method === 'DELETE');
    const mine = Object.assign({}, ...ours.map((own) => own.body)) as Record<string, unknown>;
    const { clashes, body } = threeWay(entry.base, mine, current);
    const stale = entry.base?.revision === current.revision;
    await db.outbox.bulkDelete(ours.slice(1).map((own) => own.seq));
    await db.shop_rows.put({ id: current.id, kind: entry.kind, row: current });
    if (isRemoval || clashes.length > 0 || stale) {
      const method = isRemoval ? 'DELETE' : entry.method;
      await db.outbox.update(ours[0]!.seq, { method, body: isRemoval ? {} : mine, state: 'conflict', current });
    } else if (Object.keys(body).length > 0) {
      await db.outbox.update(ours[0]!.seq, { body, base: current, key: newId() });
      await db.table(entry.kind).put({ ...current, ...body });
    } else {
      await db.outbox.delete(ours[0]!.seq);
      await db.shop_rows.delete(current.id);
      await db.table(entry.kind).put(current);
    }
  });
}
