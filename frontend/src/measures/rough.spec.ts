/** The cases that the server's own test run goes through too; made in exact fractions (tests/vectors/make_rough.py). */
import { expect, it } from 'vitest';
import type { PartRow } from '../api/rows';
import vectors from '../../../tests/vectors/rough.json';
import { blanksFor, roughSize } from './rough';

it.each(vectors.cases)('$part.length_mm x $part.width_mm mm, $part.strip_count strips', ({ part, allowances, rough }) => {
  const { thickness_mm, ...blank } = roughSize(part as Pick<PartRow, keyof typeof part>, allowances);
  expect(blank).toEqual({ length_mm: rough.length_mm, width_mm: rough.width_mm, count: rough.count });
  expect(thickness_mm).toBeCloseTo(rough.thickness_mm, 9);
});

it.each(vectors.blanks)('$pieces pieces, $holds out of a blank: $blanks', ({ pieces, holds, blanks }) => {
  expect(blanksFor(pieces, holds)).toBe(blanks);
});

it('reckons with one piece out of a blank where the part says nothing, and with none once more are cut than wanted', () => {
  expect([blanksFor(4), blanksFor(-1, 2)]).toEqual([4, 0]);
});
