import { describe, expect, it } from 'vitest';
import { photoPx } from '../../../../geometry/point';
import { refuseQuad, clockwise } from '../../../../geometry/quad';
import { Placing } from './placing.svelte';
import { buttSideOf, cornerWords, proposed, type ButtSide } from './sides';

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
    expect(new Placing({ ...SHOT, widthPx: 2000, heightPx: 3200 }).buttSide).toBe('bottom');
    expect(new Placing(SHOT).buttSide).toBe('left');
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
    const placing = new Placing(SHOT);
    SEEN.forEach((corner, i) => {
      expect(placing.active).toBe(i);
      place(placing, corner);
    });
    expect(placing.allPlaced).toBe(true);
    expect(placing.kept).toEqual({ corners: SEEN });
    expect(placing.slip!.worstMm).toBeGreaterThan(placing.slip!.typicalMm);
  });

  it('undoes one corner at a time, back to the proposal', () => {
    const placing = new Placing(SHOT);
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
    const mirrored = new Placing(SHOT, { corners: [SEEN[3]!, SEEN[2]!, SEEN[1]!, SEEN[0]!] });
    expect(mirrored.kept).toEqual({ corners: SEEN });
    const crossed = new Placing(SHOT, { corners: [SEEN[0]!, SEEN[2]!, SEEN[1]!, SEEN[3]!] });
    expect(crossed.kept).toBeNull();
    expect(crossed.refusal).toContain('crossed');
    expect(crossed.slip).toBeNull();
  });

  it.each([
    ['far corners swapped', [0, 2, 1, 3]],
    ['upper corners swapped', [0, 1, 3, 2]],
  ])('uncrosses: %s', (_, order) => {
    const placing = new Placing(SHOT, { corners: order.map((i) => SEEN[i]!) });
    expect(placing.isCrossed).toBe(true);
    placing.uncross();
    expect(placing.isCrossed).toBe(false);
    expect(placing.kept).toEqual({ corners: SEEN });
    placing.undo();
    expect(placing.isCrossed).toBe(true);
  });

  it('turns the proposal, later swaps the ends', () => {
    const placing = new Placing(SHOT);
    placing.turn();
    expect(placing.buttSide).toBe('bottom');
    const known = new Placing(SHOT, { corners: SEEN });
    known.turn();
    expect(known.corners.map((p) => [p.x, p.y])).toEqual([SEEN[2], SEEN[3], SEEN[0], SEEN[1]]);
    expect(known.buttSide).toBe('right');
  });

  it('nudges by single pixels and stays in the photo', () => {
    const placing = new Placing(SHOT, { corners: SEEN });
    placing.select(1);
    placing.nudge(1, 0);
    expect(placing.corners[1]).toEqual(photoPx(3061, 1120));
    placing.move(photoPx(99999, -5));
    expect(placing.corners[1]).toEqual(photoPx(3200, 0));
  });
});

describe('corners that the shop found', () => {
  it('only want a look when they are sure', () => {
    const placing = new Placing(SHOT, { found: { corners: SEEN, sure: 0.9 } });
    expect([placing.allPlaced, placing.isFound]).toEqual([true, true]);
    expect(placing.kept).toEqual({ corners: SEEN });
  });

  it('are a start to be confirmed one by one when they are not', () => {
    const placing = new Placing(SHOT, { found: { corners: SEEN, sure: 0.4 } });
    expect([placing.nonePlaced, placing.isFound]).toEqual([true, true]);
    placing.turn();
    expect(placing.corners.map((p) => [p.x, p.y])).toEqual([SEEN[2], SEEN[3], SEEN[0], SEEN[1]]);
  });

  it('come late without undoing what the hand did, and never over corners already set', () => {
    const late = new Placing(SHOT);
    late.take({ corners: SEEN, sure: 0.9 });
    expect(late.kept).toEqual({ corners: SEEN });
    const begun = new Placing(SHOT);
    begun.remember();
    begun.move(photoPx(9, 9));
    begun.settle();
    begun.take({ corners: SEEN, sure: 0.9 });
    expect(begun.isFound).toBe(false);
    const moved = SEEN.map(([x, y]): [number, number] => [x, y + 5]);
    expect(new Placing(SHOT, { corners: moved, found: { corners: SEEN, sure: 1 } }).kept).toEqual({ corners: moved });
  });
});

describe('a stretch of the board', () => {
  it('lies between two distances, with points of its own', () => {
    const placing = new Placing(SHOT, { corners: SEEN });
    placing.showStretch(900, 1700);
    expect([placing.isStretch, placing.stretch]).toEqual([true, [900, 1700]]);
    const kept = placing.kept;
    if (!kept || !('points' in kept)) throw new Error('no points');
    expect(kept.points.map(({ mm }) => mm)).toEqual([[900, 0], [1700, 0], [1700, 140], [900, 140]]);
    expect(new Placing(SHOT, { points: kept.points }).kept).toEqual(kept);
  });

  it('takes more points, tells the one that is off, and lets it go', () => {
    const placing = new Placing(SHOT, { corners: SEEN });
    placing.showStretch(900, 1700);
    for (const edge of ['lower', 'upper'] as const) {
      placing.add({ xMm: 1300, edge });
      placing.settle();
    }
    const good = placing.fit;
    if (!good || 'refusal' in good) throw new Error('no fit');
    expect(Math.max(...good.residualsMm)).toBeLessThan(1e-6);
    placing.setPlace(5, { xMm: 1340, edge: 'upper' });
    const bad = placing.fit;
    if (!bad || 'refusal' in bad) throw new Error('no fit');
    expect(bad.residualsMm.indexOf(Math.max(...bad.residualsMm))).toBe(5);
    expect(placing.worst).toMatchObject({ point: 5, isCertain: false });
    placing.drop(5);
    expect(placing.places).toHaveLength(5);
    placing.undo();
    placing.undo();
    expect(placing.places[5]).toEqual({ xMm: 1300, edge: 'upper' });
  });

  it('names the one that is off where four on its edge tell', () => {
    const placing = new Placing(SHOT, { corners: SEEN });
    placing.showStretch(900, 1700);
    for (const xMm of [1100, 1400]) {
      placing.add({ xMm, edge: 'upper' });
      placing.settle();
    }
    expect(placing.worst).toBeNull();
    placing.setPlace(2, { xMm: 1650, edge: 'upper' });
    expect(placing.worst).toMatchObject({ point: 2, isCertain: true });
  });

  it('is refused where the points cannot be', () => {
    const placing = new Placing(SHOT, { corners: SEEN });
    placing.showStretch(900, 4000);
    expect(placing.refusal).toContain("beyond the board's ends");
    placing.showStretch(900, 900);
    expect(placing.refusal).toContain('same place');
    expect(placing.kept).toBeNull();
    placing.showWhole();
    expect(placing.kept).toEqual({ corners: SEEN });
  });

  it('puts edges right that were taken for each other', () => {
    const placing = new Placing(SHOT, { corners: [SEEN[3]!, SEEN[2]!, SEEN[1]!, SEEN[0]!] });
    placing.showStretch(0, 1000);
    const kept = placing.kept;
    if (!kept || !('points' in kept)) throw new Error('no points');
    expect(kept.points.map(({ mm }) => mm)).toEqual([[0, 140], [1000, 140], [1000, 0], [0, 0]]);
  });
});
