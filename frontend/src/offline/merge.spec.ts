import { describe, expect, it } from 'vitest';
import type { Row } from '../api/rows';
import { overlay, threeWay } from './merge';

const row = (revision: number, fields: object) => ({ id: 'b1', revision, ...fields }) as unknown as Row;

describe('overlay: what the shop has, with waiting writes on top', () => {
  const shop = row(4, { tag: 'W-1', place: 'wall' });
  it.each([
    ['nothing waits', shop, [], shop],
    ['a change', shop, [{ method: 'PATCH', body: { place: 'loft' } }], row(4, { tag: 'W-1', place: 'loft' })],
    [
      'two changes of one field, the later wins',
      shop,
      [{ method: 'PATCH', body: { place: 'loft' } }, { method: 'PATCH', body: { place: 'yard' } }],
      row(4, { tag: 'W-1', place: 'yard' }),
    ],
    ['a removal', shop, [{ method: 'PATCH', body: { place: 'loft' } }, { method: 'DELETE', body: {} }], null],
    ['a making that waits', null, [{ method: 'POST', body: { id: 'b1', tag: 'W-9' } }], { id: 'b1', tag: 'W-9' }],
    [
      'a making whose reply was lost, changed here since',
      shop,
      [{ method: 'POST', body: { id: 'b1', tag: 'W-0' } }, { method: 'PATCH', body: { place: 'loft' } }],
      row(4, { tag: 'W-1', place: 'loft' }),
    ],
    ['a change to a row that is gone', null, [{ method: 'PATCH', body: { place: 'loft' } }], null],
  ] as const)('%s', (_, before, waiting, shown) => {
    expect(overlay(before, [...waiting])).toEqual(shown);
  });
});

describe('threeWay: as it was, my change, as the shop has it', () => {
  const was = row(1, { place: 'wall', notes: '', corners: null });
  it.each([
    ['only I changed it', { place: 'loft' }, row(2, { place: 'wall', notes: 'dry', corners: null }), [], { place: 'loft' }],
    ['both changed one field', { place: 'loft' }, row(2, { place: 'yard', notes: '', corners: null }), ['place'], { place: 'loft' }],
    ['both made the same change', { place: 'loft' }, row(2, { place: 'loft', notes: '', corners: null }), [], {}],
    [
      'one field clashes, the other does not',
      { place: 'loft', notes: 'wet' },
      row(2, { place: 'yard', notes: '', corners: null }),
      ['place'],
      { place: 'loft', notes: 'wet' },
    ],
    [
      'lists are compared by content',
      { corners: [[0, 1]] },
      row(2, { place: 'yard', notes: '', corners: [[0, 1]] }),
      [],
      {},
    ],
  ])('%s', (_, mine, theirs, clashes, body) => {
    expect(threeWay(was, mine, theirs)).toEqual({ clashes, body });
  });
});
