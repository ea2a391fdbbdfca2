import { describe, expect, it } from 'vitest';
import type { Point } from '../api/rows';
import { apply } from '../geometry/homography';
import { photoPx } from '../geometry/point';
import { squaredFrame, stretchOf, warped, type Pixels } from './squaring';

const board = { length_mm: 2592, width_mm: 140 };
const corners: Point[] = [[170, 1110], [3060, 1120], [2980, 980], [260, 820]];
const whole = { corners };

describe('the frame of the squared picture', () => {
  it('takes its four corners to the four corners in the photo', () => {
    const { toPhoto, width, height } = squaredFrame(whole, board)!;
    const found = [[0, height], [width, height], [width, 0], [0, 0]].map(([x, y]) => apply(toPhoto, photoPx(x!, y!)));
    found.forEach((point, at) => {
      expect(point.x).toBeCloseTo(corners[at]![0], 6);
      expect(point.y).toBeCloseTo(corners[at]![1], 6);
    });
  });

  it('has the board\'s proportions', () => {
    const { width, height } = squaredFrame(whole, board)!;
    expect(Math.abs(height - (width * board.width_mm) / board.length_mm)).toBeLessThanOrEqual(0.5);
  });

  it('of a stretch shows that stretch alone', () => {
    const mm: Point[] = [[900, 0], [1700, 0], [1700, 140], [900, 140]];
    const points = corners.map((px, i) => ({ px, mm: mm[i]! }));
    const { toPhoto, width, height } = squaredFrame({ corners: null, points }, board)!;
    expect(stretchOf({ points }, board)).toEqual([900, 1700]);
    expect(Math.abs(height - (width * board.width_mm) / 800)).toBeLessThanOrEqual(0.5);
    const lowerLeft = apply(toPhoto, photoPx(0, height));
    expect([lowerLeft.x, lowerLeft.y]).toEqual([expect.closeTo(170, 4), expect.closeTo(1110, 4)]);
    expect(stretchOf({ points: null }, board)).toEqual([0, 2592]);
  });

  it('refuses corners that are crossed', () => {
    expect(squaredFrame({ corners: [corners[0]!, corners[2]!, corners[1]!, corners[3]!] }, board)).toBeNull();
  });
});

describe('warping', () => {
  const paint = (width: number, height: number, at: (x: number, y: number) => number): Pixels => {
    const data = new Uint8ClampedArray(width * height * 4);
    for (let y = 0; y < height; y += 1) for (let x = 0; x < width; x += 1) data.fill(at(x, y), (y * width + x) * 4, (y * width + x) * 4 + 4);
    return { data, width, height };
  };

  it('leaves a picture alone under the map that moves nothing', () => {
    const picture = paint(7, 5, (x, y) => x * 20 + y);
    expect(warped(picture, [1, 0, 0, 0, 1, 0, 0, 0, 1], 7, 5)).toEqual(picture.data);
  });

  it('finds a linear shade exactly where perspective puts it', () => {
    const picture = paint(400, 400, (x) => (x * 255) / 399);
    const map = [0.8, 0.1, 20, 0.05, 0.7, 30, 0.0004, 0.0002, 1] as const;
    const out = warped(picture, map, 300, 300);
    for (const [x, y] of [[10, 10], [150, 200], [299, 0], [299, 299]] as const) {
      const there = apply(map, photoPx(x + 0.5, y + 0.5));
      expect(Math.abs(out[(y * 300 + x) * 4]! - ((there.x - 0.5) * 255) / 399)).toBeLessThanOrEqual(1);
    }
  });
});
