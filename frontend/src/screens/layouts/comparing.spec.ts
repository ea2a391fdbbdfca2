import { describe, expect, it } from 'vitest';
import { areaWords, changedHands, figureLines, handWords } from './comparing';

const METRIC = { units: 'metric', denominator: 16 } as const;
const placed = (board: string, x_mm: number, part = 'leg') => ({ board, part, piece: 1, strip: 0, x_mm, y_mm: 0, length_mm: 700, width_mm: 50, face: 'A', turned: false, pinned: false });
const sizes = { b1: { tag: 'W-1', length_mm: 2000, width_mm: 150 }, b2: { tag: 'W-2', length_mm: 2000, width_mm: 150 } };
const layout = (placements: ReturnType<typeof placed>[], figures = {}) =>
  ({ placements, board_sizes: sizes, figures: { pieces: placements.length, unplaced: 0, boards_used: 1, parts_mm2: 1, wood_used_mm2: 300_000, board_mm2: 300_000, leftovers: [], ...figures } }) as never;
const parts = new Map([['leg', { name: 'Leg' }], ['rail', { name: 'Rail' }]]);
const words = (first: never, second: never) => changedHands(first, second, parts).map((hand) => `${hand.count} ${hand.part} ${handWords(hand)}`);

describe('what changes hands', () => {
  it('is nothing where alike pieces only changed their numbers', () => {
    expect(words(layout([placed('b1', 0), placed('b1', 800)]), layout([placed('b1', 800), placed('b1', 0)]))).toEqual([]);
  });
  it('names moved boards, other places, and what is placed or not any more', () => {
    const first = layout([placed('b1', 0), placed('b1', 800), placed('b1', 1500, 'rail')]);
    expect(words(first, layout([placed('b2', 0), placed('b1', 810)]))).toEqual([
      '1 Leg another place on W-1', '1 Leg from W-1 to W-2', '1 Rail no longer placed; was on W-1',
    ]);
    expect(words(layout([]), layout([placed('b2', 0), placed('b2', 900)]))).toEqual(['2 Leg now placed, on W-2']);
  });
});

describe('figures', () => {
  const leftover = { board: 'b1', x_mm: 0, y_mm: 0, length_mm: 900, width_mm: 100 };
  it('say which is better, and nothing where they print alike', () => {
    const lines = figureLines(layout([], { wood_used_mm2: 310_000 }), layout([], { leftovers: [leftover], unplaced: 2 }), METRIC);
    expect(Object.fromEntries(lines.map((line) => [line.word, [line.first, line.second, line.better]]))).toEqual({
      'Pieces placed': ['0', '0', null], 'Not placed': ['0', '2', 'first'], 'Boards cut': ['1', '1', null], 'Wood used': ['0.31 m²', '0.30 m²', 'second'],
      'Offcuts kept': ['0', '1', null], 'Wood in offcuts': ['0.00 m²', '0.09 m²', 'second'], 'Longest offcut': ['none', '900 mm', 'second'],
    });
  });
  it('show looks where both have it', () => {
    expect(figureLines(layout([], { looks: 0.8 }), layout([], { looks: 0.9 }), METRIC).at(-1)).toEqual({ word: 'Looks', first: '80 of 100', second: '90 of 100', better: 'second' });
  });
  it('are in the workshop\'s units', () => expect(areaWords(92_903.04 * 2, { units: 'inch', denominator: 16 })).toBe('2.0 sq ft'));
});
