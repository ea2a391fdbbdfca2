import { describe, expect, it } from 'vitest';
import { convert, mirrored, photoAndBoard } from './convert';
import { apply, asPhotoQuad, boardCorners, inverse, multiply, type Refusal, squaringFrom, type Squaring } from './homography';
import { boardMm, distance, type BoardMm, type PhotoPx, photoPx } from './point';
import { slipOf } from './slip';

const SEEN = asPhotoQuad([[170, 1110], [3060, 1120], [2980, 980], [260, 820]]);
const LENGTH_MM = 2592;
const WIDTH_MM = 140;

const must = (found: Squaring | Refusal): Squaring => {
  if ('refusal' in found) throw new Error(found.refusal);
  return found;
};

describe('squaring', () => {
  it('takes each corner of the photo to its corner of the board', () => {
    const { toBoard } = must(squaringFrom(SEEN, LENGTH_MM, WIDTH_MM));
    boardCorners(LENGTH_MM, WIDTH_MM).forEach((corner, i) => {
      expect(distance(apply<PhotoPx, BoardMm>(toBoard, SEEN[i]!), corner)).toBeLessThan(1e-6);
    });
  });

  // Source: annotated flaw quads of the composite photograph in the reference set (SOURCES.json); its y runs downwards,
  // so y here is width - y. Its millimetres are whole: half a millimetre each way is its own tolerance.
  it.each([
    [[237.0, 925.3], [4, 54]],
    [[485.1, 985.7], [125, 79]],
    [[865.5, 954.3], [320, 56]],
  ])('agrees with a published pair %j', (pixel, [x, y]) => {
    const by = photoAndBoard(must(squaringFrom(SEEN, LENGTH_MM, WIDTH_MM)));
    const p = convert(photoPx(pixel[0]!, pixel[1]!), { from: 'photo px', to: 'board mm', by });
    expect(distance(p, boardMm(x!, WIDTH_MM - y!))).toBeLessThan(Math.hypot(0.5, 0.5));
  });

  it('goes there and back', () => {
    const by = photoAndBoard(must(squaringFrom(SEEN, LENGTH_MM, WIDTH_MM)));
    for (const p of [boardMm(1, 1), boardMm(1300, 70), boardMm(2590, 139)]) {
      const there = convert(p, { from: 'board mm', to: 'photo px', by });
      expect(distance(convert(there, { from: 'photo px', to: 'board mm', by }), p)).toBeLessThan(1e-6);
    }
  });

  it('inverts', () => {
    const { toBoard } = must(squaringFrom(SEEN, LENGTH_MM, WIDTH_MM));
    const one = multiply(toBoard, inverse(toBoard));
    [1, 0, 0, 0, 1, 0, 0, 0, 1].forEach((want, i) => expect(one[i]! / one[8]!).toBeCloseTo(want, 6));
    expect(() => inverse([1, 2, 3, 2, 4, 6, 0, 0, 1])).toThrow(RangeError);
  });

  it('refuses crossed and mirrored corners and a board without a size', () => {
    const [a, b, c, d] = SEEN;
    expect(squaringFrom([a, b, d, c], LENGTH_MM, WIDTH_MM)).toHaveProperty('refusal');
    expect(squaringFrom([d, c, b, a], LENGTH_MM, WIDTH_MM)).toHaveProperty('refusal');
    expect(squaringFrom(SEEN, 0, WIDTH_MM)).toHaveProperty('refusal');
    expect(squaringFrom(SEEN, NaN, WIDTH_MM)).toHaveProperty('refusal');
  });

  it('mirrors face B onto face A and back', () => {
    expect(mirrored(boardMm(10, 30), 140)).toEqual(boardMm(10, 110));
    expect(mirrored(mirrored(boardMm(10, 30), 140), 140)).toEqual(boardMm(10, 30));
  });
});

describe('slip', () => {
  it('is worst along a long narrow board', () => {
    // 2 mm a pixel. Same case as the server's own example: 40.4 at worst, 14.4 as a rule.
    const straightOn = asPhotoQuad([[0, 100], [1000, 100], [1000, 0], [0, 0]]);
    const slip = slipOf(straightOn, 2000, 200)!;
    expect(slip.worstMm).toBeCloseTo(40.4, 1);
    expect(slip.typicalMm).toBeCloseTo(14.4, 1);
  });

  it('covers what really happens when one corner moves', () => {
    // A corner off by e = 2/300 of the width makes one end look nearer, and the middle of the length moves by
    // length x e / 4 (to first order in e).
    const flat = asPhotoQuad([[0, 300], [4000, 300], [4000, 0], [0, 0]]);
    const off = must(squaringFrom(asPhotoQuad([[0, 300], [4000, 298], [4000, 0], [0, 0]]), 2000, 150));
    const middle = apply<PhotoPx, BoardMm>(off.toBoard, photoPx(2000, 150));
    expect(Math.abs(middle.x - 1000)).toBeCloseTo((2000 * (2 / 300)) / 4, 1);
    expect(slipOf(flat, 2000, 150)!.worstMm).toBeGreaterThan(Math.abs(middle.x - 1000));
  });

  it('grows with the slip and is unknown for corners that are no board', () => {
    const [a, b, c, d] = SEEN;
    const two = slipOf(SEEN, LENGTH_MM, WIDTH_MM, 2)!.worstMm;
    expect(slipOf(SEEN, LENGTH_MM, WIDTH_MM, 4)!.worstMm / two).toBeCloseTo(2, 6);
    expect(slipOf([a, b, d, c], LENGTH_MM, WIDTH_MM)).toBeNull();
  });
});
