import { describe, expect, it } from 'vitest';
import type { WorkingKind } from '../../state/lists.svelte';
import { bodyOf, byFamily, needWords, sameInputs, startOf, typedRange, type Field } from './form';

const field = (name: string, more: Partial<Field> = {}): Field => ({
  name, label: name, kind: 'length', unit: 'mm', default: null, least: 0, most: 1000, zero_ok: false, whole: false, need: true, hint: '', choices: [], ...more,
});
const kind = (key: string, title: string, family: string, fields: Field[] = []): WorkingKind => ({
  key, title, family, fields, purpose: '', formula: '', limits: '', sources: [],
});
const SLOT = kind('slot', 'Slot for a screw', 'Movement', [
  field('species', { kind: 'species' }),
  field('distance_mm'),
  field('shank_mm', { default: 5 }),
  field('ends', { kind: 'choice', default: 'resting', choices: [{ value: 'resting', word: 'on supports' }, { value: 'fixed', word: 'housed' }] }),
  field('root_mm', { need: false }),
]);

describe('the form of a working', () => {
  it('starts with the declared defaults and the wood on the bench', () => {
    expect(startOf(SLOT, undefined, 'white oak')).toEqual({ species: 'white oak', distance_mm: null, shank_mm: 5, ends: 'resting', root_mm: null });
  });

  it('comes back to the numbers of before', () => {
    const before = { species: 'black walnut', distance_mm: 400, shank_mm: 6, ends: 'fixed', root_mm: 3 };
    expect(startOf(SLOT, before, 'white oak')).toEqual(before);
  });

  it('takes nothing from before that no longer fits', () => {
    const before = { species: 'teak', distance_mm: 5000, shank_mm: 'thick', ends: 'hinged', root_mm: null, gone: 1 };
    expect(startOf(SLOT, before)).toEqual({ species: 'teak', distance_mm: null, shank_mm: 5, ends: 'resting', root_mm: null });
  });

  it('sends every field by name, words without the spaces round them', () => {
    expect(bodyOf(SLOT, { species: ' white oak ', distance_mm: 400 })).toEqual({
      species: 'white oak', distance_mm: 400, shank_mm: null, ends: null, root_mm: null,
    });
  });

  it('knows the same inputs again, also after another unit', () => {
    const there = { a: 22.6796185, b: 'x' };
    expect(sameInputs(there, { a: (22.6796185 / 0.45359237) * 0.45359237, b: 'x' })).toBe(true);
    expect(sameInputs(there, { a: 22.7, b: 'x' })).toBe(false);
    expect(sameInputs(there, { ...there, c: null })).toBe(true);
    expect(sameInputs(there, { ...there, c: 0 })).toBe(false);
  });

  it('says ranges and examples as they are typed here', () => {
    const air = field('temp_c', { kind: 'temperature', least: 0, most: 45, default: 20 });
    expect(typedRange(air, 'inch')).toEqual({ min: 32, max: 113 });
    expect(typedRange(field('x', { least: null, most: null }), 'metric')).toEqual({ min: -Infinity, max: Infinity });
    expect(needWords(air, 'inch')).toBe('Write a number, such as 68.');
    expect(needWords(field('x', { need: false }), 'metric')).toBe('');
  });
});

describe('the list of workings', () => {
  const kinds = [SLOT, kind('cup', 'How far a board cups', 'Movement'), kind('taper', 'Taper of a leg', 'Angles')];

  it('keeps the order of the service, by family', () => {
    expect(byFamily(kinds, '').map(([family, some]) => [family, some.length])).toEqual([['Movement', 2], ['Angles', 1]]);
  });

  it.each([
    ['slot', ['slot']],
    ['LEG taper', ['taper']],
    ['movement', ['slot', 'cup']],
    ['chair', []],
  ])('finds "%s"', (search, keys) => {
    expect(byFamily(kinds, search).flatMap(([, some]) => some.map((one) => one.key))).toEqual(keys);
  });
});
