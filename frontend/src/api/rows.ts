/** Rows as they come over `/api/changes/` and as they are kept on the device. Lengths in mm. */
export interface Row {
  id: string;
  revision: number;
  created_at: string;
  updated_at: string;
}

export type MarkKind =
  | 'knot' | 'check' | 'split' | 'wane' | 'sapwood' | 'bark_pocket' | 'worm_holes' | 'pitch'
  | 'stain' | 'pith' | 'snipe' | 'other' | 'figure';
export type Face = 'A' | 'B';
export type Point = [number, number];
export type MarkShape =
  | { type: 'ellipse'; cx_mm: number; cy_mm: number; rx_mm: number; ry_mm: number }
  | { type: 'line'; points: Point[]; width_mm: number }
  | { type: 'outline'; points: Point[] };
/** "all": no part may lie on it; "show": only parts whose seen face it would be on; "none": never in the way. */
export type Blocks = 'all' | 'show' | 'none';

export interface MarkRow extends Row {
  board: string;
  face: Face;
  kind: MarkKind;
  shape: MarkShape;
  through: boolean;
  blocks: Blocks;
  note: string;
}
