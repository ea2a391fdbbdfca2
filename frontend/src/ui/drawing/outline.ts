/** Marks and placements as SVG paths: board mm of face A in, picture px out. */
import type { Face, MarkShape } from '../../api/rows';

export interface BoardFrame {
  width_mm: number;
  /** Picture px per board mm. */
  scale: number;
  face: Face;
}

/** Face A is seen with y upwards; face B from behind, so that its y runs downwards (the butt end stays left). */
export const toPictureY = (y_mm: number, frame: BoardFrame): number =>
  (frame.face === 'A' ? frame.width_mm - y_mm : y_mm) * frame.scale;

export function pathOf(shape: MarkShape, frame: BoardFrame): string {
  const { scale } = frame;
  if (shape.type === 'ellipse') {
    const [cx, cy] = [shape.cx_mm * scale, toPictureY(shape.cy_mm, frame)];
    const [rx, ry] = [Math.max(shape.rx_mm * scale, 2), Math.max(shape.ry_mm * scale, 2)];
    return `M${cx - rx} ${cy}a${rx} ${ry} 0 1 0 ${2 * rx} 0a${rx} ${ry} 0 1 0 ${-2 * rx} 0z`;
  }
  const points = shape.points.map(([x, y]) => `${x * scale} ${toPictureY(y, frame)}`);
  return `M${points.join('L')}${shape.type === 'outline' ? 'z' : ''}`;
}

export function rectangleOf(
  placed: { x_mm: number; y_mm: number; length_mm: number; width_mm: number },
  frame: BoardFrame,
): { x: number; y: number; width: number; height: number } {
  const upper = frame.face === 'A' ? placed.y_mm + placed.width_mm : placed.y_mm;
  return {
    x: placed.x_mm * frame.scale,
    y: toPictureY(upper, frame),
    width: placed.length_mm * frame.scale,
    height: placed.width_mm * frame.scale,
  };
}

/** Where a mark sits along the board, for lists. */
export function spanOf(shape: MarkShape): { from_mm: number; to_mm: number; across_mm: number } {
  if (shape.type === 'ellipse') {
    return { from_mm: shape.cx_mm - shape.rx_mm, to_mm: shape.cx_mm + shape.rx_mm, across_mm: 2 * shape.ry_mm };
  }
  const xs = shape.points.map(([x]) => x);
  const ys = shape.points.map(([, y]) => y);
  const half = shape.type === 'line' ? shape.width_mm / 2 : 0;
  return {
    from_mm: Math.min(...xs) - half,
    to_mm: Math.max(...xs) + half,
    across_mm: Math.max(...ys) - Math.min(...ys) + 2 * half,
  };
}
