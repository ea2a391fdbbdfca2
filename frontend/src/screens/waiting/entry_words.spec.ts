import { expect, it } from 'vitest';
import type { OutboxEntry } from '../../offline/db';
import { differences, entryWords, fieldWords } from './entry_words';

const entry = (over: object) => ({ method: 'POST', kind: 'board', body: {}, base: null, current: null, ...over }) as OutboxEntry;

it.each([
  [entry({ body: { tag: 'W-14' } }), 'New board W-14'],
  [entry({ method: 'PATCH', kind: 'part', base: { name: 'Leg' } }), 'Change to part Leg'],
  [entry({ method: 'DELETE', kind: 'surface_plan' }), 'Removal of surface plan'],
  [entry({ kind: 'mark', body: { kind: 'bark_pocket' } }), 'New mark bark pocket'],
  [entry({ kind: 'shot', body: { face: 'B' } }), 'New photograph of face B'],
])('names an entry', (one, words) => expect(entryWords(one, undefined)).toBe(words));

it('leaves units out of field names', () => {
  expect(['length_mm', 'home_rh_dry_pct', 'wanted_on'].map(fieldWords)).toEqual(['length', 'home rh dry', 'wanted on']);
});

it('shows only what differs', () => {
  const one = entry({ body: { place: 'loft', notes: 'dry' }, current: { place: 'yard', notes: 'dry' } });
  expect(differences(one)).toEqual([{ field: 'place', mine: 'loft', theirs: 'yard' }]);
});
