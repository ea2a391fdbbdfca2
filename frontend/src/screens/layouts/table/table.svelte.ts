/** The table while it is worked on: boards, pieces, the piece in hand; every step is kept on the device at once. */
import type { BoardRow, MarkRow, PartRow } from '../../../api/rows';
import { grouped } from '../../../grouped';
import type { Allowances } from '../../../measures/rough';
import { roughSize } from '../../../measures/rough';
import { pieceName } from '../answer';
import { against, type Against, type Laid, type Rules, type Stock, stockOf } from './legality';
import { nearestPlace, type Place } from './snapping';
import { changed, keptOut, laid, laidOn, type Piece, redone, undone, type Work } from './work';

const SLACK_MM = 0.3; // a tape is not read finer; the shop allows as much
const ANYWHERE_MM = 1e6;

export interface Around {
  readonly parts: readonly PartRow[];
  readonly boards: readonly BoardRow[];
  readonly marks: readonly MarkRow[];
  readonly rules: Rules;
  readonly allowances: Allowances;
}

export class Table {
  work = $state.raw<Work>() as Work;
  board = $state('');
  chosen = $state<string | null>(null);
  readonly parts: ReadonlyMap<string, PartRow>;
  readonly stocks: ReadonlyMap<string, Stock>;

  readonly onBoard: readonly Piece[] = $derived.by(() => this.work.pieces.filter((piece) => piece.board === this.board));
  readonly beside: readonly Piece[] = $derived.by(() => this.work.pieces.filter((piece) => piece.board === null));
  readonly inHand: Piece | null = $derived.by(() => this.work.pieces.find((piece) => piece.id === this.chosen) ?? null);
  /** What stands against each piece, of all boards. */
  readonly against: ReadonlyMap<string, Against[]> = $derived.by(() => {
    const found = new Map<string, Against[]>();
    for (const board of new Set(this.work.pieces.map((piece) => piece.board))) {
      const stock = board === null ? undefined : this.stocks.get(board);
      if (board === null || !stock) continue;
      for (const [id, why] of against(this.laidOn(board), stock, this.around.rules)) found.set(id, why);
    }
    return found;
  });

  constructor(work: Work, readonly around: Around, private readonly keep: (work: Work) => void) {
    this.work = work;
    this.parts = new Map(around.parts.map((part) => [part.id, part]));
    const marks = grouped([...around.marks], (mark) => mark.board);
    this.stocks = new Map(around.boards.map((board) => [board.id, stockOf(board, marks.get(board.id) ?? [])]));
    const laid = new Set(work.pieces.map((piece) => piece.board));
    this.board = (around.boards.find((board) => laid.has(board.id)) ?? around.boards[0])?.id ?? '';
  }

  nameOf = (id: string): string => {
    const piece = this.work.pieces.find((one) => one.id === id);
    return piece ? pieceName(this.parts.get(piece.part), piece) : 'another piece';
  };

  private laidOn(board: string): Laid[] {
    return laidOn(this.work, board, this.parts);
  }

  private set(work: Work): void {
    if (work === this.work) return;
    this.work = work;
    this.keep(work);
  }

  private change(pieces: Piece[], key?: string): void {
    this.set(changed(this.work, pieces, Date.now(), key));
  }

  undo(): void {
    this.set(undone(this.work));
  }

  redo(): void {
    this.set(redone(this.work));
  }

  choose(id: string | null): void {
    this.chosen = id;
    const board = this.inHand?.board;
    if (board) this.board = board;
  }

  show(board: string): void {
    this.board = board;
    if (this.inHand && this.inHand.board !== board) this.chosen = null;
  }

  keepOut(board: string, isOut: boolean): void {
    this.set(keptOut(this.work, board, isOut, Date.now()));
  }

  /** What would stand against the piece at that place of its board. */
  judge(piece: Piece, at: Place): Against[] {
    const stock = this.stocks.get(piece.board ?? '');
    if (!stock) return [];
    const there = { ...piece, x_mm: Math.round(at.x_mm), y_mm: Math.round(at.y_mm) };
    const others = this.onBoard.filter((other) => other.id !== piece.id);
    return against([...others, there].map((one) => laid(one, this.parts.get(one.part))), stock, this.around.rules).get(piece.id) ?? [];
  }

  /** The legal place near to one on the same board, or on another. */
  near(piece: Piece, board: string, want: Place, reachMm: number, pullMm = 0): Place | null {
    const stock = this.stocks.get(board);
    return stock ? nearestPlace(laid(piece, this.parts.get(piece.part)), this.laidOn(board), stock, this.around.rules, want, reachMm, pullMm) : null;
  }

  /** Laid there by hand, hence pinned. */
  lay(piece: Piece, at: Place, key?: string): void {
    this.change([{ ...piece, x_mm: Math.round(at.x_mm), y_mm: Math.round(at.y_mm), pinned: true }], key);
  }

  update(piece: Piece, fields: Partial<Pick<Piece, 'turned' | 'pinned' | 'face' | 'length_mm' | 'width_mm'>>): void {
    this.change([{ ...piece, ...fields }]);
  }

  takeOff(piece: Piece): void {
    const part = this.parts.get(piece.part);
    const size = part && part.strip_count > 0 ? roughSize(part, this.around.allowances) : piece;
    this.change([{ ...piece, board: null, x_mm: 0, y_mm: 0, length_mm: size.length_mm, width_mm: size.width_mm, pinned: false, turned: false }]);
  }

  /** The boards that the piece may come from, with where it would lie; null where there is no room. */
  placesFor(piece: Piece): { board: BoardRow; place: Place | null }[] {
    return this.around.boards
      .filter((board) => board.id !== piece.board && this.suits(piece, board))
      .map((board) => ({ board, place: this.near(piece, board.id, { x_mm: 0, y_mm: 0 }, ANYWHERE_MM) }));
  }

  moveTo(piece: Piece, board: string, place: Place): void {
    this.change([{ ...piece, board, x_mm: place.x_mm, y_mm: place.y_mm, pinned: true }]);
    this.board = board;
  }

  /** The wood is right and thick enough. */
  suits(piece: Piece, board: BoardRow): boolean {
    const part = this.parts.get(piece.part);
    return !!part && board.species === part.species && board.thickness_mm + SLACK_MM >= part.thickness_mm + this.around.allowances.extra_thickness_mm;
  }

  /** The pieces that this one can change places with: those of its size first, then those that fit. */
  swapsFor(piece: Piece): { other: Piece; isSame: boolean }[] {
    return this.work.pieces
      .filter((other) => other.id !== piece.id && (other.part !== piece.part || other.board !== piece.board || other.turned !== piece.turned) && this.canSwap(piece, other))
      .map((other) => ({ other, isSame: other.length_mm === piece.length_mm && other.width_mm === piece.width_mm }))
      .sort((a, b) => Number(b.isSame) - Number(a.isSame));
  }

  swap(piece: Piece, other: Piece): void {
    this.change(swapped(piece, other));
    if (piece.board === null || other.board === null) return;
    this.board = other.board;
  }

  private canSwap(piece: Piece, other: Piece): boolean {
    const after = swapped(piece, other);
    return after.every((one) => {
      if (one.board === null) return true;
      const board = this.around.boards.find((row) => row.id === one.board);
      const stock = this.stocks.get(one.board);
      if (!board || !stock || !this.suits(one, board)) return false;
      const ids = new Set(after.map(({ id }) => id));
      const pieces = [...this.work.pieces.filter((rest) => rest.board === one.board && !ids.has(rest.id)), ...after.filter((each) => each.board === one.board)];
      return !against(pieces.map((each) => laid(each, this.parts.get(each.part))), stock, this.around.rules).has(one.id);
    });
  }
}

/** Each at the lower butt-end corner of the other. */
function swapped(a: Piece, b: Piece): Piece[] {
  const at = (piece: Piece, there: Piece): Piece => ({ ...piece, board: there.board, x_mm: there.x_mm, y_mm: there.y_mm, pinned: there.board !== null });
  return [at(a, b), at(b, a)];
}
