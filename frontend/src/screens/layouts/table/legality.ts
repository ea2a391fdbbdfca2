/**
 * Whether pieces laid by hand on one board can be cut, and what stands against it. Whole millimetres, as the shop counts
 * them; held together with the shop's own judgement by tests/vectors/laid_by_hand.json.
 */
import type { BoardRow, Face, MarkKind, MarkRow, PartRow } from '../../../api/rows';
import { boundsOf } from '../../boards/photo/marks/shape';
import { MARGINS_MM } from '../../boards/finding/clear_room';

/** What a mark keeps pieces off, with its margin. */
export interface Flaw {
  readonly x: number;
  readonly y: number;
  readonly length: number;
  readonly width: number;
  readonly kind: MarkKind;
  /** The faces it shows on. */
  readonly faces: 'A' | 'B' | 'both';
  /** No piece at all may lie on it; else only none that would show it. */
  readonly blocksAll: boolean;
}

export interface Stock {
  readonly length: number;
  readonly width: number;
  readonly flaws: readonly Flaw[];
}

export interface Rules {
  readonly kerf: number;
  readonly endTrim: number;
}

export interface Box {
  readonly x_mm: number;
  readonly y_mm: number;
  readonly length_mm: number;
  readonly width_mm: number;
}

export interface Laid extends Box {
  readonly id: string;
  /** Which face of the piece's own show face lies up; only a piece of which one face is seen minds. */
  readonly face: Face;
  readonly shows: PartRow['show_faces'];
}

export type Against =
  | { readonly why: 'outside'; readonly side: 'butt end' | 'far end' | 'lower edge' | 'upper edge'; readonly by: number; readonly trim: number }
  | { readonly why: 'on_mark'; readonly flaw: Flaw }
  | { readonly why: 'overlap'; readonly other: string }
  | { readonly why: 'no_kerf'; readonly other: string; readonly gap: number; readonly kerf: number }
  | { readonly why: 'not_sawable'; readonly others: readonly string[] };

type Marked = Pick<MarkRow, 'kind' | 'face' | 'through' | 'blocks' | 'shape'>;

/** A board with its marks, rounded so that the doubt is never on the piece's side. */
export function stockOf(board: Pick<BoardRow, 'length_mm' | 'width_mm'>, marks: readonly Marked[]): Stock {
  const flaws = marks.filter((mark) => mark.blocks !== 'none').map((mark): Flaw => {
    const { low, high } = boundsOf(mark.shape);
    const margin = MARGINS_MM[mark.kind];
    const x = Math.max(0, Math.floor(low.x - margin));
    const y = Math.max(0, Math.floor(low.y - margin));
    return {
      x, y, kind: mark.kind, faces: mark.through ? 'both' : mark.face, blocksAll: mark.blocks === 'all',
      length: Math.min(Math.ceil(board.length_mm), Math.ceil(high.x + margin)) - x,
      width: Math.min(Math.ceil(board.width_mm), Math.ceil(high.y + margin)) - y,
    };
  });
  return { length: Math.floor(board.length_mm), width: Math.floor(board.width_mm), flaws: flaws.filter((flaw) => flaw.length > 0 && flaw.width > 0) };
}

/** A kerf or a trim is never counted for less than it takes. */
export const rulesOf = (shop: { kerf_mm: number; end_trim_mm: number }): Rules => ({ kerf: Math.ceil(shop.kerf_mm), endTrim: Math.ceil(shop.end_trim_mm) });

/** The widest straight gap between two pieces, along or across; below nought where they lie over one another. */
export const gapBetween = (a: Box, b: Box): number =>
  Math.max(a.x_mm - b.x_mm - b.length_mm, b.x_mm - a.x_mm - a.length_mm, a.y_mm - b.y_mm - b.width_mm, b.y_mm - a.y_mm - a.width_mm);

const minds = (piece: Laid, flaw: Flaw): boolean =>
  flaw.blocksAll || piece.shows === 'both' || (piece.shows === 'one' && (flaw.faces === 'both' || flaw.faces === piece.face));

export const flawsUnder = (piece: Laid, stock: Stock): Flaw[] =>
  stock.flaws.filter(
    (flaw) =>
      piece.x_mm < flaw.x + flaw.length && flaw.x < piece.x_mm + piece.length_mm &&
      piece.y_mm < flaw.y + flaw.width && flaw.y < piece.y_mm + piece.width_mm && minds(piece, flaw),
  );

function outside(piece: Laid, stock: Stock, { endTrim }: Rules): Against[] {
  const sides = [
    { side: 'butt end', by: endTrim - piece.x_mm, trim: endTrim },
    { side: 'far end', by: piece.x_mm + piece.length_mm - (stock.length - endTrim), trim: endTrim },
    { side: 'lower edge', by: -piece.y_mm, trim: 0 },
    { side: 'upper edge', by: piece.y_mm + piece.width_mm - stock.width, trim: 0 },
  ] as const;
  return sides.filter(({ by }) => by > 0).map((side) => ({ why: 'outside', ...side }));
}

/** What stands against this piece beside those others, the cuts left aside. */
export function againstPiece(piece: Laid, others: readonly Laid[], stock: Stock, rules: Rules): Against[] {
  const found = [...outside(piece, stock, rules), ...flawsUnder(piece, stock).map((flaw): Against => ({ why: 'on_mark', flaw }))];
  for (const other of others) {
    if (other.id === piece.id) continue;
    const gap = gapBetween(piece, other);
    if (gap < 0) found.push({ why: 'overlap', other: other.id });
    else if (gap < rules.kerf) found.push({ why: 'no_kerf', other: other.id, gap, kerf: rules.kerf });
  }
  return found;
}

/** All that stands against the pieces of one board, by piece; empty where the board can be cut as it is laid out. */
export function against(pieces: readonly Laid[], stock: Stock, rules: Rules): Map<string, Against[]> {
  const found = new Map<string, Against[]>();
  let areApart = true;
  for (const piece of pieces) {
    const here = againstPiece(piece, pieces, stock, rules);
    if (here.length > 0) found.set(piece.id, here);
    areApart &&= here.every((one) => one.why !== 'overlap' && one.why !== 'no_kerf');
  }
  const stuck = areApart ? stuckPieces(pieces, stock, rules) : [];
  for (const piece of stuck) {
    const others = stuck.filter((other) => other.id !== piece.id).map((other) => other.id);
    found.set(piece.id, [...(found.get(piece.id) ?? []), { why: 'not_sawable', others }]);
  }
  return found;
}

interface Axis {
  readonly at: 'x_mm' | 'y_mm';
  readonly size: 'length_mm' | 'width_mm';
}
const ALONG: Axis = { at: 'x_mm', size: 'length_mm' };
const ACROSS: Axis = { at: 'y_mm', size: 'width_mm' };
/** Crosscuts, rips, crosscuts, and a last rip that brings a single piece to width. */
const TURNS: readonly Axis[] = [ALONG, ACROSS, ALONG, ACROSS];

/** The groups between which straight cuts pass from edge to edge. */
function parted(pieces: readonly Laid[], { at, size }: Axis, kerf: number): Laid[][] {
  const groups: Laid[][] = [];
  let reach = 0;
  for (const piece of [...pieces].sort((a, b) => a[at] - b[at])) {
    const group = groups.at(-1);
    if (group && piece[at] < reach + kerf) {
      group.push(piece);
      reach = Math.max(reach, piece[at] + piece[size]);
    } else {
      groups.push([piece]);
      reach = piece[at] + piece[size];
    }
  }
  return groups;
}

/** The pieces that crosscut, rip, crosscut and a rip to width leave in one piece of wood. */
export function stuckPieces(pieces: readonly Laid[], stock: Stock, { kerf }: Rules): readonly Laid[] {
  const freed = (from: Box, group: readonly Laid[], turns: readonly Axis[]): readonly Laid[] => {
    const [only] = group;
    if (group.length === 1 && only!.x_mm === from.x_mm && only!.y_mm === from.y_mm && only!.length_mm === from.length_mm && only!.width_mm === from.width_mm) return [];
    const [axis, ...rest] = turns;
    if (!axis || (rest.length === 0 && group.length > 1)) return group;
    for (const part of parted(group, axis, kerf)) {
      const low = Math.min(...part.map((piece) => piece[axis.at]));
      const high = Math.max(...part.map((piece) => piece[axis.at] + piece[axis.size]));
      const stuck = freed({ ...from, [axis.at]: low, [axis.size]: high - low }, part, rest);
      if (stuck.length > 0) return stuck;
    }
    return [];
  };
  return freed({ x_mm: 0, y_mm: 0, length_mm: stock.length, width_mm: stock.width }, pieces, TURNS);
}
