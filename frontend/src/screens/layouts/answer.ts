/** A layout's answer put in order for reading: board by board, piece by piece from the butt end. */
import type { Face, LayoutRow, PartRow, Placement } from '../../api/rows';
import { grouped } from '../../grouped';
import { blanksFor } from '../../measures/rough';
import { counted } from '../../words';
import { cutLinesOf, type CutLine, type CutTree } from '../boards/photo/drawing/cuts';

export interface PlacedPiece extends Placement {
  id: string;
  number: number;
  name: string;
  /** As it is written on the drawing: `3 Leg 2 of 4`. */
  label: string;
}

export interface LaidBoard {
  id: string;
  tag: string;
  length_mm: number;
  width_mm: number;
  pieces: PlacedPiece[];
  cuts: CutLine[];
}

type Named = Pick<PartRow, 'name' | 'quantity' | 'strip_count'> & Partial<Pick<PartRow, 'blank_holds'>>;

/** `Leg 2 of 4`, `Leg, blank 1 of 2 (2 pieces)`, `Top, strip 3 of 5`, `Left side`. */
export function pieceName(part: Named | undefined, placed: Pick<Placement, 'piece' | 'strip'>): string {
  if (!part) return 'A part removed since';
  const holds = part.blank_holds ?? 1;
  if (holds > 1) return `${part.name}, blank ${placed.piece} of ${Math.max(blanksFor(part.quantity, holds), placed.piece)} (${holds} pieces)`;
  const piece = part.quantity > 1 ? ` ${placed.piece} of ${part.quantity}` : '';
  const strip = placed.strip > 0 ? `, strip ${placed.strip} of ${Math.max(part.strip_count, placed.strip)}` : '';
  return `${part.name}${piece}${strip}`;
}

/** What is left over of a part is counted in blanks where one holds several pieces. */
export function leftName(part: Named | undefined): string {
  if (!part) return 'a part removed since';
  const holds = part.blank_holds ?? 1;
  return holds > 1 ? `${part.name}, blank of ${holds} pieces` : part.name;
}

const byTag = new Intl.Collator(undefined, { numeric: true });

export function laidBoards(layout: Pick<LayoutRow, 'placements' | 'board_sizes' | 'cuts'>, parts: Map<string, Named>): LaidBoard[] {
  return [...grouped(layout.placements, (placed) => placed.board)]
    .map(([id, placements]) => {
      const size = layout.board_sizes[id] ?? extent(placements);
      const inOrder = [...placements].sort((a, b) => a.x_mm - b.x_mm || a.y_mm - b.y_mm);
      return {
        id,
        tag: size.tag,
        length_mm: size.length_mm,
        width_mm: size.width_mm,
        pieces: inOrder.map((placed, at) => {
          const name = pieceName(parts.get(placed.part), placed);
          return { ...placed, id: `${placed.part} ${placed.piece} ${placed.strip} ${at}`, number: at + 1, name, label: `${at + 1} ${name}` };
        }),
        cuts: linesOf(layout.cuts[id]),
      };
    })
    .sort((a, b) => byTag.compare(a.tag, b.tag));
}

/** Nothing where the tree is missing or of another make. */
function linesOf(tree: unknown): CutLine[] {
  return tree && typeof tree === 'object' && 'x' in tree ? cutLinesOf(tree as CutTree) : [];
}

/** A board whose size was not kept is at least as large as what lies on it. */
function extent(placements: Placement[]) {
  return {
    tag: 'Board',
    length_mm: Math.max(...placements.map((placed) => placed.x_mm + placed.length_mm)),
    width_mm: Math.max(...placements.map((placed) => placed.y_mm + placed.width_mm)),
  };
}

/** The face most of its pieces show, for the picture to draw on. */
export function mainFace(board: LaidBoard): Face {
  const onB = board.pieces.filter((piece) => piece.face === 'B').length;
  return onB * 2 > board.pieces.length ? 'B' : 'A';
}

/** How sure the answer is. `value` cannot be more than `bound`. */
export function certainty(layout: Pick<LayoutRow, 'proved_best' | 'value' | 'bound'>): string {
  if (layout.proved_best) return 'Proved best: no other layout uses these boards better.';
  const { value, bound } = layout;
  if (!value || !bound || bound <= 0) return 'Best found in the time given.';
  const gap = Math.max(0, (bound - value) / bound) * 100;
  return `Best found; at most ${gap < 1 ? gap.toFixed(1) : Math.round(gap)} % better could exist.`;
}

export const worthWords = (value: number): string => Math.round(value).toLocaleString('en-US');

/** `3.6 %`; a gap that is left is never rounded away. */
export function gapWords({ gap_pct }: { gap_pct: number | null }): string {
  if (gap_pct === null) return 'not known yet';
  if (gap_pct <= 0) return 'none';
  return gap_pct < 0.1 ? 'under 0.1 %' : `${gap_pct < 10 ? gap_pct.toFixed(1) : Math.round(gap_pct)} %`;
}

export interface PieceFrom {
  id: string;
  name: string;
  board: string;
  tag: string;
  x_mm: number;
  end_mm: number;
  length_mm: number;
  width_mm: number;
}

export interface PartFrom {
  id: string;
  name: string;
  pieces: PieceFrom[];
  /** How many of its pieces, or blanks of several, lie nowhere, and why. */
  left: { words: string; reason: string }[];
}

/** Part by part: which boards its pieces come from. */
export function partsFrom(layout: Pick<LayoutRow, 'placements' | 'unplaced' | 'board_sizes'>, parts: Map<string, Named>): PartFrom[] {
  const placed = grouped(layout.placements, (one) => one.part);
  const left = grouped(layout.unplaced, (one) => one.part);
  const ids = [...new Set([...parts.keys(), ...placed.keys(), ...left.keys()])];
  return ids
    .map((id) => ({
      id,
      name: parts.get(id)?.name ?? 'A part removed since',
      left: (left.get(id) ?? []).map(({ count, reason }) => ({ words: `${(parts.get(id)?.blank_holds ?? 1) > 1 ? counted(count, 'blank') : count} not placed.`, reason })),
      pieces: [...(placed.get(id) ?? [])]
        .sort((a, b) => a.piece - b.piece || a.strip - b.strip)
        .map((one) => ({
          id: `${one.piece} ${one.strip}`, name: pieceName(parts.get(id), one), board: one.board, tag: layout.board_sizes[one.board]?.tag ?? 'Board',
          x_mm: one.x_mm, end_mm: one.x_mm + one.length_mm, length_mm: one.length_mm, width_mm: one.width_mm,
        })),
    }))
    .filter((one) => one.pieces.length + one.left.length > 0);
}

/** `25 Nov 2026, 15:10, by hand`: how a layout is told from the others of its commission. */
export function layoutName(layout: Pick<LayoutRow, 'created_at' | 'made' | 'aim'>): string {
  const when = new Date(layout.created_at).toLocaleString(undefined, { dateStyle: 'medium', timeStyle: 'short' });
  return `${when}, ${layout.made === 'by_hand' ? 'by hand' : layout.aim === 'looks' ? 'looks first' : 'least wood'}`;
}

type Together = LayoutRow['kept_together'][number];

const TOGETHER: Record<Together['level'], string> = {
  board: 'from one board', flitch: 'from boards of one log', tone: 'from boards alike in colour', apart: 'from boards that do not match',
};

/** `Drawer fronts: from one board (W-1).` Rows kept since before groups were known have none. */
export function togetherWords(layout: Pick<LayoutRow, 'kept_together' | 'board_sizes'>): string[] {
  return (layout.kept_together ?? []).map(({ group, level, stocks }) => {
    const tags = stocks.map((id) => layout.board_sizes[id]?.tag ?? 'Board').sort(byTag.compare);
    return `${group}: ${TOGETHER[level]} (${tags.join(', ')}).`;
  });
}
