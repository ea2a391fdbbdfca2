/** The cases that the server's own test run goes through too; made with OpenCV (tests/vectors/make_frames.py). */
import { describe, expect, it } from 'vitest';
import frames from '../../../tests/vectors/frames.json';
import { convert, photoAndBoard } from './convert';
import { asPhotoQuad, type Matrix, squaringFrom } from './homography';
import { boardMm, distance, photoPx } from './point';
import { inOrder } from './quad';

type Corners = [number, number][];
const TOLERANCE = 0.001;
const WORDS: Record<string, RegExp> = {
  crossed: /crossed/,
  repeated: /same spot/,
  in_line: /one line/,
  dented: /inside the other three/,
  sides_swapped: /short side/,
  board_size: /no size/,
  missing: /missing/,
};

describe.each(frames.views)('$name', (view) => {
  const squaring = squaringFrom(asPhotoQuad(view.corners_px as Corners), view.length_mm, view.width_mm);
  if ('refusal' in squaring) throw new Error(squaring.refusal);

  it('is the same map as the server makes', () => {
    const scale = squaring.toBoard[8];
    (view.homography.flat() as unknown as Matrix).forEach((want, i) => {
      expect(Math.abs(squaring.toBoard[i]! / scale - want)).toBeLessThan(1e-7 * Math.max(1, Math.abs(want)));
    });
  });

  it('puts every place where it is, both ways', () => {
    const by = photoAndBoard(squaring);
    for (const pair of view.pairs) {
      const px = photoPx(pair.photo_px[0]!, pair.photo_px[1]!);
      const mm = boardMm(pair.board_mm[0]!, pair.board_mm[1]!);
      expect(distance(convert(px, { from: 'photo px', to: 'board mm', by }), mm)).toBeLessThan(TOLERANCE);
      expect(distance(convert(mm, { from: 'board mm', to: 'photo px', by }), px)).toBeLessThan(TOLERANCE);
    }
  });

  it('needs no putting in order', () => {
    const quad = asPhotoQuad(view.corners_px as Corners);
    expect(inOrder(quad, view.length_mm, view.width_mm)).toEqual(quad);
  });
});

it.each(frames.put_in_order)('puts in order: $name', ({ given_px, right_px, length_mm, width_mm }) => {
  expect(inOrder(asPhotoQuad(given_px as Corners), length_mm, width_mm)).toEqual(asPhotoQuad(right_px as Corners));
});

it.each(frames.refused)('refuses: $reason', ({ reason, corners_px, length_mm, width_mm }) => {
  expect(inOrder(asPhotoQuad(corners_px as Corners), length_mm, width_mm)).toEqual({
    refusal: expect.stringMatching(WORDS[reason]!),
  });
});
