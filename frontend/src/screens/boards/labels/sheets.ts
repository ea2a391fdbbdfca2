/** Sheets of labels as the shop knows them, and the address of a printed one. */
import type { components } from '../../../api/schema';
import { printLength, type TapeStyle } from '../../../measures/print';

export type LabelSheet = components['schemas']['SheetRow'];

export const SHEETS_PATH = '/api/labels/sheets/';
/** So that the address stays short enough for every server on the way. */
export const MOST_TAGS = 200;

/** `Letter, 3 across, 10 down, 2 5/8" × 1"`: what can be counted and measured on the sheet in hand. */
export function sheetWords(sheet: Omit<LabelSheet, 'key'>, tape: TapeStyle): string {
  const paper = sheet.paper === 'a4' ? 'A4' : 'Letter';
  return `${paper}, ${sheet.columns} across, ${sheet.rows} down, ${printLength(sheet.width_mm, tape)} × ${printLength(sheet.height_mm, tape)}`.replaceAll('"', '″');
}

export const labelsOn = (sheet: Pick<LabelSheet, 'columns' | 'rows'>): number => sheet.columns * sheet.rows;

/** A sheet that the maker measured; `base` is a sheet of the shop's on the same paper. */
export interface OwnSheet extends Omit<LabelSheet, 'key'> {
  base: string;
}

/** `start` is the first label that is still on the sheet. */
export function labelsPath(boards: readonly string[], sheet: LabelSheet | OwnSheet, start: number): string {
  const asked = new URLSearchParams({ sheet: 'base' in sheet ? sheet.base : sheet.key, start: String(start) });
  // A length in an address is text, and text without a unit is in the workshop's own.
  if ('base' in sheet) {
    const { base: _, paper: __, ...measures } = sheet;
    for (const [name, value] of Object.entries(measures)) asked.set(name, name.endsWith('_mm') ? `${value} mm` : String(value));
  }
  // Ids need no quoting; commas stay readable.
  return `/api/labels/?boards=${boards.join(',')}&${asked}`;
}
