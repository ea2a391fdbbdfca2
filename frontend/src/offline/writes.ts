/** Every write of the app: the row on the device and its outbox entry, in one transaction, or neither. */
import type { Face, Kind, Row, Rows } from '../api/rows';
import { db, type Method, type OutboxEntry } from './db';
import { discardIn } from './choices';
import { newId } from './ids';
import { same } from './merge';
import { storing } from './storage';

type NewEntry = Omit<OutboxEntry, 'seq'>;
type Fields<K extends Kind> = Partial<Omit<Rows[K], keyof Row>>;

export function outboxEntry(kind: Kind, method: Method, rowId: string, body: object, base: Row | null, photo: string | null = null): NewEntry {
  return {
    key: newId(),
    method,
    kind,
    row_id: rowId,
    body: body as Record<string, unknown>,
    photo,
    base,
    state: 'waiting',
    tries: 0,
    made_at: new Date().toISOString(),
    problem: null,
    current: null,
  };
}

export function newRow(id: string, fields: object): Row {
  const now = new Date().toISOString();
  return { ...fields, id, revision: 0, created_at: now, updated_at: now };
}

/** Makes a row; answers its id, which stays the same on the server. */
export async function create<K extends Kind>(kind: K, fields: Fields<K>, id: string = newId()): Promise<string> {
  return storing(async () => {
    await db.transaction('rw', [db.table(kind), db.outbox], async () => {
      await db.table(kind).add(newRow(id, fields));
      await db.outbox.add(outboxEntry(kind, 'POST', id, { ...fields, id }, null));
    });
    return id;
  });
}

/** Changes fields of a row; fields that are as before are left out, and no change at all writes nothing. */
export async function change<K extends Kind>(kind: K, id: string, fields: Fields<K>): Promise<void> {
  await storing(() =>
    db.transaction('rw', [db.table(kind), db.outbox, db.shop_rows], async () => {
      const shown = (await db.table(kind).get(id)) as Row | undefined;
      if (!shown) throw new Error('This is no longer there: it was removed meanwhile.');
      const changed = Object.fromEntries(
        Object.entries(fields).filter(([field, value]) => !same((shown as unknown as Record<string, unknown>)[field], value)),
      );
      const waiting = await db.outbox.where('row_id').equals(id).sortBy('seq');
      const stuck = waiting.filter((earlier) => earlier.state !== 'waiting' && earlier.method !== 'DELETE').at(-1);
      if (Object.keys(changed).length === 0 && stuck?.state !== 'refused') return;
      await db.table(kind).put({ ...shown, ...changed });
      if (stuck) await amend(stuck, changed);
      else await db.outbox.add(outboxEntry(kind, 'PATCH', id, changed, await baseOf(kind, shown, waiting)));
    }),
  );
}

/** A refused entry that is edited goes out again; one in conflict keeps waiting for its choice. */
async function amend(stuck: OutboxEntry, changed: object): Promise<void> {
  const body = { ...stuck.body, ...changed };
  if (stuck.state === 'conflict') await db.outbox.update(stuck.seq, { body });
  else await db.outbox.update(stuck.seq, { body, key: newId(), state: 'waiting', tries: 0, problem: null });
}

/** The row as the shop has it: set aside at the first waiting change, unknown while its making waits. */
async function baseOf(kind: Kind, shown: Row, waiting: OutboxEntry[]): Promise<Row | null> {
  if (waiting.length > 0) return (await db.shop_rows.get(shown.id))?.row ?? null;
  await db.shop_rows.put({ id: shown.id, kind, row: shown });
  return shown;
}

export async function remove(kind: Kind, id: string): Promise<void> {
  await storing(() =>
    db.transaction('rw', db.tables, async () => {
      const shown = (await db.table(kind).get(id)) as Row | undefined;
      if (!shown) return;
      const waiting = await db.outbox.where('row_id').equals(id).sortBy('seq');
      const refusedMaking = waiting.find((earlier) => earlier.method === 'POST' && earlier.state === 'refused');
      if (refusedMaking) {
        await discardIn(db, refusedMaking.seq);
        return;
      }
      const base = await baseOf(kind, shown, waiting);
      const stuck = waiting.filter((earlier) => earlier.state !== 'waiting');
      const known = stuck.find((earlier) => earlier.current)?.current ?? base;
      await db.outbox.bulkDelete(stuck.map((earlier) => earlier.seq));
      await db.table(kind).delete(id);
      await db.outbox.add(outboxEntry(kind, 'DELETE', id, {}, known));
    }),
  );
}

export const LARGEST_PHOTO_BYTES = 40_000_000;
const PICTURE_NAME = /\.(jpe?g|png|webp|heic|heif)$/i;

/** Why a chosen file cannot be a photograph of a board; null when it can. */
export function photoRefusal(file: { name: string; type: string; size: number }): string | null {
  if (file.size === 0) return `"${file.name}" is empty. Take or choose another photograph.`;
  if (file.size > LARGEST_PHOTO_BYTES) {
    return `"${file.name}" has ${Math.round(file.size / 1e6)} MB; up to 40 MB can be kept. Take it at a lower resolution.`;
  }
  if (!file.type.startsWith('image/') && !PICTURE_NAME.test(file.name)) {
    return `"${file.name}" is not a picture. JPEG, PNG, WebP and HEIC work.`;
  }
  return null;
}

/** Keeps a photograph of a face and queues it; the bytes are stored before the entry that needs them. */
export async function addShot(board: string, face: Face, file: File): Promise<string> {
  const refusal = photoRefusal(file);
  if (refusal) throw new Error(refusal);
  // Read first: nothing else may be awaited inside the transaction, and a file handed over by a camera can vanish.
  const bytes = await file.arrayBuffer();
  const id = newId();
  const fields = { board, face };
  return storing(async () => {
    await db.transaction('rw', [db.photos, db.rows('shot'), db.outbox], async () => {
      await db.photos.put({ id, bytes, type: file.type || 'image/heic', name: file.name || 'photo.jpg' });
      await db.table('shot').add(newRow(id, { ...fields, state: 'received', corners: null, homography: null, width_px: null, height_px: null }));
      await db.outbox.add(outboxEntry('shot', 'POST', id, { ...fields, id }, null, id));
    });
    return id;
  });
}
