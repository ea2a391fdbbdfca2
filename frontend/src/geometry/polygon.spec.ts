import { describe, expect, it } from 'vitest';
import { boardMm } from './point';
import { distanceToPath, distanceToSegment, inside, signedArea, thinned } from './polygon';
import { around, grown, heightOf, holds, nearestIn, overlap, rectangle, widthOf } from './rectangle';

const SQUARE = [boardMm(0, 0), boardMm(10, 0), boardMm(10, 10), boardMm(0, 10)];

describe('polygon', () => {
  it('has an area with the sign of its turning', () => {
    expect(signedArea(SQUARE)).toBe(100);
    expect(signedArea([...SQUARE].reverse())).toBe(-100);
  });

  it('knows inside from outside, also in a bay', () => {
    const bay = [boardMm(0, 0), boardMm(10, 0), boardMm(10, 10), boardMm(5, 2), boardMm(0, 10)];
    expect(inside(bay, boardMm(5, 1))).toBe(true);
    expect(inside(bay, boardMm(5, 5))).toBe(false);
  });

  it('measures to the nearest place of a path', () => {
    expect(distanceToSegment(boardMm(5, 3), boardMm(0, 0), boardMm(10, 0))).toBe(3);
    expect(distanceToSegment(boardMm(13, 4), boardMm(0, 0), boardMm(10, 0))).toBe(5);
    expect(distanceToPath(boardMm(-2, 5), SQUARE)).toBeCloseTo(Math.hypot(2, 5));
    expect(distanceToPath(boardMm(-2, 5), SQUARE, true)).toBeCloseTo(2);
    expect(distanceToPath(boardMm(3, 4), [boardMm(0, 0)])).toBe(5);
  });

  it('thins a drawn line but keeps its corners', () => {
    const drawn = [...Array(11).keys()].map((i) => boardMm(i, i % 2 === 0 ? 0 : 0.1));
    drawn.push(boardMm(10, 8));
    expect(thinned(drawn, 0.5)).toEqual([boardMm(0, 0), boardMm(10, 0), boardMm(10, 8)]);
  });
});

describe('rectangle', () => {
  const r = rectangle(boardMm(10, 2), boardMm(4, 8));
  it('has low and high corners however it was drawn', () => {
    expect([r.low, r.high]).toEqual([boardMm(4, 2), boardMm(10, 8)]);
    expect([widthOf(r), heightOf(r)]).toEqual([6, 6]);
    expect(holds(r, boardMm(4, 8))).toBe(true);
    expect(holds(grown(r, 1), boardMm(3, 1))).toBe(true);
    expect(nearestIn(r, boardMm(0, 5))).toEqual(boardMm(4, 5));
    expect(overlap(r, rectangle(boardMm(11, 0), boardMm(12, 9)))).toBe(false);
    expect(around([boardMm(1, 5), boardMm(0, 9)])).toEqual(rectangle(boardMm(0, 5), boardMm(1, 9)));
    expect(() => around([])).toThrow(RangeError);
  });
});
