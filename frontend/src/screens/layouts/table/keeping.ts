/** What becomes of the work on the table: kept on the device while it goes on, a new layout in the end. */
import type { BoardRow, LayoutRow } from '../../../api/rows';
import { db } from '../../../offline/db';
import { create } from '../../../offline/writes';
import { placementsOf, type Work } from './work';

const keyOf = (layout: string): string => `table ${layout}`;

/** Null where there is none, and where it was kept as a layout that the shop has taken. */
export async function workOn(layout: string): Promise<Work | null> {
  const work = await db.recall<Work>(keyOf(layout));
  if (!work) return null;
  const kept = work.kept_as ? await db.rows('layout').get(work.kept_as) : undefined;
  return kept && kept.revision > 0 ? null : work;
}

export const rememberWork = (work: Work): Promise<void> => db.remember(keyOf(work.layout), plain(work));
export const forgetWork = (layout: string): Promise<void> => db.meta.delete(keyOf(layout));

/** Nothing in it may be a proxy: the browser's store refuses those. */
const plain = (work: Work): Work => JSON.parse(JSON.stringify(work)) as Work;

const fieldsOf = (layout: LayoutRow) => ({ commission: layout.commission, based_on: layout.id, aim: layout.aim, boards: layout.boards });

/** Every piece where it lies is the layout; answers its id. */
export async function keepByHand(layout: LayoutRow, work: Work): Promise<string> {
  const pinned = placementsOf(work);
  if (pinned.length === 0) throw new Error('No piece lies on a board. Put at least one on a board, then keep the layout.');
  const carrying = new Set(pinned.map((pin) => pin.board));
  const id = await create('layout', {
    ...fieldsOf(layout), seconds: layout.seconds, made: 'by_hand', pinned, excluded: work.excluded.filter((board) => !carrying.has(board)),
  });
  await rememberWork({ ...work, kept_as: id });
  return id;
}

/** Pinned pieces stay, the shop's computer lays out the others; answers the id of the new layout. */
export async function solveTheRest(layout: LayoutRow, work: Work, boards: readonly BoardRow[], nameOf: (id: string) => string, seconds: number): Promise<string> {
  const held = work.pieces.find((piece) => piece.pinned && piece.board !== null && work.excluded.includes(piece.board));
  if (held) {
    const tag = boards.find((board) => board.id === held.board)?.tag ?? 'that board';
    throw new Error(`${nameOf(held.id)} is pinned to ${tag}, which is kept out. Let ${tag} in, or unpin the piece.`);
  }
  const id = await create('layout', {
    ...fieldsOf(layout), seconds, made: 'solved', excluded: [...work.excluded], pinned: placementsOf(work).filter((pin) => pin.pinned),
  });
  await rememberWork({ ...work, kept_as: id });
  return id;
}
