import { expect, it } from 'vitest';
import { nextTag } from './board_draft';

it.each([
  ['W-09', [], 'W-10'],
  ['W-9', ['W-10'], 'W-11'],
  ['12b', [], '13b'],
  ['left', [], ''],
  ['A 3 99', [], 'A 3 100'],
])('after %s (taken: %s) comes %s', (last, taken, next) => {
  expect(nextTag(last, new Set(taken))).toBe(next);
});
