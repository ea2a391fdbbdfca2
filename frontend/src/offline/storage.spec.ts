import 'fake-indexeddb/auto';
import { beforeEach, expect, it } from 'vitest';
import { db, useDatabaseOf } from './db';
import { newId } from './ids';
import { isQuotaFailure, onStorageFull, StorageFull, storing } from './storage';

const quota = () => new DOMException('no room', 'QuotaExceededError');

beforeEach(() => void useDatabaseOf(newId()));

it('gives up kept pictures first', async () => {
  await db.pictures.put({ key: 's1/preview', bytes: new ArrayBuffer(1), type: 'image/jpeg', used_at: 1 });
  let times = 0;
  const write = async () => {
    times += 1;
    if (times === 1) throw quota();
    return 'saved';
  };
  expect(await storing(write)).toBe('saved');
  expect(await db.pictures.count()).toBe(0);
});

it('says so when nothing more fits', async () => {
  const told: boolean[] = [];
  onStorageFull((full) => told.push(full));
  await expect(storing(() => Promise.reject(quota()))).rejects.toThrow(StorageFull);
  expect(told).toEqual([true]);
});

it('knows a full store also when another failure wraps it', () => {
  const wrapped = Object.assign(new Error('aborted'), { name: 'AbortError', inner: quota() });
  expect(isQuotaFailure(wrapped)).toBe(true);
  expect(isQuotaFailure(new Error('other'))).toBe(false);
});
