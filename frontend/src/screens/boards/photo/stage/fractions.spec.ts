import { expect, it } from 'vitest';
import { runsOf } from './fractions';

it('finds fractions with and without a whole number', () => {
  expect(runsOf('29 3/4" × 7/16"')).toEqual([
    { text: '29', fraction: null },
    { text: ' 3/4', fraction: ['3', '4'] },
    { text: '" × ', fraction: null },
    { text: '7/16', fraction: ['7', '16'] },
    { text: '"', fraction: null },
  ]);
  expect(runsOf('755 mm')).toEqual([{ text: '755 mm', fraction: null }]);
  expect(runsOf('')).toEqual([]);
});
