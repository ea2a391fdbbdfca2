/** What a cut through a board leaves, and what the pieces are called. Board millimetres. */
import type { BoardRow, CutPiece, MarkRow } from '../../../api/rows';
import { boundsOf } from '../photo/marks/shape';

export type CutKind = 'crosscut' | 'rip';
export type Piece = Omit<CutPiece, 'id' | 'tag'>;
type Size = Pick<BoardRow, 'length_mm' | 'width_mm'>;

/** Less than this is sawdust. */
const LEAST_MM = 1;
const LONGEST_TAG = 20;

/** How far a cut can go: from the butt end, or from the lower edge. */
export const reachOf = (board: Size, kind: CutKind): number => (kind === 'crosscut' ? board.length_mm : board.width_mm);

/** The lower or butt-end piece first; one alone where the saw takes the rest. */
export function piecesOf(board: Size, kind: CutKind, atMm: number, kerfMm: number): Piece[] {
  const { length_mm, width_mm } = board;
  const beyond = reachOf(board, kind) - atMm - kerfMm;
  const pieces: Piece[] =
    kind === 'crosscut'
      ? [
          { x_mm: 0, y_mm: 0, length_mm: atMm, width_mm },
          { x_mm: atMm + kerfMm, y_mm: 0, length_mm: beyond, width_mm },
        ]
      : [
          { x_mm: 0, y_mm: 0, length_mm, width_mm: atMm },
          { x_mm: 0, y_mm: atMm + kerfMm, length_mm, width_mm: beyond },
        ];
  return pieces.filter((piece) => piece.length_mm >= LEAST_MM && piece.width_mm >= LEAST_MM);
}

/** What a tape shows, so that a dragged cut stands on one of its marks. */
export function onTape(mm: number, stepMm: number, reachMm: number): number {
  return Math.min(reachMm, Math.max(0, Math.round(mm / stepMm) * stepMm));
}

/** `W-14A`, `W-14B`; pieces of `W-14A` are `W-14A1`, `W-14A2`. Tags in use are passed over. */
export function pieceTags(tag: string, count: number, taken: ReadonlySet<string>): string[] {
  const endsInLetter = /[A-Za-z]$/.test(tag);
  const tags: string[] = [];
  for (let at = 0; tags.length < count; at += 1) {
    const ending = endsInLetter ? String(at + 1) : at < 26 ? String.fromCharCode(65 + at) : `-${at + 1}`;
    const next = `${tag.slice(0, LONGEST_TAG - ending.length)}${ending}`;
    if (!taken.has(next)) tags.push(next);
  }
  return tags;
}

/** The pieces that go into the rack, with the tags they carry; throws, in the maker's words, where two would carry one. */
export function keptPieces(pieces: readonly Piece[], tags: readonly string[], kept: readonly boolean[], taken: ReadonlySet<string>): (Piece & { tag: string })[] {
  const found = pieces.map((piece, at) => ({ ...piece, tag: tags[at]!.trim() })).filter((_, at) => kept[at]);
  const double = found.find(({ tag }, at) => taken.has(tag) || found.findIndex((other) => other.tag === tag) !== at);
  if (double) throw new Error(`Another board carries ${double.tag}. Chalk a different tag.`);
  return found;
}

/** Marks of which something lies on the piece. */
export function marksOn(piece: Piece, marks: readonly MarkRow[]): MarkRow[] {
  return marks.filter((mark) => {
    const { low, high } = boundsOf(mark.shape);
    return low.x < piece.x_mm + piece.length_mm && high.x > piece.x_mm && low.y < piece.y_mm + piece.width_mm && high.y > piece.y_mm;
  });
}
