/** Pictures of boards on the device: fetched once, shown without signal, the longest unseen dropped first. */
import { fetchPictureBytes } from '../api/send';
import type { ShotRow } from '../api/rows';
import { blobOf, type ShopDb } from './db';
import { squaredOnDevice } from './squaring';

export type PictureSize = 'preview' | 'squared';

const MOST_KEPT = 400;

export const hasPicture = (shot: ShotRow, size: PictureSize) =>
  shot.revision > 0 && (size === 'preview' ? shot.state !== 'received' : shot.state === 'squared');

/** Squared by the shop, or its corners are known, so that this device can do it. */
export const isSquare = (shot: ShotRow) => shot.state === 'squared' || Boolean(shot.corners ?? shot.points);

/** A squared picture changes with its corners, and so with its row; a preview never does. */
const keyOf = (shot: ShotRow, size: PictureSize) =>
  size === 'preview' ? `${shot.id}/preview` : `${shot.id}/squared/${shot.revision}`;

/** The picture, from the device if it is there; null when it is neither here nor to be had. */
export async function pictureOf(db: ShopDb, shot: ShotRow, size: PictureSize): Promise<Blob | null> {
  if (size === 'squared' && (shot.state !== 'squared' || (await isPlacedAnew(db, shot)))) return ownSquared(db, shot);
  const key = keyOf(shot, size);
  const kept = await db.pictures.get(key);
  if (kept) {
    void db.pictures.update(key, { used_at: Date.now() }).catch(() => {});
    return blobOf(kept);
  }
  if (hasPicture(shot, size)) {
    try {
      return await fetchPicture(db, shot, size);
    } catch {
      // Without signal an older or coarser picture will do.
    }
  }
  return olderPicture(db, shot, size);
}

export const isPlacedAnew = async (db: ShopDb, shot: ShotRow) =>
  (await db.outbox.where('row_id').equals(shot.id).toArray()).some((entry) => 'corners' in entry.body || 'points' in entry.body);

/** Squared up here, until the shop's own picture is there. */
async function ownSquared(db: ShopDb, shot: ShotRow): Promise<Blob | null> {
  const board = await db.rows('board').get(shot.board);
  if (!board || !(shot.corners ?? shot.points)) return null;
  const key = `${shot.id}/own/${JSON.stringify([shot.points ?? shot.corners, board.length_mm, board.width_mm])}`;
  const kept = await db.pictures.get(key);
  if (kept) return blobOf(kept);
  const photo = await pictureOf(db, shot, 'preview');
  if (!photo) return null;
  // Some browsers cannot read HEIC; then a plain board stands in until the shop has squared it.
  const squared = await squaredOnDevice(photo, shot.width_px, shot, board).catch(() => null);
  if (squared) await keepUnder(db, key, await keysOf(db, `${shot.id}/own/`), squared).catch(() => {});
  return squared;
}

async function fetchPicture(db: ShopDb, shot: ShotRow, size: PictureSize): Promise<Blob> {
  const blob = await fetchPictureBytes(`/api/shots/${shot.id}/${size}/?revision=${shot.revision}`);
  await keep(db, shot, size, blob).catch(() => {
    // A full device: the picture is shown all the same and fetched again next time.
  });
  return blob;
}

async function keep(db: ShopDb, shot: ShotRow, size: PictureSize, blob: Blob): Promise<void> {
  const older =
    size === 'preview'
      ? [`${shot.id}/sent`]
      : [...(await keysOf(db, `${shot.id}/squared/`)), ...(await keysOf(db, `${shot.id}/own/`))];
  await keepUnder(db, keyOf(shot, size), older, blob);
}

export async function keepUnder(db: ShopDb, key: string, older: string[], blob: Blob): Promise<void> {
  const bytes = await blob.arrayBuffer();
  await db.transaction('rw', db.pictures, async () => {
    await db.pictures.bulkDelete(older);
    await db.pictures.put({ key, bytes, type: blob.type, used_at: Date.now() });
    const surplus = (await db.pictures.count()) - MOST_KEPT;
    if (surplus > 0) await db.pictures.bulkDelete(await db.pictures.orderBy('used_at').limit(surplus).primaryKeys());
  });
}

export const keysOf = (db: ShopDb, start: string) => db.pictures.where('key').startsWith(start).primaryKeys();

async function olderPicture(db: ShopDb, shot: ShotRow, size: PictureSize): Promise<Blob | null> {
  if (size === 'squared') {
    const [key] = await keysOf(db, `${shot.id}/squared/`);
    const older = key ? await db.pictures.get(key) : undefined;
    return older ? blobOf(older) : null;
  }
  const own = (await db.pictures.get(`${shot.id}/sent`)) ?? (await db.photos.get(shot.id));
  return own ? blobOf(own) : null;
}

let keeping = false;

/** Fetches the pictures of boards in the rack in the background, so that the rack is whole without signal. */
export async function keepPictures(db: ShopDb): Promise<void> {
  if (keeping || (navigator as { connection?: { saveData?: boolean } }).connection?.saveData) return;
  keeping = true;
  try {
    const boards = await db.rows('board').where('status').equals('in_rack').primaryKeys();
    const shots = await db.rows('shot').where('board').anyOf(boards).toArray();
    const kept = new Set(await db.pictures.toCollection().primaryKeys());
    const sizeOf = (shot: ShotRow): PictureSize => (shot.state === 'squared' ? 'squared' : 'preview');
    const missing = shots.filter((shot) => hasPicture(shot, sizeOf(shot)) && !kept.has(keyOf(shot, sizeOf(shot))));
    for (const shot of missing.slice(0, MOST_KEPT / 2)) await fetchPicture(db, shot, sizeOf(shot));
  } catch {
    // No signal or no room: the screens fetch what they show.
  } finally {
    keeping = false;
  }
}
