import { expect, it } from 'vitest';
import { stickFor, verdictOf } from './dryness';

it.each([
  [{ ready: true, days: null }, 'Ready'],
  [{ ready: false, days: 11.2 }, '12 days yet'],
  [{ ready: false, days: 0.4 }, '1 day yet'],
  [{ ready: false, days: 0 }, 'Measure again'],
  [{ ready: false, days: null }, 'Not ready'],
])('%j is said as %s', (answer, words) => {
  expect(verdictOf(answer)).toBe(words);
});

it.each([
  [[7, 6, 9], { from_pct: 4, to_pct: 10, ticks: [4, 6, 8, 10] }],
  [[28, 6, 9], { from_pct: 4, to_pct: 30, ticks: [10, 20, 30] }],
  [[0.5, 1], { from_pct: 0, to_pct: 6, ticks: [0, 2, 4, 6] }],
])('a stick for %j', (values, expected) => {
  expect(stickFor(values)).toEqual(expected);
});
