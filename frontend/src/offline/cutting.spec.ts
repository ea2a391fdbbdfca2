import 'fake-indexeddb/auto';
import { beforeEach, describe, expect, it } from 'vitest';
import { Problem } from '../api/problem';
import type { BoardRow } from '../api/rows';
import { dependentsOf, discard } from './choices';
import { cutBoard, undoCut } from './cutting';
import { db, useDatabaseOf } from './db';
import { newId } from './ids';
import { sendWaiting } from './outbox';
import { pull } from './pull';
import { FakeShop } from './shop.fixture';
import { create } from './writes';

let shop: FakeShop;
beforeEach(() => {
  useDatabaseOf(newId());
  shop = new FakeShop();
});

const flush = () => sendWaiting(db, shop.transport);
const FIELDS = { tag: 'W-1', species: 'white oak', length_mm: 2400, width_mm: 200, thickness_mm: 27, place: 'wall', status: 'in_rack' as const };
const CUT = {
  kind: 'crosscut' as const,
  at_mm: 1000,
  kerf_mm: 3,
  pieces: [
    { tag: 'W-1A', x_mm: 0, y_mm: 0, length_mm: 1000, width_mm: 200 },
    { tag: 'W-1B', x_mm: 1003, y_mm: 0, length_mm: 1397, width_mm: 200 },
  ],
};
const boards = async () => (await db.rows('board').toArray()).sort((a, b) => a.tag.localeCompare(b.tag));
const standing = async () => (await boards()).map((board) => `${board.tag} ${board.status}`);

async function sawn(): Promise<{ board: string; cut: string }> {
  const board = await create('board', FIELDS);
  return { board, cut: await cutBoard(board, CUT) };
}

describe('cutting a board with no signal', () => {
  it('puts its pieces into the rack at once', async () => {
    const { board } = await sawn();
    expect(await standing()).toEqual(['W-1 used', 'W-1A in_rack', 'W-1B in_rack']);
    expect((await boards())[2]).toMatchObject({ parent: board, origin_x_mm: 1003, origin_y_mm: 0, species: 'white oak', place: 'wall', revision: 0 });
    await expect(cutBoard(board, CUT)).rejects.toThrow('not in the rack');
  });

  it('sends the cut only, and takes the pieces as the shop made them', async () => {
    const { cut } = await sawn();
    await flush();
    expect(shop.arrived.map((entry) => `${entry.method} ${entry.kind}`)).toEqual(['POST board', 'POST cut']);
    const [, first] = await boards();
    expect(shop.arrived[1]!.body).toMatchObject({ id: cut, pieces: [{ id: first!.id, tag: 'W-1A' }, { tag: 'W-1B' }] });
    const made = { ...first, revision: 1, price: '12.50' } as unknown as Record<string, unknown>;
    await pull(db, async () => ({ entries: [{ seq: 9, kind: 'board', id: first!.id, gone: false, row: made }], next: 9, more: false }));
    expect((await db.rows('board').get(first!.id))?.price).toBe('12.50');
  });

  it('is undone as if it had not been', async () => {
    const { cut } = await sawn();
    await undoCut((await db.rows('cut').get(cut))!);
    expect(await standing()).toEqual(['W-1 in_rack']);
    expect(await db.rows('cut').count()).toBe(0);
    await flush();
    expect(shop.arrived.map((entry) => entry.kind)).toEqual(['board']);
  });

  it('stays once a piece was worked on', async () => {
    const { cut } = await sawn();
    const piece = (await boards())[1] as BoardRow;
    await create('mark', { board: piece.id, face: 'A', kind: 'knot' });
    await expect(undoCut((await db.rows('cut').get(cut))!)).rejects.toThrow('W-1A was worked on since');
  });

  it('stays cut here while the shop still thinks the board whole', async () => {
    const { board } = await sawn();
    shop.signal = false;
    await flush();
    const row = { ...FIELDS, id: board, revision: 1, created_at: '', updated_at: '', place: 'loft' } as unknown as Record<string, unknown>;
    await pull(db, async () => ({ entries: [{ seq: 3, kind: 'board', id: board, gone: false, row }], next: 3, more: false }));
    expect(await standing()).toEqual(['W-1 used', 'W-1A in_rack', 'W-1B in_rack']);
    shop.signal = true;
    const cut = (await db.rows('cut').toArray())[0]!;
    shop.refusals.set(cut.id, new Problem(503, {}));
    await flush();
    expect(shop.arrived.map((entry) => entry.kind)).toEqual(['board']);
    expect(await standing()).toEqual(['W-1 used', 'W-1A in_rack', 'W-1B in_rack']);
  });

  it('cuts a piece again before the shop has heard of the first cut', async () => {
    await sawn();
    const piece = (await boards())[1]!;
    await cutBoard(piece.id, { kind: 'rip', at_mm: 90, kerf_mm: 3, pieces: [{ tag: 'W-1A1', x_mm: 0, y_mm: 0, length_mm: 1000, width_mm: 90 }] });
    expect(await standing()).toEqual(['W-1 used', 'W-1A used', 'W-1A1 in_rack', 'W-1B in_rack']);
    const first = (await db.rows('cut').toArray()).find((cut) => cut.board !== piece.id)!;
    await expect(undoCut(first)).rejects.toThrow('W-1A was worked on since');
    await flush();
    expect(shop.arrived.map((entry) => entry.body.board ?? entry.kind)).toEqual(['board', first.board, piece.id]);
  });

  it('is undone by the shop once the shop has it', async () => {
    const { cut } = await sawn();
    await flush();
    await undoCut((await db.rows('cut').get(cut))!);
    await flush();
    expect(shop.arrived.at(-1)).toMatchObject({ method: 'DELETE', kind: 'cut', row_id: cut });
  });

  it('holds back what was done to the pieces while it is refused, and goes with them when given up', async () => {
    const { cut } = await sawn();
    const piece = (await boards())[1] as BoardRow;
    const mark = await create('mark', { board: piece.id, face: 'A', kind: 'knot' });
    shop.refusals.set(cut, new Problem(400, { errors: { pieces: ['Another board in the rack carries W-1A.'] } }));
    expect(await flush()).toBe('drained');
    expect(shop.arrived.map((entry) => entry.kind)).toEqual(['board']);
    const refused = (await db.outbox.where('row_id').equals(cut).first())!;
    expect((await dependentsOf(db, refused.seq)).map((entry) => entry.row_id)).toEqual([mark]);
    await discard(db, refused.seq);
    expect(await standing()).toEqual(['W-1 in_rack']);
    expect(await db.rows('mark').count()).toBe(0);
  });
});
