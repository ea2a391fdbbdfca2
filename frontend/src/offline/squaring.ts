/** Squares a photograph up on the device itself, so that marks can be set before the shop has seen it. */
import type { BoardRow, ShotRow } from '../api/rows';
import { apply, asPhotoQuad, multiply, squaringFrom, type Matrix } from '../geometry/homography';
import { type BoardMm, boardMm, distance, type PhotoPx, photoPx } from '../geometry/point';
import { fitted } from '../geometry/reference';

export interface Pixels {
  /** RGBA, row by row from the upper left. */
  data: Uint8ClampedArray;
  width: number;
  height: number;
}

/** Enough for a finger, and light enough for a phone's memory. */
const GREATEST_PHOTO_PX = 2600;
const GREATEST_SQUARED_PX = 2400;
/** As the shop's joined pictures show what no photo covers. */
const GAP_COLOUR = '#808080';

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

/** Corners of the whole board, or points on a stretch of it. */
export type Placed = Pick<ShotRow, 'corners' | 'points'>;
type BoardSize = Pick<BoardRow, 'length_mm' | 'width_mm'>;

/** The stretch of the board that a shot's points span [mm from the butt end]; the whole board where it has none. */
export function stretchOf({ points }: Pick<ShotRow, 'points'>, { length_mm }: Pick<BoardRow, 'length_mm'>): readonly [number, number] {
  if (!points) return [0, length_mm];
  const along = points.map(({ mm }) => mm[0]);
  return [Math.max(0, Math.min(...along)), Math.min(length_mm, Math.max(...along))];
}

/** From pixels of the squared picture (butt end left, upper edge on top) to pixels of the photo, and the picture's size. */
export function squaredFrame(placed: Placed, board: BoardSize): { toPhoto: Matrix; width: number; height: number } | null {
  const toPhoto = photoMap(placed, board);
  if (!toPhoto) return null;
  const [x0, x1] = stretchOf(placed, board);
  const [low, high] = [boardMm(x0, 0), boardMm(x1, 0)].map((p) => apply<BoardMm, PhotoPx>(toPhoto, p));
  const width = Math.round(Math.min(GREATEST_SQUARED_PX, Math.max(64, distance(low!, high!))));
  const pxPerMm = width / (x1 - x0);
  const height = Math.max(8, Math.round(board.width_mm * pxPerMm));
  const toBoard: Matrix = [1 / pxPerMm, 0, x0, 0, -board.width_mm / height, board.width_mm, 0, 0, 1];
  return { toPhoto: multiply(toPhoto, toBoard), width, height };
}

function photoMap({ corners, points }: Placed, { length_mm, width_mm }: BoardSize): Matrix | null {
  const map = points
    ? fitted(points.map(({ px, mm }) => ({ px: photoPx(...px), mm: boardMm(...mm) })), length_mm, width_mm)
    : corners && squaringFrom(asPhotoQuad(corners), length_mm, width_mm);
  return map && !('refusal' in map) ? map.toPhoto : null;
}

/** The squared picture as a JPEG, of a stretch only that stretch; null where the corners or the photo do not allow one. */
export async function squaredOnDevice(
  photo: Blob,
  photoWidthPx: number | null,
  placed: Placed,
  board: BoardSize,
): Promise<Blob | null> {
  const frame = squaredFrame(placed, board);
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
  return asJpeg(squared.element);
}

const asJpeg = (canvas: HTMLCanvasElement) => new Promise<Blob | null>((resolve) => canvas.toBlob(resolve, 'image/jpeg', 0.9));

/** A squared picture and the stretch of the board it shows. */
export interface Strip {
  readonly picture: Blob;
  readonly stretch: readonly [number, number];
}

/** Squared stretches laid on one picture of the whole board, later ones on top; plain where none shows the wood. */
export async function laidTogether(strips: readonly Strip[], { length_mm, width_mm }: BoardSize): Promise<Blob | null> {
  const bitmaps = await Promise.all(strips.map(({ picture }) => createImageBitmap(picture)));
  const finest = Math.max(...bitmaps.map((bitmap, i) => bitmap.width / (strips[i]!.stretch[1] - strips[i]!.stretch[0])));
  const width = Math.round(Math.min(GREATEST_SQUARED_PX, finest * length_mm));
  const scale = width / length_mm;
  const { element, context } = canvasOf(width, Math.max(8, Math.round(width_mm * scale)));
  context.fillStyle = GAP_COLOUR;
  context.fillRect(0, 0, element.width, element.height);
  bitmaps.forEach((bitmap, i) => {
    const [x0, x1] = strips[i]!.stretch;
    context.drawImage(bitmap, x0 * scale, 0, (x1 - x0) * scale, element.height);
    bitmap.close();
  });
  return asJpeg(element);
}

function canvasOf(width: number, height: number): { element: HTMLCanvasElement; context: CanvasRenderingContext2D } {
  const element = document.createElement('canvas');
  element.width = width;
  element.height = height;
  const context = element.getContext('2d', { willReadFrequently: true });
  if (!context) throw new Error('This browser gives no canvas to draw on.');
  return { element, context };
}
