/** The cases that the server's own test run goes through too; made by trying every rectangle (make_clear_wood.py). */
import { describe, expect, it } from 'vitest';
import vectors from '../../../../../tests/vectors/clear_wood.json';
import type { MarkRow } from '../../../api/rows';
import { clearFace, NOT_CLEAR } from './clear_face';

it('counts the same kinds as spoilt', () => {
  expect([...NOT_CLEAR].sort()).toEqual(vectors.not_clear);
});

describe('clear wood', () => {
  it.each(vectors.cases.map((board, at) => ({ at, board })))('of board $at', ({ board }) => {
    for (const face of ['A', 'B'] as const) {
      const found = clearFace(board, board.marks as unknown as MarkRow[], face, 4);
      expect(found.rectangles.map((area) => [area.x_mm, area.y_mm, area.length_mm, area.width_mm])).toEqual(board.faces[face].rectangles);
      expect(Math.abs(found.clear_share - board.faces[face].clear_share)).toBeLessThan(0.005);
    }
  });

  it('keeps rectangles apart on sizes with fractions', () => {
    const board = { length_mm: 2438.4, width_mm: 187.325 };
    const knots = [300.3, 911.7, 1500.9].map((cx_mm, at) => ({
      kind: 'knot', face: 'A', through: false, shape: { type: 'ellipse', cx_mm, cy_mm: 40.1 + at * 30.7, rx_mm: 14.3, ry_mm: 9.9 },
    })) as unknown as MarkRow[];
    const { rectangles } = clearFace(board, knots, 'A');
    expect(rectangles).toHaveLength(5);
    rectangles.forEach((one, at) => {
      for (const other of rectangles.slice(at + 1)) {
        const along = Math.min(one.x_mm + one.length_mm, other.x_mm + other.length_mm) - Math.max(one.x_mm, other.x_mm);
        const across = Math.min(one.y_mm + one.width_mm, other.y_mm + other.width_mm) - Math.max(one.y_mm, other.y_mm);
        expect(Math.min(along, across)).toBeLessThan(1e-6);
      }
    });
    expect(clearFace(board, knots, 'B')).toEqual({ clear_share: 1, rectangles: [{ x_mm: 0, y_mm: 0, ...board }] });
  });
});
