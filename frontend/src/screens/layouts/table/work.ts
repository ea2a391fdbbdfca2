/** A layout on the table: its pieces being moved by hand, with every step to be undone and done again. Plain data, so that it can be stored. */
import type { BoardRow, Face, LayoutRow, PartRow, Placement } from '../../../api/rows';
import { grouped } from '../../../grouped';
import { type Allowances, blanksFor, roughSize } from '../../../measures/rough';
import type { Box, Laid } from './legality';

export interface Piece extends Box {
  readonly id: string;
  readonly part: string;
  readonly piece: number;
  readonly strip: number;
  /** Null: not on a board. */
  readonly board: string | null;
  readonly face: Face;
  readonly turned: boolean;
  readonly pinned: boolean;
}

export interface Edit {
  readonly before: readonly Piece[];
  readonly after: readonly Piece[];
  /** Boards kept out of the next solving, where that was changed. */
  readonly excluded?: { readonly before: readonly string[]; readonly after: readonly string[] };
  /** Edits of the same key that follow each other closely count as one: a button held down. */
  readonly key?: string;
  readonly at_ms: number;
}

export interface Work {
  readonly layout: string;
  readonly pieces: readonly Piece[];
  readonly excluded: readonly string[];
  readonly done: readonly Edit[];
  readonly undone: readonly Edit[];
  /** The new layout that this was kept as; until the shop has taken it, the work stays here. */
  readonly kept_as: string | null;
}

const MOST_STEPS = 100;
const ONE_EDIT_MS = 900;
const pieceId = (part: string, piece: number, strip: number): string => `${part} ${piece} ${strip}`;

type Slot = Pick<Piece, 'id' | 'part' | 'piece' | 'strip'>;

/** The pieces of a part that are still to be cut, or its blanks where one holds several. */
function slotsOf(part: PartRow): Slot[] {
  const strips = part.strip_count > 1 ? Array.from({ length: part.strip_count }, (_, at) => at + 1) : [0];
  const left = blanksFor(part.quantity - part.cut_count, part.blank_holds);
  const before = blanksFor(part.quantity, part.blank_holds) - left;
  const pieces = Array.from({ length: left }, (_, at) => before + at + 1);
  return pieces.flatMap((piece) => strips.map((strip) => ({ id: pieceId(part.id, piece, strip), part: part.id, piece, strip })));
}

/** Lays a layout on the table: what it placed lies there, what else is to be cut lies beside. Boards that are gone carry nothing. */
export function opened(layout: Pick<LayoutRow, 'id' | 'placements' | 'excluded'>, parts: readonly PartRow[], boards: readonly Pick<BoardRow, 'id'>[], more: Allowances): Work {
  const here = new Set(boards.map((board) => board.id));
  const placed = grouped(layout.placements.filter((one) => here.has(one.board)), (one) => one.part);
  const pieces = parts.flatMap((part) => {
    const lying = placed.get(part.id) ?? [];
    // A panel whose strips the solver chose has only those that were chosen.
    const slots = part.strip_count === 0 ? lying.map((one) => ({ id: pieceId(one.part, one.piece, one.strip), part: one.part, piece: one.piece, strip: one.strip })) : slotsOf(part);
    const own = new Map(lying.map((one) => [pieceId(one.part, one.piece, one.strip), one]));
    const strays = lying.filter((one) => !slots.some((slot) => slot.id === pieceId(one.part, one.piece, one.strip)));
    const sized = part.strip_count === 0 ? null : roughSize(part, more);
    return slots.map((slot): Piece => {
      const lies = own.get(slot.id) ?? strays.shift();
      if (lies) return { ...pick(lies), ...slot, board: lies.board };
      return { ...slot, board: null, x_mm: 0, y_mm: 0, length_mm: sized?.length_mm ?? 0, width_mm: sized?.width_mm ?? 0, face: 'A', turned: false, pinned: false };
    });
  });
  return { layout: layout.id, pieces, excluded: [...layout.excluded], done: [], undone: [], kept_as: null };
}

const pick = ({ x_mm, y_mm, length_mm, width_mm, face, turned, pinned }: Placement) => ({ x_mm, y_mm, length_mm, width_mm, face: face as Face, turned, pinned });

const put = (work: Work, pieces: readonly Piece[]): readonly Piece[] => {
  const by = new Map(pieces.map((piece) => [piece.id, piece]));
  return work.pieces.map((piece) => by.get(piece.id) ?? piece);
};

/** The work with these pieces as they are now; nothing changed is no step. */
export function changed(work: Work, after: readonly Piece[], atMs: number, key?: string): Work {
  const before = after.map((piece) => work.pieces.find((one) => one.id === piece.id)!);
  if (JSON.stringify(before) === JSON.stringify(after)) return work;
  const last = work.done.at(-1);
  const goesOn = key !== undefined && last?.key === key && atMs - last.at_ms < ONE_EDIT_MS;
  const edit: Edit = { before: goesOn ? last.before : before, after, key, at_ms: atMs };
  const done = goesOn ? [...work.done.slice(0, -1), edit] : [...work.done, edit];
  return { ...work, pieces: put(work, after), done: done.slice(-MOST_STEPS), undone: [], kept_as: null };
}

export function keptOut(work: Work, board: string, isOut: boolean, atMs: number): Work {
  const after = isOut ? [...new Set([...work.excluded, board])] : work.excluded.filter((id) => id !== board);
  const edit: Edit = { before: [], after: [], excluded: { before: work.excluded, after }, at_ms: atMs };
  return { ...work, excluded: after, done: [...work.done, edit].slice(-MOST_STEPS), undone: [], kept_as: null };
}

export function undone(work: Work): Work {
  const edit = work.done.at(-1);
  if (!edit) return work;
  return { ...work, pieces: put(work, edit.before), excluded: edit.excluded?.before ?? work.excluded, done: work.done.slice(0, -1), undone: [...work.undone, edit], kept_as: null };
}

export function redone(work: Work): Work {
  const edit = work.undone.at(-1);
  if (!edit) return work;
  return { ...work, pieces: put(work, edit.after), excluded: edit.excluded?.after ?? work.excluded, done: [...work.done, edit], undone: work.undone.slice(0, -1), kept_as: null };
}

export const laidOn = (work: Work, board: string, parts: ReadonlyMap<string, PartRow>): Laid[] =>
  work.pieces.filter((piece) => piece.board === board).map((piece) => laid(piece, parts.get(piece.part)));

export const laid = (piece: Piece, part: Pick<PartRow, 'show_faces'> | undefined): Laid => ({ ...piece, shows: part?.show_faces ?? 'both' });

export type Pin = LayoutRow['pinned'][number];

export const placementsOf = (work: Work): Pin[] =>
  work.pieces.flatMap(({ id: _, board, ...rest }) => (board === null ? [] : [{ ...rest, board }]));
