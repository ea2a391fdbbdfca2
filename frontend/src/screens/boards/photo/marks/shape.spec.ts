import { describe, expect, it } from 'vitest';
import type { MarkShape } from '../../../../api/rows';
import { boardMm } from '../../../../geometry/point';
import { viewLink } from '../../../../geometry/view';
import { handlesOf, pulled, resized, standOff, STAND_OFF_PX } from './handles';
import { areaOf, boundsOf, distanceTo, drawn, hit, lineLength, moved, sizeOf, tapped } from './shape';
import { screenPx } from '../../../../geometry/point';

const BOARD = { lengthMm: 2592, widthMm: 140 };
const KNOT: MarkShape = { type: 'ellipse', cx_mm: 100, cy_mm: 70, rx_mm: 20, ry_mm: 10 };
const CHECK: MarkShape = { type: 'line', points: [[0, 30], [60, 30], [60, 40]], width_mm: 4 };
const SAP: MarkShape = { type: 'outline', points: [[50, 0], [300, 0], [300, 90], [50, 90]] };

describe('what a finger hits', () => {
  it('measures from each shape', () => {
    expect(distanceTo(KNOT, boardMm(110, 72))).toBe(0);
    expect(distanceTo(KNOT, boardMm(130, 70))).toBeCloseTo(10);
    expect(distanceTo(KNOT, boardMm(100, 85))).toBeCloseTo(5);
    expect(distanceTo(CHECK, boardMm(30, 37))).toBeCloseTo(5);
    expect(distanceTo(SAP, boardMm(200, 20))).toBe(0);
    expect(distanceTo(SAP, boardMm(310, 20))).toBe(10);
  });

  it('takes the knot that lies in the sapwood, the sapwood beside it, nothing far off', () => {
    const marks = [{ id: 'knot', shape: KNOT }, { id: 'sap', shape: SAP }];
    expect(hit(marks, boardMm(100, 70), 8)?.id).toBe('knot');
    expect(hit([...marks].reverse(), boardMm(100, 70), 8)?.id).toBe('knot');
    expect(hit(marks, boardMm(250, 20), 8)?.id).toBe('sap');
    expect(hit(marks, boardMm(330, 20), 8)).toBeNull();
  });
});

describe('what a drawn path becomes', () => {
  const path = (...points: [number, number][]) => points.map(([x, y]) => boardMm(x, y));

  it('an ellipse between start and end', () => {
    expect(drawn('ellipse', path([80, 60], [95, 75], [120, 80]), 2, BOARD)).toEqual({ ...KNOT, cy_mm: 70 });
  });

  it('a line that follows the finger but not its shake', () => {
    const shape = drawn('line', path([0, 30], [20, 30.5], [40, 29.6], [60, 30]), 2, BOARD);
    expect(shape).toEqual({ type: 'line', points: [[0, 30], [60, 30]], width_mm: 3 });
    expect(drawn('line', path([0, 30], [40, 30], [60, 60]), 2, BOARD)).toHaveProperty('points.length', 3);
  });

  it('a box when dragged across, the way itself when it went round', () => {
    expect(drawn('outline', path([10, 10], [40, 20], [70, 50]), 2, BOARD)).toEqual({
      type: 'outline', points: [[10, 10], [70, 10], [70, 50], [10, 50]],
    });
    const circle = Array.from({ length: 40 }, (_, i) => boardMm(300 + 40 * Math.cos(i / 6.2), 70 + 40 * Math.sin(i / 6.2)));
    const round = drawn('outline', circle, 2, BOARD)!;
    expect(areaOf(round) / (Math.PI * 1600)).toBeGreaterThan(0.95);
    expect((round as { points: unknown[] }).points.length).toBeLessThan(25);
  });

  it('nothing while it is no more than a tap, and a tap has a mark of its own', () => {
    expect(drawn('ellipse', path([80, 60], [81, 60]), 2, BOARD)).toBeNull();
    expect(drawn('line', [], 2, BOARD)).toBeNull();
    expect(sizeOf(tapped('ellipse', boardMm(500, 70), BOARD))).toEqual([20, 16]);
    expect(boundsOf(tapped('outline', boardMm(0, 0), BOARD)).low).toEqual(boardMm(0, 0));
    expect(tapped('line', boardMm(500, 70), BOARD)).toHaveProperty('type', 'line');
  });

  it('never leaves the board', () => {
    const shape = drawn('outline', path([-50, -20], [60, 70], [9000, 400]), 2, BOARD)!;
    expect(boundsOf(shape)).toEqual({ low: boardMm(0, 0), high: boardMm(2592, 140) });
  });
});

describe('moving and pulling', () => {
  it('moves as far as the board allows', () => {
    expect(moved(KNOT, 5, -5, BOARD)).toEqual({ ...KNOT, cx_mm: 105, cy_mm: 65 });
    expect(boundsOf(moved(KNOT, -500, 500, BOARD))).toEqual({ low: boardMm(0, 120), high: boardMm(40, 140) });
    expect(boundsOf(moved(SAP, 1e4, 0, BOARD)).high.x).toBe(2592);
  });

  it('pulls one side and leaves the other where it is', () => {
    const wider = pulled(KNOT, 'right', boardMm(140, 0), BOARD);
    expect(boundsOf(wider)).toEqual({ low: boardMm(80, 60), high: boardMm(140, 80) });
    expect(sizeOf(pulled(KNOT, 'high', boardMm(0, 0), BOARD))[1]).toBeCloseTo(1);
    expect(pulled(SAP, 2, boardMm(310, 200), BOARD)).toHaveProperty('points.2', [310, 140]);
  });

  it('has a handle for each side or point, standing off small marks', () => {
    expect(handlesOf(KNOT)).toHaveLength(4);
    expect(handlesOf(CHECK)).toHaveLength(3);
    expect(standOff(screenPx(110, 50), screenPx(100, 50)).x).toBe(110 + STAND_OFF_PX);
    expect(standOff(screenPx(100, 50), screenPx(100, 50)).x).toBe(100 + STAND_OFF_PX);
  });

  it('grows by buttons', () => {
    expect(sizeOf(resized(KNOT, 2, 0, BOARD))).toEqual([42, 20]);
    expect(sizeOf(resized(SAP, 0, -10, BOARD))[1]).toBeCloseTo(80);
    const line = resized({ type: 'line', points: [[100, 30], [160, 30]], width_mm: 4 }, 10, 1, BOARD);
    expect(sizeOf(line)).toEqual([70, 5]);
    expect(lineLength([[0, 0], [3, 4]])).toBe(5);
  });
});

describe('faces', () => {
  it('show the same place mirrored across the width', () => {
    const a = viewLink('board mm', { scale: 1, x: 0, y: 140, up: -1 });
    const b = viewLink('board mm', { scale: 1, x: 0, y: 0, up: 1 });
    expect(a.there(boardMm(10, 30))).toEqual(screenPx(10, 110));
    expect(b.there(boardMm(10, 30))).toEqual(screenPx(10, 30));
    expect(b.back(screenPx(10, 30))).toEqual(boardMm(10, 30));
  });
});
