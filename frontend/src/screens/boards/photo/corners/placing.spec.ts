import { describe, expect, it } from 'vitest';
import { photoPx } from '../../../../geometry/point';
import { refuseQuad, clockwise } from '../../../../geometry/quad';
import { buttSideOf, cornerWords, Placing, proposed, type ButtSide } from './placing.svelte';

const SHOT = { widthPx: 3200, heightPx: 2000, lengthMm: 2592, widthMm: 140 };
const SEEN: [number, number][] = [[170, 1110], [3060, 1120], [2980, 980], [260, 820]];

describe('start positions', () => {
  it.each<ButtSide>(['left', 'bottom', 'right', 'top'])('are a board in the right order, butt end %s', (side) => {
    const quad = proposed(3200, 2000, 2592, 140, side);
    expect(refuseQuad(quad)).toBeNull();
    expect(clockwise(quad)).toBe(false);
    expect(buttSideOf(quad)).toBe(side);
    for (const p of quad) {
      expect(p.x).toBeGreaterThan(0);
      expect(p.x).toBeLessThan(3200);
      expect(p.y).toBeGreaterThan(0);
      expect(p.y).toBeLessThan(2000);
    }
  });

  it('follow an upright photo', () => {
    expect(new Placing({ ...SHOT, widthPx: 2000, heightPx: 3200 }, null).buttSide).toBe('bottom');
    expect(new Placing(SHOT, null).buttSide).toBe('left');
  });

  it('are named as the eye sees them', () => {
    expect(cornerWords(0, 'left')).toBe('Butt end, lower corner');
    expect(cornerWords(2, 'left')).toBe('Far end, upper corner');
    expect(cornerWords(0, 'bottom')).toBe('Butt end, right corner');
    expect(cornerWords(1, 'top')).toBe('Far end, left corner');
  });
});

describe('placing', () => {
  const place = (placing: Placing, [x, y]: [number, number]): void => {
    placing.remember();
    placing.move(photoPx(x, y));
    placing.settle();
  };

  it('goes round in order and gives the corners', () => {
    const placing = new Placing(SHOT, null);
    SEEN.forEach((corner, i) => {
      expect(placing.active).toBe(i);
      place(placing, corner);
    });
    expect(placing.allPlaced).toBe(true);
    const result = placing.result;
    if ('refusal' in result) throw new Error(result.refusal);
    expect(result.map((p) => [p.x, p.y])).toEqual(SEEN);
    expect(placing.slip!.worstMm).toBeGreaterThan(placing.slip!.typicalMm);
  });

  it('undoes one corner at a time, back to the proposal', () => {
    const placing = new Placing(SHOT, null);
    const start = placing.corners;
    place(placing, SEEN[0]!);
    place(placing, SEEN[1]!);
    placing.undo();
    expect([placing.active, placing.placed]).toEqual([1, [true, false, false, false]]);
    placing.undo();
    placing.undo();
    expect(placing.corners).toEqual(start);
    expect(placing.canUndo).toBe(false);
  });

  it('puts a mirrored round right and refuses a crossed one', () => {
    const mirrored = new Placing(SHOT, [SEEN[3]!, SEEN[2]!, SEEN[1]!, SEEN[0]!]);
    expect(mirrored.result).toEqual(new Placing(SHOT, SEEN).result);
    const crossed = new Placing(SHOT, [SEEN[0]!, SEEN[2]!, SEEN[1]!, SEEN[3]!]);
    expect(crossed.result).toHaveProperty('refusal');
    expect(crossed.slip).toBeNull();
  });

  it.each([
    ['far corners swapped', [0, 2, 1, 3]],
    ['upper corners swapped', [0, 1, 3, 2]],
  ])('uncrosses: %s', (_, order) => {
    const placing = new Placing(SHOT, order.map((i) => SEEN[i]!));
    expect(placing.isCrossed).toBe(true);
    placing.uncross();
    expect(placing.isCrossed).toBe(false);
    expect(placing.result).toEqual(new Placing(SHOT, SEEN).result);
    placing.undo();
    expect(placing.isCrossed).toBe(true);
  });

  it('turns the proposal, later swaps the ends', () => {
    const placing = new Placing(SHOT, null);
    placing.turn();
    expect(placing.buttSide).toBe('bottom');
    const known = new Placing(SHOT, SEEN);
    known.turn();
    expect(known.corners.map((p) => [p.x, p.y])).toEqual([SEEN[2], SEEN[3], SEEN[0], SEEN[1]]);
    expect(known.buttSide).toBe('right');
  });

  it('nudges by single pixels and stays in the photo', () => {
    const placing = new Placing(SHOT, SEEN);
    placing.select(1);
    placing.nudge(1, 0);
    expect(placing.corners[1]).toEqual(photoPx(3061, 1120));
    placing.move(photoPx(99999, -5));
    expect(placing.corners[1]).toEqual(photoPx(3200, 0));
  });
});
