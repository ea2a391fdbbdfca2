/** Cut lines of a board as strokes of crayon, from the tree of cuts that a layout answers. Board millimetres. */

/** A piece and how it is cut further; `at` are the near edges of the kerfs. */
export interface CutTree {
  readonly x: number;
  readonly y: number;
  readonly length: number;
  readonly width: number;
  readonly cut?: 'crosscut' | 'rip';
  readonly at?: readonly number[];
  readonly pieces?: readonly CutTree[];
}

/** A crosscut stands at `at_mm` from the butt end, a rip at `at_mm` from the lower edge; both run from `from_mm` to `to_mm`. */
export interface CutLine {
  readonly cut: 'crosscut' | 'rip';
  readonly at_mm: number;
  readonly from_mm: number;
  readonly to_mm: number;
  /** 1 for what is cut first. */
  readonly rank: number;
}

export function cutLinesOf(tree: CutTree, rank = 1): CutLine[] {
  const own = (tree.at ?? []).map((at_mm): CutLine =>
    tree.cut === 'rip'
      ? { cut: 'rip', at_mm, from_mm: tree.x, to_mm: tree.x + tree.length, rank }
      : { cut: 'crosscut', at_mm, from_mm: tree.y, to_mm: tree.y + tree.width, rank },
  );
  return [...own, ...(tree.pieces ?? []).flatMap((piece) => cutLinesOf(piece, rank + 1))];
}

export interface Tag {
  readonly x: number;
  readonly words: string;
  /** Row 0 is next to the board. */
  readonly row: 0 | 1;
}

const LETTER_PX = 9;

/** Distances over the crosscuts that go right across, in two rows so that none lies on another; what has no room is left out. */
export function tagsOf(lines: readonly CutLine[], scale: number, format: (mm: number) => string): Tag[] {
  const free = [-Infinity, -Infinity];
  const tags: Tag[] = [];
  const first = lines.filter((line) => line.cut === 'crosscut' && line.rank === 1).sort((a, b) => a.at_mm - b.at_mm);
  for (const line of first) {
    const words = format(line.at_mm);
    const half = (words.length * LETTER_PX) / 2 + 4;
    const x = line.at_mm * scale;
    const row = free[0]! <= x - half ? 0 : free[1]! <= x - half ? 1 : null;
    if (row === null) continue;
    free[row] = x + half;
    tags.push({ x, words, row });
  }
  return tags;
}
