import { expect, it } from 'vitest';
import { laidBoards } from './answer';
import { areaOf, offcutWords, purchaseWords, toSaw } from './carrying';

const METRIC = { units: 'metric', denominator: 16 } as const;
const placed = (board: string) => ({ board, part: 'leg', piece: 1, strip: 0, x_mm: 0, y_mm: 0, length_mm: 700, width_mm: 50, face: 'A', turned: false, pinned: false });
const leftover = { board: 'b1', x_mm: 800, y_mm: 0, length_mm: 900, width_mm: 120 };

it('says which boards are sawn and what goes back into the rack', () => {
  const size = { length_mm: 2000, width_mm: 120 };
  const layout = { placements: [placed('b1'), placed('b2')], cuts: {}, board_sizes: { b1: { tag: 'W-1', ...size }, b2: { tag: 'W-2', ...size } } };
  const found = toSaw({ carried: [{ board: 'b2', cut: 'c', on: '2026-11-25' }], figures: { leftovers: [leftover] } as never }, laidBoards(layout, new Map()));
  expect(found.map((one) => [one.board.tag, one.sawnOn, one.offcuts.length])).toEqual([['W-1', null, 1], ['W-2', '2026-11-25', 0]]);
  expect(areaOf(found[0]!.board.pieces)).toBe(35_000);
});

it('names offcuts by their size', () => {
  expect(offcutWords([leftover], METRIC)).toBe('1 offcut: 900 mm × 120 mm');
  expect(offcutWords([leftover, leftover], METRIC)).toContain('2 offcuts: ');
  expect(offcutWords([], METRIC)).toBe('no offcut worth keeping');
});

it('never rounds a purchase down', () => {
  const purchase = { board_feet: 3.21, m3: 0.00421, least_clear_length_mm: 725, least_clear_width_mm: 56, thickness_mm: 25, species: 'white oak', waste_pct: 30, waste_words: '' };
  expect(purchaseWords(purchase, METRIC)).toBe('Smallest purchase: 0.0043 m³ of white oak, at least 25 mm thick, with clear wood of 725 mm × 56 mm.');
  expect(purchaseWords(purchase, { units: 'inch', denominator: 16 })).toContain('3.3 board feet of white oak, at least 1"');
});
