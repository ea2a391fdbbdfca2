import { expect, it } from 'vitest';
import { labelOf } from './placement';

it.each([
  ['Left side', { width: 200, height: 40 }, { text: 'Left side', upright: false }],
  ['Left side', { width: 60, height: 40 }, { text: 'Left…', upright: false }],
  ['Left side', { width: 24, height: 120 }, { text: 'Left side', upright: true }],
  ['Left side', { width: 24, height: 24 }, { text: '', upright: false }],
  ['Left side', { width: 300, height: 12 }, { text: '', upright: false }],
])('%s in %j', (label, box, expected) => {
  expect(labelOf(label, box)).toEqual(expected);
});
