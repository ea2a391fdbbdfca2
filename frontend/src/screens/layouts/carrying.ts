/** From a layout to sawn wood: which boards are sawn, what comes out of them, what is bought for the rest. */
import type { LayoutRow } from '../../api/rows';
import { printLength, type TapeStyle } from '../../measures/print';
import type { LaidBoard, PlacedPiece } from './answer';

export interface ToSaw {
  board: LaidBoard;
  /** Day it was sawn by this layout; null: not yet. */
  sawnOn: string | null;
  /** What goes back into the rack. */
  offcuts: { length_mm: number; width_mm: number }[];
}

/** Rows kept on a phone since before layouts could be carried out lack `carried`. */
export function toSaw(layout: Pick<LayoutRow, 'carried' | 'figures'>, boards: readonly LaidBoard[]): ToSaw[] {
  const sawn = new Map((layout.carried ?? []).map((one) => [one.board, one.on]));
  return boards.map((board) => ({
    board,
    sawnOn: sawn.get(board.id) ?? null,
    offcuts: (layout.figures?.leftovers ?? []).filter((one) => one.board === board.id),
  }));
}

/** `1 offcut: 900 mm × 120 mm`; what is too small for the rack is not counted. */
export function offcutWords(offcuts: readonly { length_mm: number; width_mm: number }[], tape: TapeStyle): string {
  if (offcuts.length === 0) return 'no offcut worth keeping';
  const sizes = offcuts.map((one) => `${printLength(one.length_mm, tape)} × ${printLength(one.width_mm, tape)}`).join(', ');
  return `${offcuts.length} ${offcuts.length === 1 ? 'offcut' : 'offcuts'}: ${sizes}`;
}

export const areaOf = (pieces: readonly Pick<PlacedPiece, 'length_mm' | 'width_mm'>[]): number =>
  pieces.reduce((sum, piece) => sum + piece.length_mm * piece.width_mm, 0);

type Purchase = NonNullable<LayoutRow['unplaced'][number]['purchase']>;

/** The least that would have to be bought, in one sentence. */
export function purchaseWords(purchase: Purchase, tape: TapeStyle): string {
  const amount = tape.units === 'inch' ? `${up(purchase.board_feet, 1)} board feet` : `${up(purchase.m3, 4)} m³`;
  const clear = `${printLength(purchase.least_clear_length_mm, tape)} × ${printLength(purchase.least_clear_width_mm, tape)}`;
  return `Smallest purchase: ${amount} of ${purchase.species}, at least ${printLength(purchase.thickness_mm, tape)} thick, with clear wood of ${clear}.`;
}

/** Never less than is needed. */
const up = (value: number, decimals: number): string => (Math.ceil(value * 10 ** decimals - 1e-9) / 10 ** decimals).toFixed(decimals);
