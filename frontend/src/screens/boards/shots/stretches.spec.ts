import { describe, expect, it } from 'vitest';
import { coverOf } from './stretches';

const stretch = (x0Mm: number, x1Mm: number) => ({ x0Mm, x1Mm });

describe('stretches along a face', () => {
  it('leave nothing open where one shows the whole board', () => {
    expect(coverOf([stretch(0, 3000)], 3000)).toEqual({ gaps: [], overlaps: [] });
  });

  it('tell gaps and overlaps whatever the order they were taken in', () => {
    const made = [stretch(1900, 2800), stretch(0, 1150), stretch(950, 1700)];
    const cover = { gaps: [stretch(1700, 1900), stretch(2800, 3000)], overlaps: [stretch(950, 1150)] };
    expect(coverOf(made, 3000)).toEqual(cover);
    expect(coverOf([...made].reverse(), 3000)).toEqual(cover);
  });

  it('overlap only as far as the shorter one reaches', () => {
    expect(coverOf([stretch(0, 3000), stretch(500, 900)], 3000).overlaps).toEqual([stretch(500, 900)]);
  });

  it('are all gap without a shot', () => {
    expect(coverOf([], 1200)).toEqual({ gaps: [stretch(0, 1200)], overlaps: [] });
  });
});
