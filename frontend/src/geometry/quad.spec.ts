import { describe, expect, it } from 'vitest';
import { asPhotoQuad } from './homography';
import { clockwise, crossed, inOrder, refuseQuad } from './quad';

// A 2592 x 140 mm board lying across the photo, seen in perspective, anticlockwise from its butt-end lower corner.
const LOWER_BUTT: [number, number] = [170, 1110];
const LOWER_FAR: [number, number] = [3060, 1120];
const UPPER_FAR: [number, number] = [2980, 980];
const UPPER_BUTT: [number, number] = [260, 820];
const RIGHT = [LOWER_BUTT, LOWER_FAR, UPPER_FAR, UPPER_BUTT];

const ordered = (corners: [number, number][]): unknown => {
  const found = inOrder(asPhotoQuad(corners), 2592, 140);
  return 'refusal' in found ? found.refusal : found.map((p) => [p.x, p.y]);
};

describe('order of corners', () => {
  it('leaves the right order alone, whichever way the board lies', () => {
    expect(clockwise(asPhotoQuad(RIGHT))).toBe(false);
    expect(ordered(RIGHT)).toEqual(RIGHT);
    const turned = [UPPER_FAR, UPPER_BUTT, LOWER_BUTT, LOWER_FAR];
    expect(ordered(turned)).toEqual(turned);
    const upright: [number, number][] = [[500, 1900], [480, 100], [380, 100], [340, 1900]];
    expect(ordered(upright)).toEqual(upright);
  });

  it('puts a mirrored round right', () => {
    expect(ordered([UPPER_BUTT, UPPER_FAR, LOWER_FAR, LOWER_BUTT])).toEqual(RIGHT);
    expect(ordered([LOWER_BUTT, UPPER_BUTT, UPPER_FAR, LOWER_FAR])).toEqual(RIGHT);
  });

  it('does not guess which end is the butt end', () => {
    expect(ordered([UPPER_BUTT, LOWER_BUTT, LOWER_FAR, UPPER_FAR])).toMatch(/short side/);
  });

  it('refuses crossed corners in words', () => {
    const bowTie = [LOWER_BUTT, LOWER_FAR, UPPER_BUTT, UPPER_FAR];
    expect(crossed(asPhotoQuad(bowTie))).toBe(true);
    expect(ordered(bowTie)).toMatch(/crossed/);
    expect(ordered([LOWER_BUTT, UPPER_FAR, LOWER_FAR, UPPER_BUTT])).toMatch(/crossed/);
  });
});

describe('refusals', () => {
  it.each([
    ['same spot', [[0, 0], [1, 1], [100, -50], [0, -50]], /same spot/],
    ['one line', [[0, 0], [100, 0], [200, 0.5], [0, -50]], /one line/],
    ['inside', [[0, 0], [200, 0], [60, -20], [0, -100]], /inside/],
    ['missing', [[0, 0], [NaN, 0], [60, -20], [0, -100]], /missing/],
  ])('%s', (_, corners, words) => {
    expect(refuseQuad(asPhotoQuad(corners as [number, number][]))).toMatch(words as RegExp);
  });
});
