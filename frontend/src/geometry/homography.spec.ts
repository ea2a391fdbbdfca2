import { describe, expect, it } from 'vitest';
import { convert, mirrored, photoAndBoard } from './convert';
import { apply, asPhotoQuad, boardCorners, inverse, multiply, type Refusal, squaringFrom, type Squaring } from './homography';
import { boardMm, distance, type BoardMm, type PhotoPx, photoPx } from './point';
import { slipMm } from './slip';

interface Case {
  name: string;
  [key: string]: unknown;
}

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
  it('is worst in the middle of a long narrow board', () => {
    // 0.5 mm a pixel. A corner off by e = 2/300 of the width makes one end look nearer, and the middle of the length moves by
    // length x e / 4 (to first order in e), far more than the 1 mm at the corner itself.
    const flat = asPhotoQuad([[0, 300], [4000, 300], [4000, 0], [0, 0]]);
    const expected = (2000 * (2 / 300)) / 4;
    expect(slipMm(flat, 2000, 150)! / expected).toBeGreaterThan(0.98);
    expect(slipMm(flat, 2000, 150)! / expected).toBeLessThan(1.05);
  });

  it('is the pixel size on a square board seen straight on', () => {
    const flat = asPhotoQuad([[0, 4000], [4000, 4000], [4000, 0], [0, 0]]);
    expect(slipMm(flat, 2000, 2000)!).toBeCloseTo(1, 2);
  });

  it('grows with perspective and with the slip', () => {
    expect(slipMm(SEEN, LENGTH_MM, WIDTH_MM)!).toBeGreaterThan(2 * 0.9);
    expect(slipMm(SEEN, LENGTH_MM, WIDTH_MM, 4)!).toBeGreaterThan(1.9 * slipMm(SEEN, LENGTH_MM, WIDTH_MM, 2)!);
  });

  it('is unknown for corners that are no board', () => {
    const [a, b, c, d] = SEEN;
    expect(slipMm([a, b, d, c], LENGTH_MM, WIDTH_MM)).toBeNull();
  });
});

// Cases shared with the server's own test run; shape checked here so that a changed file fails loudly.
const shared = Object.values(import.meta.glob('../../../tests/vectors/frames.json', { eager: true, import: 'default' }));
describe.skipIf(shared.length === 0)('cases shared with the server', () => {
  it('are there', () => expect((shared[0] as { cases: Case[] }).cases.length).toBeGreaterThan(0));
});
