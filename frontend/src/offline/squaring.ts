/** Squares a photograph up on the device itself, so that marks can be set before the shop has seen it. */
import type { BoardRow, Point } from '../api/rows';
import { asPhotoQuad, multiply, squaringFrom, type Matrix } from '../geometry/homography';

export interface Pixels {
  /** RGBA, row by row from the upper left. */
  data: Uint8ClampedArray;
  width: number;
  height: number;
}

/** Enough for a finger, and light enough for a phone's memory. */
const GREATEST_PHOTO_PX = 2600;
const GREATEST_SQUARED_PX = 2400;

/** Each pixel of the new picture from where `toSource` says it lies in the old one, between its four neighbours. */
export function warped(source: Pixels, toSource: Matrix, width: number, height: number): Uint8ClampedArray<ArrayBuffer> {
  const [a, b, c, d, e, f, g, h, i] = toSource;
  const out = new Uint8ClampedArray(width * height * 4);
  const { data } = source;
  const lastX = source.width - 1;
  const lastY = source.height - 1;
  for (let y = 0, to = 0; y < height; y += 1) {
    for (let x = 0; x < width; x += 1, to += 4) {
      // Pixel centres stand half a pixel in.
      const px = x + 0.5;
      const py = y + 0.5;
      const w = g * px + h * py + i;
      const sx = Math.min(Math.max((a * px + b * py + c) / w - 0.5, 0), lastX);
      const sy = Math.min(Math.max((d * px + e * py + f) / w - 0.5, 0), lastY);
      const x0 = Math.floor(sx);
      const y0 = Math.floor(sy);
      const right = x0 < lastX ? 4 : 0;
      const below = y0 < lastY ? source.width * 4 : 0;
      const fx = sx - x0;
      const fy = sy - y0;
      const at = (y0 * source.width + x0) * 4;
      for (let channel = 0; channel < 4; channel += 1) {
        const from = at + channel;
        const upper = data[from]! * (1 - fx) + data[from + right]! * fx;
        const lower = data[from + below]! * (1 - fx) + data[from + below + right]! * fx;
        out[to + channel] = upper * (1 - fy) + lower * fy;
      }
    }
  }
  return out;
}

/** From pixels of the squared picture (butt end left, upper edge on top) to pixels of the photo, and the picture's size. */
export function squaredFrame(
  corners: Point[],
  board: Pick<BoardRow, 'length_mm' | 'width_mm'>,
): { toPhoto: Matrix; width: number; height: number } | null {
  const squaring = squaringFrom(asPhotoQuad(corners), board.length_mm, board.width_mm);
  if ('refusal' in squaring) return null;
  const [[x0, y0], [x1, y1]] = corners as [Point, Point, Point, Point];
  const width = Math.round(Math.min(GREATEST_SQUARED_PX, Math.max(64, Math.hypot(x1 - x0, y1 - y0))));
  const pxPerMm = width / board.length_mm;
  const height = Math.max(8, Math.round(board.width_mm * pxPerMm));
  const toBoard: Matrix = [1 / pxPerMm, 0, 0, 0, -board.width_mm / height, board.width_mm, 0, 0, 1];
  return { toPhoto: multiply(squaring.toPhoto, toBoard), width, height };
}

/** The squared picture as a JPEG; null where the corners or the photo do not allow one. */
export async function squaredOnDevice(
  photo: Blob,
  photoWidthPx: number | null,
  corners: Point[],
  board: Pick<BoardRow, 'length_mm' | 'width_mm'>,
): Promise<Blob | null> {
  const frame = squaredFrame(corners, board);
  if (!frame) return null;
  const bitmap = await createImageBitmap(photo);
  const shrink = Math.min(1, GREATEST_PHOTO_PX / Math.max(bitmap.width, bitmap.height));
  const canvas = canvasOf(Math.round(bitmap.width * shrink), Math.round(bitmap.height * shrink));
  canvas.context.drawImage(bitmap, 0, 0, canvas.element.width, canvas.element.height);
  const source = canvas.context.getImageData(0, 0, canvas.element.width, canvas.element.height);
  // Corners count in pixels of the full photo; what is here may be a preview of it.
  const scale = canvas.element.width / (photoWidthPx ?? bitmap.width);
  bitmap.close();
  const toSource = multiply([scale, 0, 0, 0, scale, 0, 0, 0, 1], frame.toPhoto);
  const squared = canvasOf(frame.width, frame.height);
  squared.context.putImageData(new ImageData(warped(source, toSource, frame.width, frame.height), frame.width), 0, 0);
  return new Promise((resolve) => squared.element.toBlob(resolve, 'image/jpeg', 0.9));
}

function canvasOf(width: number, height: number): { element: HTMLCanvasElement; context: CanvasRenderingContext2D } {
  const element = document.createElement('canvas');
  element.width = width;
  element.height = height;
  const context = element.getContext('2d', { willReadFrequently: true });
  if (!context) throw new Error('This browser gives no canvas to draw on.');
  return { element, context };
}
