/** Measures of a mark as they are spoken in a shop. */
import type { MarkShape } from '../../../../api/rows';
import { boundsOf, sizeOf } from './shape';

export function sizeWords(shape: MarkShape, format: (mm: number) => string): string {
  const [along, across] = sizeOf(shape);
  return `${format(along)} × ${format(across)}`;
}

/** Where a tape hooked on the butt end would find its near end. */
export function placeWords(shape: MarkShape, format: (mm: number) => string): string {
  const near = shape.type === 'line' ? Math.min(...shape.points.map(([x]) => x)) : boundsOf(shape).low.x;
  return `${format(Math.max(near, 0))} from the butt end`;
}
