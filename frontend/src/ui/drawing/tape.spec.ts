import { expect, it } from 'vitest';
import { tapeLines } from './tape';

it.each([
  ['inch', 2438.4, 0.15],
  ['inch', 2438.4, 1.2],
  ['metric', 3000, 0.12],
  ['metric', 600, 2],
] as const)('a %s tape of %d mm at %d px/mm stays legible', (units, lengthMm, pxPerMm) => {
  const lines = tapeLines(lengthMm, pxPerMm, units);
  const numbered = lines.filter((line) => line.label);
  expect(lines[0]).toEqual({ at_mm: 0, rank: 3, label: '0' });
  expect(lines.at(-1)!.at_mm).toBeLessThanOrEqual(lengthMm + 1e-6);
  for (const [at, line] of lines.slice(1).entries()) expect((line.at_mm - lines[at]!.at_mm) * pxPerMm).toBeGreaterThanOrEqual(4);
  for (const [at, line] of numbered.slice(1).entries()) expect((line.at_mm - numbered[at]!.at_mm) * pxPerMm).toBeGreaterThanOrEqual(46);
});

it('ends on the 96th inch of an eight foot board', () => {
  const last = tapeLines(2438.4, 2, 'inch').at(-1)!;
  expect(last.at_mm).toBeCloseTo(2438.4, 9);
});
