import type { OutboxEntry, ShopDb } from './db';

/** The rows that come to be in the shop with an entry besides its own: the pieces of a cut. */
export function makesOf(entry: Pick<OutboxEntry, 'kind' | 'method' | 'body'>): string[] {
  if (entry.kind !== 'cut' || entry.method !== 'POST') return [];
  return (entry.body.pieces as { id: string }[]).map((piece) => piece.id);
}

/** A cut that never reached the shop is given up: what it made here goes, and the board is whole again. */
export async function forgetPieces(shop: ShopDb, entry: OutboxEntry): Promise<void> {
  if (entry.kind !== 'cut' || entry.method !== 'POST') return;
  const pieces = (await shop.rows('board').bulkGet(makesOf(entry))).filter((board) => board !== undefined);
  await shop.rows('board').bulkDelete(pieces.filter((board) => board.revision === 0).map((board) => board.id));
  await shop.rows('board').update(String(entry.body.board), { status: 'in_rack' });
}
