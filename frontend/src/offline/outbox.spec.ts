import 'fake-indexeddb/auto';
import { beforeEach, describe, expect, it } from 'vitest';
import { Problem } from '../api/problem';
import { dependentsOf, discard, keepMine } from './choices';
import { db, useDatabaseOf } from './db';
import { newId } from './ids';
import { sendWaiting } from './outbox';
import { pull } from './pull';
import { FakeShop } from './shop.fixture';
import { addShot, change, create, photoRefusal, remove } from './writes';

let shop: FakeShop;

beforeEach(() => {
  useDatabaseOf(newId());
  shop = new FakeShop();
});

const flush = () => sendWaiting(db, shop.transport);
const entries = () => db.outbox.orderBy('seq').toArray();
const board = (fields = {}) => create('board', { tag: 'W-1', species: 'white oak', length_mm: 2400, place: 'wall', ...fields });

describe('writing without signal', () => {
  it('keeps row and entry together and sends them in order', async () => {
    const id = await board();
    await change('board', id, { place: 'loft' });
    await create('mark', { board: id, face: 'A', kind: 'knot' });
    expect((await db.rows('board').get(id))?.place).toBe('loft');
    expect(await flush()).toBe('drained');
    expect(shop.arrived.map((entry) => `${entry.method} ${entry.kind}`)).toEqual(['POST board', 'PATCH board', 'POST mark']);
    expect(await entries()).toEqual([]);
    expect((await db.rows('board').get(id))?.revision).toBe(2);
    expect(await db.shop_rows.count()).toBe(0);
  });

  it('gives an edit of an unsent row the revision of its making', async () => {
    const id = await board();
    await change('board', id, { place: 'loft' });
    await change('board', id, { place: 'yard' });
    await flush();
    expect(shop.arrived.map((entry) => entry.base?.revision ?? null)).toEqual([null, 1, 2]);
  });

  it('writes nothing when nothing changed', async () => {
    const id = await board();
    await change('board', id, { place: 'wall', length_mm: 2400 });
    expect(await db.outbox.count()).toBe(1);
  });

  it('waits while there is no signal and loses nothing', async () => {
    shop.signal = false;
    await board();
    expect(await flush()).toBe('later');
    expect(await flush()).toBe('later');
    expect(await db.outbox.count()).toBe(1);
    shop.signal = true;
    expect(await flush()).toBe('drained');
    expect(shop.rows.size).toBe(1);
  });

  it('arrives once when the reply is lost', async () => {
    const id = await board();
    shop.loseReplies = 2;
    await flush();
    await flush();
    expect(await flush()).toBe('drained');
    expect(shop.arrived).toHaveLength(1);
    expect((await db.rows('board').get(id))?.revision).toBe(1);
  });

  it('stops when signed out and keeps the entry', async () => {
    const id = await board();
    shop.refusals.set(id, new Problem(401));
    expect(await flush()).toBe('signed_out');
    expect((await entries())[0]?.state).toBe('waiting');
  });
});

describe('photographs', () => {
  const jpeg = () => new File([new Uint8Array([0xff, 0xd8, 0xff])], 'face.jpg', { type: 'image/jpeg' });

  it('stores the bytes with the entry, sends them, and keeps them to look at', async () => {
    const id = await board();
    const shot = await addShot(id, 'A', jpeg());
    expect((await db.photos.get(shot))?.bytes.byteLength).toBe(3);
    await change('shot', shot, { corners: [[0, 9], [9, 9], [9, 0], [0, 0]] });
    await flush();
    expect(shop.photos.map((photo) => [photo.name, photo.blob.size, photo.blob.type])).toEqual([['face.jpg', 3, 'image/jpeg']]);
    expect(shop.arrived.map((entry) => entry.method)).toEqual(['POST', 'POST', 'PATCH']);
    expect(await db.photos.count()).toBe(0);
    expect((await db.pictures.get(`${shot}/sent`))?.bytes.byteLength).toBe(3);
  });

  it.each([
    ['an empty file', { name: 'a.jpg', type: 'image/jpeg', size: 0 }, 'is empty'],
    ['41 MB', { name: 'a.jpg', type: 'image/jpeg', size: 41e6 }, 'up to 40 MB'],
    ['a letter', { name: 'a.pdf', type: 'application/pdf', size: 9 }, 'not a picture'],
    ['HEIC without a type', { name: 'a.HEIC', type: '', size: 9 }, null],
  ])('says why %s will not do', (_, file, says) => {
    if (says === null) expect(photoRefusal(file)).toBeNull();
    else expect(photoRefusal(file)).toContain(says);
  });
});

describe('refusals', () => {
  it('holds back what builds on a refused making; the rest goes on', async () => {
    const bad = await board({ tag: 'W-2' });
    await create('mark', { board: bad, face: 'A', kind: 'knot' });
    const good = await board({ tag: 'W-3' });
    shop.refusals.set(bad, new Problem(400, { title: 'Not saved.', errors: { tag: ['Another board carries this tag.'] } }));
    expect(await flush()).toBe('drained');
    expect([...shop.rows.keys()]).toEqual([good]);
    const left = await entries();
    expect(left.map((entry) => entry.state)).toEqual(['refused', 'waiting']);
    expect(left[0]?.problem?.text).toBe('Another board carries this tag.');
  });

  it('sends it again once it was edited, under a new key', async () => {
    const id = await board();
    shop.refusals.set(id, new Problem(400));
    await flush();
    const before = (await entries())[0]!;
    shop.refusals.clear();
    await change('board', id, { tag: 'W-7' });
    const after = (await entries())[0]!;
    expect([after.method, after.body.tag, after.state]).toEqual(['POST', 'W-7', 'waiting']);
    expect(after.key).not.toBe(before.key);
    expect(await flush()).toBe('drained');
    expect(shop.arrived).toHaveLength(1);
  });

  it('a refused change holds back later changes of that row only', async () => {
    const id = await board();
    await flush();
    await change('board', id, { place: '' });
    await change('board', id, { notes: 'cupped' });
    const mark = await create('mark', { board: id, face: 'A', kind: 'knot' });
    shop.refusals.set(id, new Problem(400));
    await flush();
    expect(shop.rows.has(mark)).toBe(true);
    expect((await entries()).map((entry) => entry.state)).toEqual(['refused', 'waiting']);
  });

  it('is given up on purpose, with what was built on it', async () => {
    const id = await board();
    const mark = await create('mark', { board: id, face: 'A', kind: 'knot' });
    shop.refusals.set(id, new Problem(400));
    await flush();
    const first = (await entries())[0]!;
    expect((await dependentsOf(db, first.seq)).map((entry) => entry.row_id)).toEqual([mark]);
    await discard(db, first.seq);
    expect([await db.outbox.count(), await db.rows('board').count(), await db.rows('mark').count()]).toEqual([0, 0, 0]);
  });

  it('a refused change goes back to what the shop has', async () => {
    const id = await board();
    await flush();
    await change('board', id, { place: '' });
    shop.refusals.set(id, new Problem(400));
    await flush();
    await discard(db, (await entries())[0]!.seq);
    expect((await db.rows('board').get(id))?.place).toBe('wall');
  });

  it('sets an entry aside that the server keeps failing on', async () => {
    const id = await board();
    shop.refusals.set(id, new Problem(500));
    for (let times = 0; times < 4; times += 1) expect(await flush()).toBe('later');
    expect(await flush()).toBe('drained');
    expect((await entries())[0]?.state).toBe('refused');
  });
});

describe('changed here and in the shop', () => {
  async function bothChange(mine: object, theirs: object) {
    const id = await board();
    await flush();
    await change('board', id, mine);
    shop.edit(id, theirs);
    expect(await flush()).toBe('drained');
    return id;
  }

  it('puts both together where they touch different fields', async () => {
    const id = await bothChange({ place: 'loft' }, { notes: 'cupped' });
    expect(shop.rows.get(id)).toMatchObject({ place: 'loft', notes: 'cupped', revision: 3 });
    expect(await db.outbox.count()).toBe(0);
  });

  it('keeps both versions where they clash, and mine can stand', async () => {
    const id = await bothChange({ place: 'loft' }, { place: 'yard' });
    const [entry] = await entries();
    expect(entry).toMatchObject({ state: 'conflict', body: { place: 'loft' }, current: { place: 'yard' } });
    await keepMine(db, entry!.seq);
    await flush();
    expect(shop.rows.get(id)).toMatchObject({ place: 'loft', revision: 3 });
  });

  it("keeps both versions where they clash, and the shop's can stand", async () => {
    const id = await bothChange({ place: 'loft' }, { place: 'yard' });
    await discard(db, (await entries())[0]!.seq);
    expect(await db.rows('board').get(id)).toMatchObject({ place: 'yard', revision: 2 });
    expect(await db.outbox.count()).toBe(0);
  });

  it('asks before removing what somebody else changed', async () => {
    const id = await board();
    await flush();
    await remove('board', id);
    shop.edit(id, { notes: 'keep for the desk' });
    await flush();
    expect((await entries())[0]).toMatchObject({ state: 'conflict', method: 'DELETE' });
    expect(await db.rows('board').get(id)).toBeUndefined();
    await discard(db, (await entries())[0]!.seq);
    expect((await db.rows('board').get(id))?.notes).toBe('keep for the desk');
  });

  it('a removal of what is gone already is done', async () => {
    const id = await board();
    await flush();
    shop.rows.delete(id);
    await remove('board', id);
    expect(await flush()).toBe('drained');
    expect(await db.outbox.count()).toBe(0);
  });
});

describe('pulling', () => {
  it('lays news from the shop under what waits here, page by page', async () => {
    const id = await board();
    await flush();
    await change('board', id, { place: 'loft' });
    const theirs = shop.edit(id, { notes: 'cupped', place: 'wall' });
    const other = newId();
    const pages = [
      { entries: [{ seq: 5, kind: 'board', id, gone: false, row: { ...theirs } }], next: 5, more: true },
      { entries: [{ seq: 6, kind: 'mystery', id: other, gone: false, row: {} }], next: 6, more: false },
    ];
    const asked: number[] = [];
    await pull(db, async (since) => (asked.push(since), pages.shift()!));
    expect(asked).toEqual([0, 5]);
    expect(await db.recall('since')).toBe(6);
    expect(await db.rows('board').get(id)).toMatchObject({ place: 'loft', notes: 'cupped' });
    await flush();
    expect(shop.rows.get(id)).toMatchObject({ place: 'loft', notes: 'cupped' });
  });

  it('removes what is gone, but not what this device still wants to say', async () => {
    const gone = await board({ tag: 'W-4' });
    const argued = await board({ tag: 'W-5' });
    await flush();
    await change('board', argued, { place: 'loft' });
    const page = {
      entries: [gone, argued].map((id, at) => ({ seq: at + 1, kind: 'board', id, gone: true, row: null })),
      next: 2,
      more: false,
    };
    await pull(db, async () => page);
    expect((await db.rows('board').toArray()).map((row) => row.id)).toEqual([argued]);
  });

  it('does not go back to an older row', async () => {
    const id = await board();
    await flush();
    const old = { ...(await db.rows('board').get(id))! };
    await change('board', id, { place: 'loft' });
    await flush();
    await pull(db, async () => ({ entries: [{ seq: 3, kind: 'board', id, gone: false, row: { ...old } }], next: 3, more: false }));
    expect((await db.rows('board').get(id))?.place).toBe('loft');
  });
});
