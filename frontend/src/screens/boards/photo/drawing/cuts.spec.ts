import { describe, expect, it } from 'vitest';
import { type CutLine, type CutTree, cutLinesOf, tagsOf } from './cuts';

// A board of 1000 x 200 mm: cut across at 700, the first piece ripped at 120, its lower strip cut across at 300.
const TREE: CutTree = {
  x: 0, y: 0, length: 1000, width: 200, cut: 'crosscut', at: [700],
  pieces: [
    {
      x: 0, y: 0, length: 700, width: 200, cut: 'rip', at: [120],
      pieces: [
        { x: 0, y: 0, length: 700, width: 120, cut: 'crosscut', at: [300], pieces: [] },
        { x: 0, y: 123, length: 700, width: 77 },
      ],
    },
    { x: 703, y: 0, length: 297, width: 200 },
  ],
};

describe('cut lines', () => {
  it('run across the piece that they cut, first cuts first', () => {
    expect(cutLinesOf(TREE)).toEqual([
      { cut: 'crosscut', at_mm: 700, from_mm: 0, to_mm: 200, rank: 1 },
      { cut: 'rip', at_mm: 120, from_mm: 0, to_mm: 700, rank: 2 },
      { cut: 'crosscut', at_mm: 300, from_mm: 0, to_mm: 120, rank: 3 },
    ]);
  });

  it('carry their distance where they go right across, in two rows', () => {
    const mm = (value: number): string => `${value} mm`;
    expect(tagsOf(cutLinesOf(TREE), 0.5, mm)).toEqual([{ x: 350, words: '700 mm', row: 0 }]);
    const close = [100, 130, 140, 500].map((at_mm): CutLine => ({ cut: 'crosscut', at_mm, from_mm: 0, to_mm: 200, rank: 1 }));
    expect(tagsOf(close, 1, mm).map(({ words, row }) => [words, row])).toEqual([['100 mm', 0], ['130 mm', 1], ['500 mm', 0]]);
  });
});
