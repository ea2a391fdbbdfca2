import { expect, it } from 'vitest';
import { newId } from './ids';

const VERSION_4 = /^[0-9a-f]{8}-[0-9a-f]{4}-4[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/;

it('makes version 4 UUIDs (RFC 9562, 5.4) with and without randomUUID', () => {
  const plainHttp = { getRandomValues: crypto.getRandomValues.bind(crypto) } as unknown as Crypto;
  const made = new Set<string>();
  for (let times = 0; times < 200; times += 1) {
    for (const id of [newId(), newId(plainHttp)]) {
      expect(id).toMatch(VERSION_4);
      made.add(id);
    }
  }
  expect(made.size).toBe(400);
});
