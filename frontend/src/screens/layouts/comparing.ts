/** Two layouts side by side: figures, and the pieces that change hands. */
import type { LayoutRow, PartRow, Placement } from '../../api/rows';
import { grouped } from '../../grouped';
import { printLength, type TapeStyle } from '../../measures/print';

type Compared = Pick<LayoutRow, 'placements' | 'figures' | 'board_sizes'>;

type Figures = NonNullable<LayoutRow['figures']>;

export interface Line {
  word: string;
  first: string;
  second: string;
  /** Which of them is the better one by this figure; null: alike, or a matter of taste. */
  better: 'first' | 'second' | null;
}

const MM2_PER_SQFT = 92_903.04;

export function areaWords(mm2: number, tape: TapeStyle): string {
  return tape.units === 'inch' ? `${(mm2 / MM2_PER_SQFT).toFixed(1)} sq ft` : `${(mm2 / 1e6).toFixed(2)} m²`;
}

export function figureLines(first: Compared, second: Compared, tape: TapeStyle): Line[] {
  const [a, b] = [first.figures, second.figures];
  if (!a || !b) return [];
  const line = (word: string, of: (figures: Figures) => number, print: (value: number) => string, isLess: boolean | null): Line => {
    const [x, y] = [of(a), of(b)];
    const [left, right] = [print(x), print(y)];
    const better = isLess === null || left === right ? null : x < y === isLess ? 'first' : 'second';
    return { word, first: left, second: right, better };
  };
  const area = (mm2: number): string => areaWords(mm2, tape);
  const longest = (figures: Figures): number => Math.max(0, ...figures.leftovers.map((one) => one.length_mm));
  const spare = (figures: Figures): number => figures.leftovers.reduce((sum, one) => sum + one.length_mm * one.width_mm, 0);
  const lines = [
    line('Pieces placed', (figures) => figures.pieces, String, false),
    line('Not placed', (figures) => figures.unplaced, String, true),
    line('Boards cut', (figures) => figures.boards_used, String, true),
    line('Wood used', (figures) => figures.wood_used_mm2, area, true),
    line('Offcuts kept', (figures) => figures.leftovers.length, String, null),
    line('Wood in offcuts', spare, area, false),
    line('Longest offcut', longest, (mm) => (mm === 0 ? 'none' : printLength(mm, tape)), false),
  ];
  const hasLooks = typeof a.looks === 'number' && typeof b.looks === 'number';
  return hasLooks ? [...lines, line('Looks', (figures) => figures.looks ?? 0, (share) => `${Math.round(share * 100)} of 100`, false)] : lines;
}

export interface Hand {
  id: string;
  part: string;
  /** How many pieces of the part change in this way. */
  count: number;
  from: string | null;
  to: string | null;
}

/**
 * What changes hands from the first layout to the second. Pieces of a part are alike, so that one counts as moved only
 * where no other of its kind took its place. `from` and `to` are tags; null: not placed; alike: another place on the board.
 */
export function changedHands(first: Compared, second: Compared, parts: ReadonlyMap<string, Pick<PartRow, 'name'>>): Hand[] {
  const tagOf = (board: string): string => first.board_sizes[board]?.tag ?? second.board_sizes[board]?.tag ?? 'a board';
  const [before, after] = [grouped(first.placements, (one) => one.part), grouped(second.placements, (one) => one.part)];
  const hands = new Map<string, Hand>();
  for (const part of new Set([...before.keys(), ...after.keys()])) {
    const name = parts.get(part)?.name ?? 'A part removed since';
    const [gone, come] = without(before.get(part) ?? [], after.get(part) ?? []);
    const tell = (from: Placement | undefined, to: Placement | undefined): void => {
      const id = `${part} ${from?.board ?? ''} ${to?.board ?? ''}`;
      const known = hands.get(id);
      hands.set(id, { id, part: name, count: (known?.count ?? 0) + 1, from: from ? tagOf(from.board) : null, to: to ? tagOf(to.board) : null });
    };
    // On the same board first: there it only takes another place.
    const left = [...come];
    const rest = gone.filter((from) => {
      const at = left.findIndex((to) => to.board === from.board);
      if (at < 0) return true;
      tell(from, left.splice(at, 1)[0]);
      return false;
    });
    for (let at = 0; at < Math.max(rest.length, left.length); at += 1) tell(rest[at], left[at]);
  }
  return [...hands.values()];
}

/** Both lists less the places that they have in common. */
function without(first: readonly Placement[], second: readonly Placement[]): [Placement[], Placement[]] {
  const place = (one: Placement): string => `${one.board} ${one.x_mm} ${one.y_mm} ${one.length_mm}`;
  const left = [...second];
  const gone = first.filter((one) => {
    const at = left.findIndex((other) => place(other) === place(one));
    if (at >= 0) left.splice(at, 1);
    return at < 0;
  });
  return [gone, left];
}

export function handWords({ from, to }: Pick<Hand, 'from' | 'to'>): string {
  if (from === null) return `now placed, on ${to}`;
  if (to === null) return `no longer placed; was on ${from}`;
  return from === to ? `another place on ${from}` : `from ${from} to ${to}`;
}
