/** What a face looks like: the shop's joined picture, else what this device can make of its shots. */
import { fetchPictureBytes } from '../api/send';
import type { BoardRow, Face, FacePictureRow, ShotRow } from '../api/rows';
import { blobOf, type ShopDb } from './db';
import { isPlacedAnew, isSquare, keepUnder, keysOf, pictureOf } from './pictures';
import { laidTogether, stretchOf, type Strip } from './squaring';

type BoardOfFace = Pick<BoardRow, 'id' | 'length_mm' | 'width_mm'>;

export async function facePictureOf(db: ShopDb, board: string, face: Face): Promise<FacePictureRow | null> {
  const rows = await db.rows('face_picture').where('board').equals(board).toArray();
  return rows.find((row) => row.face === face) ?? null;
}

/** Shots of the face that can be shown squared, in the order they were taken. */
async function squareShots(db: ShopDb, board: string, face: Face): Promise<ShotRow[]> {
  const shots = await db.rows('shot').where('board').equals(board).toArray();
  return shots.filter((shot) => shot.face === face && isSquare(shot)).sort((a, b) => a.created_at.localeCompare(b.created_at));
}

/** The shop's picture, as long as it shows what the shots on this device show. */
async function currentPicture(db: ShopDb, board: string, face: Face, shots: ShotRow[]): Promise<FacePictureRow | null> {
  const joined = await facePictureOf(db, board, face);
  if (joined?.state !== 'joined') return null;
  // A piece of a sawn board has its picture from that board, and no shot of its own.
  if (shots.length === 0) return joined.stretches.length === 0 ? joined : null;
  const shown = new Set(joined.stretches.map(({ shot }) => shot));
  const isWhole = joined.stretches.every(({ shot }) => shots.some(({ id }) => id === shot)) && shown.has(shots.at(-1)!.id);
  if (!isWhole || shots.some((shot) => shot.state !== 'squared')) return null;
  for (const shot of shots) if (await isPlacedAnew(db, shot)) return null;
  return joined;
}

const versionOf = (joined: FacePictureRow, shots: ShotRow[]): string =>
  [joined.id, joined.mm_per_px, joined.width_px, JSON.stringify(joined.stretches), ...shots.map(({ id, revision }) => `${id} ${revision}`)].join();

/** Changes whenever the face would look otherwise; empty where nothing shows it. */
export async function faceVersion(db: ShopDb, board: BoardOfFace, face: Face): Promise<string> {
  const shots = await squareShots(db, board.id, face);
  const joined = await currentPicture(db, board.id, face, shots);
  if (joined) return versionOf(joined, shots);
  return shots.map((shot) => `${shot.id} ${shot.revision} ${shot.state} ${JSON.stringify(shot.points ?? shot.corners)}`).join();
}

export async function pictureOfFace(db: ShopDb, board: BoardOfFace, face: Face): Promise<Blob | null> {
  const shots = await squareShots(db, board.id, face);
  const joined = await currentPicture(db, board.id, face, shots);
  return (joined && (await joinedPicture(db, joined, versionOf(joined, shots)))) ?? ownJoined(db, board, shots);
}

async function joinedPicture(db: ShopDb, joined: FacePictureRow, version: string): Promise<Blob | null> {
  const key = `${joined.id}/face/${version}`;
  const kept = await db.pictures.get(key);
  if (kept) {
    void db.pictures.update(key, { used_at: Date.now() }).catch(() => {});
    return blobOf(kept);
  }
  try {
    const blob = await fetchPictureBytes(`/api/face-pictures/${joined.id}/picture/?revision=${joined.revision}`);
    // A full device: the picture is shown all the same and fetched again next time.
    await keepUnder(db, key, await keysOf(db, `${joined.id}/face/`), blob).catch(() => {});
    return blob;
  } catch {
    return null; // Without signal the shots themselves will do.
  }
}

/** The newest shot that shows all of the board, and the stretches that were taken since, laid together. */
async function ownJoined(db: ShopDb, board: BoardOfFace, shots: ShotRow[]): Promise<Blob | null> {
  const newest = shots.at(-1);
  const whole = shots.findLast((shot) => !shot.points);
  if (!newest || newest === whole) return newest ? pictureOf(db, newest, 'squared') : null;
  const strips: Strip[] = [];
  for (const shot of whole ? shots.slice(shots.indexOf(whole)) : shots) {
    const picture = await pictureOf(db, shot, 'squared');
    const [x0, x1] = stretchOf(shot, board);
    if (picture) strips.push({ picture, stretch: [shot.x0_mm ?? x0, shot.x1_mm ?? x1] });
  }
  return strips.length > 0 ? laidTogether(strips, board) : null;
}
