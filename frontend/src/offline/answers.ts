/** What the shop reckoned about a row, kept on the device for where there is no signal. */
import { Unreachable } from '../api/problem';
import { send } from '../api/send';
import type { ShopDb } from './db';

export interface KeptAnswer<T> {
  answer: T;
  /** When the shop gave it. */
  asked_at: string;
}

const keyOf = (path: string) => `answer ${path}`;

/** What the device knows; undefined before the first answer. */
export const keptAnswer = <T>(db: ShopDb, path: string): Promise<KeptAnswer<T> | undefined> => db.recall<KeptAnswer<T>>(keyOf(path));

/** Asks the shop and keeps the answer; null with no signal. Refusals are thrown. */
export async function askShop<T>(db: ShopDb, path: string): Promise<KeptAnswer<T> | null> {
  try {
    const response = await send(new Request(new URL(path, location.origin), { credentials: 'same-origin' }));
    const kept = { answer: (await response.json()) as T, asked_at: new Date().toISOString() };
    await db.remember(keyOf(path), kept);
    return kept;
  } catch (failure) {
    if (failure instanceof Unreachable) return null;
    throw failure;
  }
}
