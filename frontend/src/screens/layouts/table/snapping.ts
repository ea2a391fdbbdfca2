/** Where a piece may come to lie: the legal place nearest to where a finger or a button wants it. */
import { againstPiece, gapBetween, type Laid, type Rules, type Stock, stuckPieces } from './legality';

export interface Place {
  readonly x_mm: number;
  readonly y_mm: number;
}

/** Resting places along one axis: against the board's ends, marks and other pieces, or flush with these. */
function rests(low: number, high: number, size: number, things: readonly { low: number; high: number; kerf: number }[]): number[] {
  const found = new Set([low, high - size]);
  for (const thing of things) {
    found.add(thing.high + thing.kerf);
    found.add(thing.low - thing.kerf - size);
    if (thing.kerf > 0) {
      found.add(thing.low);
      found.add(thing.high - size);
    }
  }
  return [...found].filter((at) => at >= low && at <= high - size);
}

/**
 * The legal place nearest to `want` and no farther than `reachMm`, or null. `others` are the pieces that lie on the board
 * already. A place against an edge, a mark or a neighbour is taken before an open one where it is within `pullMm`.
 */
export function nearestPlace(piece: Laid, others: readonly Laid[], stock: Stock, rules: Rules, want: Place, reachMm: number, pullMm = 0): Place | null {
  const rest = others.filter((other) => other.id !== piece.id);
  const away = (at: Place): number => Math.hypot(at.x_mm - want.x_mm, at.y_mm - want.y_mm);
  const xs = rests(rules.endTrim, stock.length - rules.endTrim, piece.length_mm, [
    ...stock.flaws.map((flaw) => ({ low: flaw.x, high: flaw.x + flaw.length, kerf: 0 })),
    ...rest.map((other) => ({ low: other.x_mm, high: other.x_mm + other.length_mm, kerf: rules.kerf })),
  ]);
  const ys = rests(0, stock.width, piece.width_mm, [
    ...stock.flaws.map((flaw) => ({ low: flaw.y, high: flaw.y + flaw.width, kerf: 0 })),
    ...rest.map((other) => ({ low: other.y_mm, high: other.y_mm + other.width_mm, kerf: rules.kerf })),
  ]);
  const open = { x_mm: Math.round(want.x_mm), y_mm: Math.round(want.y_mm) };
  const pulled = (at: number[], to: number): number[] => {
    const near = at.filter((one) => Math.abs(one - to) <= pullMm).sort((a, b) => Math.abs(a - to) - Math.abs(b - to));
    return [...near.slice(0, 1), to];
  };
  // Where the others cannot be cut as they lie, this piece is not blamed for it.
  const isSound = areSound(rest, stock, rules);
  const isFree = (at: Place): boolean => {
    const there = { ...piece, ...at };
    return againstPiece(there, rest, stock, rules).length === 0 && (!isSound || stuckPieces([...rest, there], stock, rules).length === 0);
  };
  for (const x_mm of pulled(xs, open.x_mm)) for (const y_mm of pulled(ys, open.y_mm)) if (isFree({ x_mm, y_mm })) return { x_mm, y_mm };
  const tried = [...xs, open.x_mm]
    .flatMap((x_mm) => [...ys, open.y_mm].map((y_mm) => ({ x_mm, y_mm })))
    .filter((at) => away(at) <= reachMm)
    .sort((a, b) => away(a) - away(b));
  return tried.find(isFree) ?? null;
}

function areSound(pieces: readonly Laid[], stock: Stock, rules: Rules): boolean {
  const areApart = pieces.every((piece, at) => pieces.slice(at + 1).every((other) => gapBetween(piece, other) >= rules.kerf));
  return areApart && stuckPieces(pieces, stock, rules).length === 0;
}
