import type { Kind, Row } from '../api/rows';
import type { OutboxEntry, ShopDb } from './db';

/** The rows that come to be in the shop with an entry besides its own: the pieces of a cut. */
export function makesOf(entry: Pick<OutboxEntry, 'kind' | 'method' | 'body'>): string[] {
  if (entry.kind !== 'cut' || entry.method !== 'POST') return [];
  return (entry.body.pieces as { id: string }[]).map((piece) => piece.id);
}

/** A board whose cut still waits on this device is used, whatever the shop knows of it yet. */
export function sawnHere(kind: Kind, row: Row, entries: readonly Pick<OutboxEntry, 'kind' | 'method' | 'body'>[]): Row {
  const isSawn = kind === 'board' && entries.some((entry) => entry.kind === 'cut' && entry.method === 'POST' && entry.body.board === row.id);
  return isSawn ? ({ ...row, status: 'used' } as Row) : row;
}

/** A cut that never reached the shop is given up: what it made here goes, and the board is whole again. */
export async function forgetPieces(shop: ShopDb, entry: OutboxEntry): Promise<void> {
  if (entry.kind !== 'cut' || entry.method !== 'POST') return;
  const pieces = (await shop.rows('board').bulkGet(makesOf(entry))).filter((board) => board !== undefined);
  await shop.rows('board').bulkDelete(pieces.filter((board) => board.revision === 0).map((board) => board.id));
  await shop.rows('board').update(String(entry.body.board), { status: 'in_rack' });
}
