/** What a face looks like: the shop's joined picture, else what this device can make of its shots. */
import type { BoardRow, Face, ShotRow } from '../api/rows';
import type { ShopDb } from './db';
import { isSquare, pictureOf } from './pictures';
import { laidTogether, stretchOf, type Strip } from './squaring';

type BoardOfFace = Pick<BoardRow, 'id' | 'length_mm' | 'width_mm'>;

/** Shots of the face that can be shown squared, in the order they were taken. */
async function squareShots(db: ShopDb, board: string, face: Face): Promise<ShotRow[]> {
  const shots = await db.rows('shot').where('board').equals(board).toArray();
  return shots.filter((shot) => shot.face === face && isSquare(shot)).sort((a, b) => a.created_at.localeCompare(b.created_at));
}

/** Changes whenever the face would look otherwise; empty where nothing shows it. */
export async function faceVersion(db: ShopDb, board: BoardOfFace, face: Face): Promise<string> {
  const shots = await squareShots(db, board.id, face);
  return shots.map((shot) => `${shot.id} ${shot.revision} ${shot.state} ${JSON.stringify(shot.points ?? shot.corners)}`).join();
}

export async function pictureOfFace(db: ShopDb, board: BoardOfFace, face: Face): Promise<Blob | null> {
  const shots = await squareShots(db, board.id, face);
  const newest = shots.at(-1);
  // One shot of the whole board, or the newest that shows all of it, is the face.
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
