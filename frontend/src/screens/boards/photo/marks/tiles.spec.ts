import { beforeEach, describe, expect, it, vi } from 'vitest';
import { boardMm } from '../../../../geometry/point';
import { rectangle } from '../../../../geometry/rectangle';
import type { View } from '../../../../geometry/view';
import type { Mark } from './history';
import { Tiles } from './tiles';

// The test run has no canvas: squares are counted, not looked at (that is done in the browser).
beforeEach(() => {
  vi.stubGlobal('document', { createElement: () => ({ getContext: () => ({}) }) });
});

const SIZE = { width: 390, height: 400 };
const VIEW: View = { scale: 1.3, x: 24, y: 300, up: -1 };
const knot = (id: string, x: number): Mark => ({
  id, face: 'A', kind: 'knot', through: false, blocks: 'all', note: '',
  shape: { type: 'ellipse', cx_mm: x, cy_mm: 70, rx_mm: 5, ry_mm: 5 },
});

function drawing() {
  const drawn: string[][] = [];
  const tiles = new Tiles(rectangle(boardMm(0, 0), boardMm(2592, 140)), 2, (_, __, marks) => drawn.push(marks.map((m) => m.id)));
  const ctx = { drawImage: () => undefined } as unknown as CanvasRenderingContext2D;
  const settle = (view: View, marks: Mark[], steady = true): number => {
    const before = drawn.length;
    let frames = 0;
    while (tiles.show(ctx, view, SIZE, marks, steady) && frames < 100) frames += 1;
    return drawn.length - before;
  };
  return { drawn, tiles, ctx, settle };
}

describe('squares of a board', () => {
  it('are drawn a few in a frame, and once', () => {
    const { settle, drawn, tiles, ctx } = drawing();
    tiles.show(ctx, VIEW, SIZE, [], true);
    expect(drawn.length).toBeLessThanOrEqual(3);
    expect(settle(VIEW, [])).toBeGreaterThan(3);
    expect(settle(VIEW, [])).toBe(0);
    expect(settle({ ...VIEW, x: VIEW.x - 20 }, [])).toBeLessThanOrEqual(4);
  });

  it('hold the marks that reach into them', () => {
    const { settle, drawn } = drawing();
    settle(VIEW, [knot('near', 50), knot('far', 2000)]);
    expect(drawn.flat()).toContain('near');
    expect(drawn.flat()).not.toContain('far');
  });

  it('are drawn anew only where a mark changed', () => {
    const { settle } = drawing();
    const marks = [knot('a', 50), knot('b', 250)];
    const all = settle(VIEW, marks);
    const again = settle(VIEW, [marks[0]!, knot('b', 252)]);
    expect(again).toBeGreaterThan(0);
    expect(again).toBeLessThan(all);
    expect(settle(VIEW, [marks[0]!])).toBeGreaterThan(0);
  });

  it('are stretched, not drawn, while the zoom changes', () => {
    const { settle, tiles, ctx, drawn } = drawing();
    settle(VIEW, []);
    const before = drawn.length;
    expect(tiles.show(ctx, { ...VIEW, scale: 2 }, SIZE, [], false)).toBe(true);
    expect(drawn.length).toBe(before);
    expect(settle({ ...VIEW, scale: 2 }, [])).toBeGreaterThan(0);
  });
});
