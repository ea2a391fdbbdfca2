/** Cuts on the device: the pieces are boards at once, before the shop has made them. */
import type { BoardRow, CutPiece, CutRow, Row } from '../api/rows';
import { discardIn } from './choices';
import { db } from './db';
import { newId } from './ids';
import { storing } from './storage';
import { newRow, outboxEntry, remove } from './writes';

export type NewCut = Pick<CutRow, 'kind' | 'at_mm' | 'kerf_mm'> & { pieces: Omit<CutPiece, 'id'>[] };

/** Saws a board: its pieces stand in the rack at once; their marks and pictures come over from the shop. */
export async function cutBoard(boardId: string, cut: NewCut): Promise<string> {
  const id = newId();
  const pieces = cut.pieces.map((piece) => ({ ...piece, id: newId() }));
  return storing(async () => {
    await db.transaction('rw', [db.rows('cut'), db.rows('board'), db.outbox], async () => {
      const board = await db.rows('board').get(boardId);
      if (board?.status !== 'in_rack') throw new Error('This board is not in the rack any more. Cut one of its pieces.');
      const fields = { ...cut, board: boardId, pieces };
      await db.table('cut').add(newRow(id, fields));
      await db.table('board').bulkAdd(pieces.map((piece) => boardOf(board, piece)));
      await db.rows('board').update(boardId, { status: 'used' });
      await db.outbox.add(outboxEntry('cut', 'POST', id, { ...fields, id }, null));
    });
    return id;
  });
}

function boardOf(parent: BoardRow, { id, tag, x_mm, y_mm, length_mm, width_mm }: CutPiece): Row {
  const { species, thickness_mm, thickness_quarters, source, place, flitch, notes } = parent;
  const kept = { species, thickness_mm, thickness_quarters, source, place, flitch, notes };
  const own = { tag, length_mm, width_mm, price: null, status: 'in_rack', parent: parent.id, origin_x_mm: x_mm, origin_y_mm: y_mm };
  return newRow(id, { ...kept, ...own });
}

/** Why a cut cannot be undone any more, as far as this device knows; the shop has the last word. */
export async function whyNotUndone(cut: Pick<CutRow, 'pieces'>): Promise<string | null> {
  const ids = cut.pieces.map((piece) => piece.id);
  const boards = (await db.rows('board').bulkGet(ids)).filter((board) => board !== undefined);
  const changed = boards.find((board) => board.revision > 1 || board.status !== 'in_rack');
  const waiting = (await db.outbox.toArray()).find((entry) => ids.includes(entry.row_id) || ids.includes(String(entry.body.board)));
  const worked = changed ?? boards.find((board) => board.id === waiting?.row_id || board.id === waiting?.body.board);
  return worked ? `${worked.tag} was worked on since, so the cut stays.` : null;
}

/** Puts the board back into the rack, as long as nothing was done to its pieces. */
export async function undoCut(cut: CutRow): Promise<void> {
  const reason = await whyNotUndone(cut);
  if (reason) throw new Error(reason);
  const making = (await db.outbox.where('row_id').equals(cut.id).toArray()).find((entry) => entry.method === 'POST');
  if (!making) return remove('cut', cut.id);
  await storing(() => db.transaction('rw', db.tables, () => discardIn(db, making.seq)));
}
