import 'fake-indexeddb/auto';
import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import { Problem } from '../api/problem';
import { askShop, keptAnswer } from './answers';
import { useDatabaseOf } from './db';

const PATH = '/api/boards/b/dryness/?commission=c';
beforeEach(() => {
  vi.stubGlobal('location', { origin: 'https://shop.example' });
  vi.stubGlobal('document', { cookie: '' });
});
afterEach(() => vi.unstubAllGlobals());

it('asks the shop and keeps its answer for where there is no signal', async () => {
  const db = useDatabaseOf('answers');
  const asked: string[] = [];
  vi.stubGlobal('fetch', async (request: Request) => (asked.push(request.url), Response.json({ days: 12 })));
  expect((await askShop(db, PATH))?.answer).toEqual({ days: 12 });
  expect(asked).toEqual([`https://shop.example${PATH}`]);
  vi.stubGlobal('fetch', async () => Promise.reject(new TypeError('no signal')));
  expect(await askShop(db, PATH)).toBeNull();
  expect((await keptAnswer(db, PATH))?.answer).toEqual({ days: 12 });
  expect(await keptAnswer(db, '/api/boards/other/clear/')).toBeUndefined();
});

it('passes on why the shop cannot say', async () => {
  vi.stubGlobal('fetch', async () => Response.json({ title: 'No reading yet.' }, { status: 409 }));
  await expect(askShop(useDatabaseOf('answers'), PATH)).rejects.toThrow(Problem);
});
