/** What to cut from the board so that a part comes out of it. The same rules as the server's, held together by tests/vectors/rough.json. */
import type { PartRow, Workshop } from '../api/rows';

export type Allowances = Pick<Workshop, 'extra_length_mm' | 'extra_width_mm' | 'extra_thickness_mm' | 'joint_loss_mm'>;

export interface RoughSize {
  /** Along the grain, as sawn; whole millimetres. */
  length_mm: number;
  width_mm: number;
  /** How thick the board must be. */
  thickness_mm: number;
  /** Blanks for one finished part: the strips of a panel, else 1. */
  count: number;
}

/** A phone may still hold parts from before there were blanks. */
type Finished = Pick<PartRow, 'length_mm' | 'width_mm' | 'thickness_mm' | 'grain' | 'strip_count'> & Partial<Pick<PartRow, 'blank_length_mm' | 'blank_width_mm'>>;

/** Blanks are rounded up to whole millimetres: one that is too small is none. Free strips: the panel as one. */
export function roughSize(part: Finished, more: Allowances): RoughSize {
  const length = part.blank_length_mm ?? part.length_mm;
  const width = part.blank_width_mm ?? part.width_mm;
  const [along, across] = part.grain === 'width' ? [width, length] : [length, width];
  const count = part.strip_count || 1;
  const strip = (across + more.extra_width_mm) / count + (count > 1 ? 2 * more.joint_loss_mm : 0);
  return {
    length_mm: wholeMm(along + more.extra_length_mm),
    width_mm: wholeMm(strip),
    thickness_mm: part.thickness_mm + more.extra_thickness_mm,
    count,
  };
}

/** Float noise of a millionth must not cost a millimetre. */
const wholeMm = (mm: number): number => Math.ceil(Math.round(mm * 1e6) / 1e6);

/** How many blanks so many pieces are sawn out of; a blank holds one piece unless the part says more. */
export const blanksFor = (pieces: number, holds = 1): number => Math.ceil(Math.max(0, pieces) / holds);
