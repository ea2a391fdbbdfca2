import 'fake-indexeddb/auto';
import { afterEach, expect, it, vi } from 'vitest';
import { useDatabaseOf, type ShopDb } from '../../../offline/db';
import { change, create, remove } from '../../../offline/writes';
import { RackBook } from './rack_book.svelte';

let book: RackBook | undefined;
afterEach(() => book?.close());

const fields = (tag: string) => ({ tag, species: 'white oak', length_mm: 2000, width_mm: 200, thickness_mm: 27, status: 'in_rack' as const });
const tagsOf = (one: RackBook) => one.lines.map((line) => line.board.tag);

async function opened(db: ShopDb): Promise<RackBook> {
  book = new RackBook();
  await book.open(db);
  return book;
}

it('reads a rack larger than one step, with what lies on each board', async () => {
  const db = useDatabaseOf('large');
  const boards = Array.from({ length: 620 }, (_, at) => ({ id: `b${String((at * 7) % 1000).padStart(4, '0')}`, ...fields(`W-${at}`) }));
  await db.table('board').bulkAdd(boards);
  await db.table('reading').bulkAdd(boards.map(({ id }, at) => ({ id: `r${at}`, board: id, mc_pct: at / 10, read_on: '2027-01-01', created_at: '' })));
  const rack = await opened(db);
  expect([rack.lines.length, rack.read, rack.isOpen]).toEqual([620, 620, true]);
  expect(rack.lines.map((line) => [line.board.tag, line.mc_pct])).toEqual(boards.map(({ tag }, at) => [tag, at / 10]));
});

it('follows what is written, board by board', async () => {
  const db = useDatabaseOf('small');
  const first = await create('board', fields('W-1'));
  const rack = await opened(db);
  const second = await create('board', fields('W-2'));
  await vi.waitFor(() => expect(tagsOf(rack)).toEqual(['W-1', 'W-2']));
  const untouched = rack.lines[1];
  await change('board', first, { tag: 'W-3' });
  await vi.waitFor(() => expect(tagsOf(rack)).toEqual(['W-2', 'W-3']));
  expect(rack.lines[0]).toBe(untouched);
  const reading = await create('reading', { board: second, mc_pct: 9, read_on: '2027-01-01', meter: '', note: '' });
  await vi.waitFor(() => expect(rack.lines[0]?.mc_pct).toBe(9));
  await remove('reading', reading);
  await vi.waitFor(() => expect(rack.lines[0]?.mc_pct).toBeNull());
  await remove('board', first);
  await vi.waitFor(() => expect(tagsOf(rack)).toEqual(['W-2']));
});

it('starts anew for another member', async () => {
  useDatabaseOf('one');
  await create('board', fields('ONE'));
  const one = useDatabaseOf('one');
  const rack = await opened(one);
  expect(tagsOf(rack)).toEqual(['ONE']);
  await rack.open(useDatabaseOf('two'));
  expect(tagsOf(rack)).toEqual([]);
});
