import { describe, expect, it } from 'vitest';
import { pathOf, rectangleOf, spanOf, toPictureY } from './outline';

const A = { width_mm: 200, scale: 0.5, face: 'A' } as const;
const B = { ...A, face: 'B' } as const;

describe('from the board to the picture', () => {
  it('puts the lower edge of face A at the bottom, and at the top as seen from face B', () => {
    expect([toPictureY(0, A), toPictureY(200, A)]).toEqual([100, 0]);
    expect([toPictureY(0, B), toPictureY(200, B)]).toEqual([0, 100]);
  });
  it('gives placements their upper left corner', () => {
    const placed = { x_mm: 100, y_mm: 20, length_mm: 400, width_mm: 60 };
    expect(rectangleOf(placed, A)).toEqual({ x: 50, y: 60, width: 200, height: 30 });
    expect(rectangleOf(placed, B)).toEqual({ x: 50, y: 10, width: 200, height: 30 });
  });
  it('closes outlines and leaves lines open', () => {
    expect(pathOf({ type: 'outline', points: [[0, 0], [10, 0], [10, 10]] }, A)).toBe('M0 100L5 100L5 95z');
    expect(pathOf({ type: 'line', points: [[0, 0], [10, 0]], width_mm: 2 }, A)).toBe('M0 100L5 100');
  });
});

it('says from where to where a mark reaches', () => {
  expect(spanOf({ type: 'ellipse', cx_mm: 100, cy_mm: 50, rx_mm: 20, ry_mm: 10 })).toEqual({ from_mm: 80, to_mm: 120, across_mm: 20 });
  expect(spanOf({ type: 'line', points: [[0, 50], [300, 52]], width_mm: 2 })).toEqual({ from_mm: -1, to_mm: 301, across_mm: 4 });
});
