/** Whether a board has clear wood of a wanted size. Held together with the shop's answer by tests/vectors/clear_room.json. */
import type { Face, MarkKind, MarkRow } from '../../../api/rows';
import { boundsOf } from '../photo/marks/shape';

/** Wood beside a mark that is spoilt with it [mm], as the shop counts it. Common practice, no source. */
export const MARGINS_MM: Record<MarkKind, number> = {
  knot: 6,
  check: 3,
  split: 10,
  wane: 2,
  sapwood: 0,
  bark_pocket: 3,
  worm_holes: 2,
  pitch: 2,
  stain: 0,
  pith: 5,
  snipe: 0,
  other: 0,
  figure: 0,
};

/** What a mark keeps parts off, in board mm; `faces` are the seen faces it spoils. */
export interface Spoilt {
  readonly x0: number;
  readonly y0: number;
  readonly x1: number;
  readonly y1: number;
  readonly faces: 'A' | 'B' | 'both';
}

type Marked = Pick<MarkRow, 'kind' | 'face' | 'through' | 'blocks' | 'shape'>;

export function spoiltBy(marks: readonly Marked[]): Spoilt[] {
  return marks
    .filter((mark) => mark.blocks !== 'none')
    .map((mark) => {
      const { low, high } = boundsOf(mark.shape);
      const margin = MARGINS_MM[mark.kind];
      const faces = mark.blocks === 'all' || mark.through ? 'both' : mark.face;
      return { x0: low.x - margin, y0: low.y - margin, x1: high.x + margin, y1: high.y + margin, faces } as const;
    })
    .sort((a, b) => a.x0 - b.x0);
}

export interface Room {
  /** Along the grain. */
  length_mm: number;
  width_mm: number;
}

/** Clear on both faces for what blocks everything, on one of them for what may only not be seen; ends trimmed off. */
export function hasRoom(board: Room, spoilt: readonly Spoilt[], wanted: Room, endTrimMm: number): boolean {
  const [from, to] = [endTrimMm, board.length_mm - endTrimMm];
  if (wanted.length_mm > to - from || wanted.width_mm > board.width_mm) return false;
  if (spoilt.length === 0) return true;
  const facesDiffer = spoilt.some((one) => one.faces !== 'both');
  const seen: Face[] = facesDiffer ? ['A', 'B'] : ['A'];
  return seen.some((face) => {
    const here = spoilt.filter((one) => one.faces === 'both' || one.faces === face);
    // A clear place can be pushed down until it rests on the lower edge or on a mark.
    return [0, ...here.map((one) => one.y1)].some((y) => hasStretch(here, y, from, to, board.width_mm, wanted));
  });
}

/** Whether the strip from `y` up holds a clear stretch; marks come in order from the butt end. */
function hasStretch(spoilt: readonly Spoilt[], y: number, from: number, to: number, boardWidth: number, wanted: Room): boolean {
  const top = y + wanted.width_mm;
  if (y < 0 || top > boardWidth) return false;
  let clearFrom = from;
  for (const one of spoilt) {
    if (one.y0 >= top || one.y1 <= y) continue;
    if (one.x0 - clearFrom >= wanted.length_mm) return true;
    clearFrom = Math.max(clearFrom, one.x1);
  }
  return to - clearFrom >= wanted.length_mm;
}
