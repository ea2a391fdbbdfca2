/** What is looked for in the rack, in which order, and how to say it. */
import type { BoardRow } from '../../../api/rows';
import { printLength, type TapeStyle } from '../../../measures/print';
import { STATUS_WORDS } from '../../../words';
import { hasRoom } from './clear_room';
import type { RackLine } from './rack_line';

export interface Narrowing {
  search: string;
  status: BoardRow['status'];
  /** Empty: any. The same for flitch and place. */
  species: string;
  flitch: string;
  place: string;
  least_thickness_mm: number | null;
  most_thickness_mm: number | null;
  clear_length_mm: number | null;
  clear_width_mm: number | null;
  most_mc_pct: number | null;
  least_mc_pct: number | null;
}

export const EVERYTHING: Readonly<Narrowing> = {
  search: '',
  status: 'in_rack',
  species: '',
  flitch: '',
  place: '',
  least_thickness_mm: null,
  most_thickness_mm: null,
  clear_length_mm: null,
  clear_width_mm: null,
  most_mc_pct: null,
  least_mc_pct: null,
};

export type Order = 'tag' | 'species' | 'longest' | 'widest' | 'thickest' | 'driest' | 'newest';
export const ORDER_WORDS: Record<Order, string> = {
  tag: 'Tag',
  species: 'Wood',
  longest: 'Longest first',
  widest: 'Widest first',
  thickest: 'Thickest first',
  driest: 'Driest first',
  newest: 'Newest first',
};

/** A tape is not read finer. */
const SLACK_MM = 0.5;

/** The lines that fit all but the search, in their order. */
export function narrowed(lines: readonly RackLine[], by: Narrowing, endTrimMm: number): RackLine[] {
  const { clear_length_mm, clear_width_mm } = by;
  const room = clear_length_mm !== null || clear_width_mm !== null ? { length_mm: clear_length_mm ?? 1, width_mm: clear_width_mm ?? 1 } : null;
  return lines.filter((line) => {
    const { board, mc_pct } = line;
    return (
      board.status === by.status &&
      (by.species === '' || board.species === by.species) &&
      (by.flitch === '' || board.flitch === by.flitch) &&
      (by.place === '' || board.place === by.place) &&
      board.thickness_mm >= (by.least_thickness_mm ?? 0) - SLACK_MM &&
      board.thickness_mm <= (by.most_thickness_mm ?? Infinity) + SLACK_MM &&
      (by.most_mc_pct === null || (mc_pct !== null && mc_pct <= by.most_mc_pct)) &&
      (by.least_mc_pct === null || (mc_pct !== null && mc_pct >= by.least_mc_pct)) &&
      (room === null || hasRoom(board, line.spoilt, room, endTrimMm))
    );
  });
}

/** Those on whose label every word of the search stands. */
export function found(lines: readonly RackLine[], search: string): readonly RackLine[] {
  const words = search.toLowerCase().split(/\s+/).filter(Boolean);
  return words.length === 0 ? lines : lines.filter(({ label }) => words.every((word) => label.includes(word)));
}

/** `lines` come by tag; what ties keeps that order. */
export function inOrder(lines: readonly RackLine[], order: Order): readonly RackLine[] {
  if (order === 'tag') return lines;
  const keyed = lines.map((line) => ({ line, key: keyOf(line, order) }));
  return keyed.sort((a, b) => (a.key < b.key ? -1 : a.key > b.key ? 1 : 0)).map(({ line }) => line);
}

function keyOf({ board, mc_pct }: RackLine, order: Exclude<Order, 'tag'>): string | number {
  if (order === 'species') return board.species.toLowerCase();
  if (order === 'longest') return -board.length_mm;
  if (order === 'widest') return -board.width_mm;
  if (order === 'thickest') return -board.thickness_mm;
  if (order === 'driest') return mc_pct ?? Infinity;
  return -Date.parse(board.created_at);
}

export interface Condition {
  words: string;
  /** The fields that go back to "any" when it is dropped. */
  fields: (keyof Narrowing)[];
}

/** Each condition in words, so that each can be dropped alone. */
export function conditionsOf(by: Narrowing, tape: TapeStyle): Condition[] {
  const size = (mm: number) => printLength(mm, tape);
  const span = (least: string | null, most: string | null) =>
    least && most ? `${least} to ${most}` : least ? `${least} or more` : `${most} or less`;
  const conditions: Condition[] = [];
  const add = (words: string, ...fields: (keyof Narrowing)[]) => conditions.push({ words, fields });
  if (by.status !== 'in_rack') add(STATUS_WORDS[by.status], 'status');
  if (by.species) add(by.species, 'species');
  if (by.least_thickness_mm !== null || by.most_thickness_mm !== null) {
    const least = by.least_thickness_mm === null ? null : size(by.least_thickness_mm);
    const most = by.most_thickness_mm === null ? null : size(by.most_thickness_mm);
    add(`${span(least, most)} thick`, 'least_thickness_mm', 'most_thickness_mm');
  }
  if (by.clear_length_mm !== null && by.clear_width_mm !== null) {
    add(`${size(by.clear_length_mm)} × ${size(by.clear_width_mm)} clear`, 'clear_length_mm', 'clear_width_mm');
  } else if (by.clear_length_mm !== null) add(`${size(by.clear_length_mm)} clear length`, 'clear_length_mm');
  else if (by.clear_width_mm !== null) add(`${size(by.clear_width_mm)} clear width`, 'clear_width_mm');
  if (by.flitch) add(`flitch ${by.flitch}`, 'flitch');
  if (by.place) add(by.place, 'place');
  if (by.most_mc_pct !== null || by.least_mc_pct !== null) {
    const [least, most] = [by.least_mc_pct, by.most_mc_pct].map((pct) => (pct === null ? null : `${pct} %`));
    add(`${span(least ?? null, most ?? null)} moist`, 'least_mc_pct', 'most_mc_pct');
  }
  return conditions;
}

export const without = (by: Narrowing, condition: Condition): Narrowing => ({
  ...by,
  ...Object.fromEntries(condition.fields.map((field) => [field, EVERYTHING[field]])),
});
