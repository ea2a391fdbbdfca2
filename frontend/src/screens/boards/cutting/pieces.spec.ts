import { describe, expect, it } from 'vitest';
import type { MarkRow } from '../../../api/rows';
import { keptPieces, marksOn, onTape, piecesOf, pieceTags } from './pieces';

const BOARD = { length_mm: 2400, width_mm: 200 };

describe('a cut', () => {
  it('across leaves two lengths with the kerf between them', () => {
    expect(piecesOf(BOARD, 'crosscut', 1000, 3)).toEqual([
      { x_mm: 0, y_mm: 0, length_mm: 1000, width_mm: 200 },
      { x_mm: 1003, y_mm: 0, length_mm: 1397, width_mm: 200 },
    ]);
  });
  it('along leaves two widths', () => {
    expect(piecesOf(BOARD, 'rip', 120, 3)).toEqual([
      { x_mm: 0, y_mm: 0, length_mm: 2400, width_mm: 120 },
      { x_mm: 0, y_mm: 123, length_mm: 2400, width_mm: 77 },
    ]);
  });
  it.each([
    [2400, 1],
    [2397.5, 1],
    [0, 1],
    [2396, 2],
  ])('at %d mm leaves %d', (at, count) => {
    expect(piecesOf(BOARD, 'crosscut', at, 3)).toHaveLength(count);
  });
  it('never leaves more wood than there was', () => {
    for (const kind of ['crosscut', 'rip'] as const) {
      for (let at = 0; at <= 200; at += 7) {
        const area = piecesOf(BOARD, kind, at, 3.2).reduce((sum, piece) => sum + piece.length_mm * piece.width_mm, 0);
        expect(area).toBeLessThanOrEqual(2400 * 200);
      }
    }
  });
});

it('stands on a mark of the tape, on the board', () => {
  expect(onTape(1000.4, 1, 2400)).toBe(1000);
  expect(onTape(1000.4, 25.4 / 16, 2400) / 25.4).toBeCloseTo(39.375, 9);
  expect([onTape(-5, 1, 2400), onTape(2500, 1, 2400)]).toEqual([0, 2400]);
});

it.each([
  ['W-14', [], ['W-14A', 'W-14B']],
  ['W-14A', [], ['W-14A1', 'W-14A2']],
  ['W-14', ['W-14A'], ['W-14B', 'W-14C']],
  ['A very long tag, 20 c', [], ['A very long tag, 201', 'A very long tag, 202']],
])('calls the pieces of %s', (tag, taken, expected) => {
  expect(pieceTags(tag, 2, new Set(taken))).toEqual(expected);
});

describe('pieces for the rack', () => {
  const pieces = piecesOf(BOARD, 'crosscut', 1000, 3);
  it('are those that are kept, with their tags', () => {
    expect(keptPieces(pieces, ['W-1A ', 'W-1B'], [true, false], new Set(['W-1B']))).toEqual([{ ...pieces[0], tag: 'W-1A' }]);
  });
  it('never carry the tag of another board', () => {
    expect(() => keptPieces(pieces, ['W-1', 'W-1B'], [true, true], new Set(['W-1']))).toThrow('Another board carries W-1.');
    expect(() => keptPieces(pieces, ['X', 'X'], [true, true], new Set())).toThrow('Another board carries X.');
  });
});

it('gives each piece the marks that reach onto it', () => {
  const knot = { kind: 'knot', shape: { type: 'ellipse', cx_mm: 1000, cy_mm: 50, rx_mm: 10, ry_mm: 10 } } as MarkRow;
  const check = { kind: 'check', shape: { type: 'line', points: [[0, 20], [80, 22]], width_mm: 2 } } as MarkRow;
  const [butt, far] = piecesOf(BOARD, 'crosscut', 1000, 3);
  expect(marksOn(butt!, [knot, check])).toEqual([knot, check]);
  expect(marksOn(far!, [knot, check])).toEqual([knot]);
});
