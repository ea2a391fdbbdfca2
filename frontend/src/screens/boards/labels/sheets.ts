/** Sheets of labels as the shop knows them, and the address of a printed one. */
import type { components } from '../../../api/schema';
import { printLength, type TapeStyle } from '../../../measures/print';

export type LabelSheet = components['schemas']['SheetRow'];

export const SHEETS_PATH = '/api/labels/sheets/';
/** So that the address stays short enough for every server on the way. */
export const MOST_TAGS = 200;

/** `Letter, 3 across, 10 down, 2 5/8" × 1"`: what can be counted and measured on the sheet in hand. */
export function sheetWords(sheet: LabelSheet, tape: TapeStyle): string {
  const paper = sheet.paper === 'a4' ? 'A4' : 'Letter';
  return `${paper}, ${sheet.columns} across, ${sheet.rows} down, ${printLength(sheet.width_mm, tape)} × ${printLength(sheet.height_mm, tape)}`.replaceAll('"', '″');
}

export const labelsOn = (sheet: Pick<LabelSheet, 'columns' | 'rows'>): number => sheet.columns * sheet.rows;

/** `start` is the first label that is still on the sheet. */
export const labelsPath = (boards: readonly string[], sheet: string, start: number): string =>
  `/api/labels/?boards=${boards.join(',')}&sheet=${encodeURIComponent(sheet)}&start=${start}`;
