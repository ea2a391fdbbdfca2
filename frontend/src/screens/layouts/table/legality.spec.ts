/** The cases that the server's own test run goes through too; judged by an independent checker (make_laid_by_hand.py). */
import { describe, expect, it } from 'vitest';
import vectors from '../../../../../tests/vectors/laid_by_hand.json';
import type { MarkRow } from '../../../api/rows';
import { against, type Laid, rulesOf, stockOf } from './legality';
import { nearestPlace } from './snapping';

interface Case {
  board: { length_mm: number; width_mm: number; marks: unknown[] };
  kerf: number;
  end_trim: number;
  pieces: Omit<Laid, 'id'>[];
  why: string[][];
  sawable: boolean;
}
const cases = vectors.cases as unknown as Case[];
const laid = (one: Case): Laid[] => one.pieces.map((piece, at) => ({ ...piece, id: String(at) }));
const stock = (one: Case) => stockOf(one.board, one.board.marks as MarkRow[]);

describe('pieces laid by hand', () => {
  it.each(cases.map((one, at) => ({ at, one })))('on board $at', ({ one }) => {
    const found = against(laid(one), stock(one), { kerf: one.kerf, endTrim: one.end_trim });
    const why = laid(one).map(({ id }) => [...new Set((found.get(id) ?? []).map((each) => each.why))].sort());
    expect(why.some((words) => words.includes('not_sawable'))).toBe(!one.sawable);
    expect(why.map((words) => words.filter((word) => word !== 'not_sawable'))).toEqual(one.why);
  });

  it('counts a kerf and a trim for no less than they take', () => {
    expect(rulesOf({ kerf_mm: 3.2, end_trim_mm: 25 })).toEqual({ kerf: 4, endTrim: 25 });
  });
});

describe('the nearest place', () => {
  it.each(cases.map((one, at) => ({ at, one })))('of each piece of board $at is legal, and its own where that is', ({ one }) => {
    const rules = { kerf: one.kerf, endTrim: one.end_trim };
    const pieces = laid(one);
    const before = against(pieces, stock(one), rules);
    for (const piece of pieces) {
      const place = nearestPlace(piece, pieces, stock(one), rules, piece, 1e6);
      if (before.size === 0) expect(place).toEqual({ x_mm: piece.x_mm, y_mm: piece.y_mm });
      if (!place) continue;
      const after = against(pieces.map((other) => (other.id === piece.id ? { ...piece, ...place } : other)), stock(one), rules);
      expect((after.get(piece.id) ?? []).filter((each) => each.why !== 'not_sawable')).toEqual([]);
      if (before.size === 0) expect(after.size).toBe(0);
    }
  });

  const BARE = { length: 1000, width: 200, flaws: [] };
  const RULES = { kerf: 4, endTrim: 25 };
  const leg: Laid = { id: 'leg', x_mm: 25, y_mm: 0, length_mm: 300, width_mm: 60, face: 'A', shows: 'one' };
  const rail: Laid = { ...leg, id: 'rail', x_mm: 500 };

  it('is pulled to a kerf beside a neighbour, and to the edge', () => {
    expect(nearestPlace(leg, [rail], BARE, RULES, { x_mm: 190, y_mm: 3 }, 0, 10)).toEqual({ x_mm: 196, y_mm: 0 });
    expect(nearestPlace(leg, [rail], BARE, RULES, { x_mm: 100, y_mm: 90 }, 0, 10)).toEqual({ x_mm: 100, y_mm: 90 });
  });
  it('keeps within reach, and is none where there is none', () => {
    expect(nearestPlace(leg, [], BARE, RULES, { x_mm: -40, y_mm: 0 }, 80)).toEqual({ x_mm: 25, y_mm: 0 });
    expect(nearestPlace(leg, [], BARE, RULES, { x_mm: -40, y_mm: 0 }, 50)).toBeNull();
    expect(nearestPlace({ ...leg, length_mm: 951 }, [], BARE, RULES, { x_mm: 25, y_mm: 0 }, 1e6)).toBeNull();
  });
});
