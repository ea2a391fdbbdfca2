import { describe, expect, it } from 'vitest';
import { certainty, gapWords, laidBoards, leftName, mainFace, partsFrom, pieceName, togetherWords } from './answer';

const leg = { name: 'Leg', quantity: 4, strip_count: 1 };
const top = { name: 'Top', quantity: 1, strip_count: 5 };
const placed = (over: object) => ({ board: 'b', part: 'leg', piece: 1, strip: 0, x_mm: 0, y_mm: 0, length_mm: 700, width_mm: 50, face: 'A', turned: false, pinned: false, ...over });

describe('what a placed piece is called', () => {
  it.each([
    [leg, { piece: 2, strip: 0 }, 'Leg 2 of 4'],
    [top, { piece: 1, strip: 3 }, 'Top, strip 3 of 5'],
    [{ ...top, quantity: 2 }, { piece: 2, strip: 1 }, 'Top 2 of 2, strip 1 of 5'],
    [undefined, { piece: 1, strip: 0 }, 'A part removed since'],
    [{ ...leg, blank_holds: 2 }, { piece: 1, strip: 0 }, 'Leg, blank 1 of 2 (2 pieces)'],
    [{ ...leg, quantity: 5, blank_holds: 3 }, { piece: 2, strip: 0 }, 'Leg, blank 2 of 2 (3 pieces)'],
    [{ ...leg, blank_holds: 1 }, { piece: 2, strip: 0 }, 'Leg 2 of 4'],
  ])('%o at %o', (part, at, name) => expect(pieceName(part, at)).toBe(name));
});

it('counts what is left over in blanks where one holds several', () => {
  expect([leftName(leg), leftName({ ...leg, blank_holds: 2 }), leftName(undefined)]).toEqual(['Leg', 'Leg, blank of 2 pieces', 'a part removed since']);
});

it('lists boards by tag and pieces from the butt end', () => {
  const layout = {
    placements: [placed({ x_mm: 800, board: 'b10' }), placed({ board: 'b10' }), placed({ board: 'b2', face: 'B' }), placed({ board: 'gone' })],
    cuts: { b2: { x: 0, y: 0, length: 2000, width: 150, cut: 'crosscut', at: [700], pieces: [] }, b10: null },
    board_sizes: { b10: { tag: 'W-10', length_mm: 2400, width_mm: 180 }, b2: { tag: 'W-2', length_mm: 2000, width_mm: 150 } },
  };
  const boards = laidBoards(layout, new Map([['leg', leg]]));
  expect(boards.map((board) => board.tag)).toEqual(['Board', 'W-2', 'W-10']);
  expect(boards[2]!.pieces.map((piece) => [piece.number, piece.x_mm])).toEqual([[1, 0], [2, 800]]);
  expect([boards[0]!.length_mm, boards[0]!.width_mm]).toEqual([700, 50]);
  expect(boards.map((board) => board.cuts.length)).toEqual([0, 1, 0]);
  expect(boards[2]!.pieces[1]!.label).toBe('2 Leg 1 of 4');
  expect([mainFace(boards[1]!), mainFace(boards[2]!)]).toEqual(['B', 'A']);
});

it.each([
  [{ proved_best: true, value: 10, bound: 10 }, 'Proved best'],
  [{ proved_best: false, value: 90, bound: 100 }, 'at most 10 % better'],
  [{ proved_best: false, value: 99.6, bound: 100 }, 'at most 0.4 % better'],
  [{ proved_best: false, value: 99, bound: null }, 'Best found in the time given'],
])('says how sure it is', (layout, words) => expect(certainty(layout)).toContain(words));

it('lists parts with where their pieces come from, in the order of the parts', () => {
  const layout = {
    placements: [placed({ piece: 2, x_mm: 800 }), placed({ piece: 1, board: 'b2' })],
    unplaced: [{ part: 'top', count: 3, reason: 'No board is wide enough.' }],
    board_sizes: { b: { tag: 'W-1', length_mm: 2000, width_mm: 150 }, b2: { tag: 'W-2', length_mm: 2000, width_mm: 150 } },
  };
  const parts = new Map([['top', top], ['rail', { ...leg, name: 'Rail' }], ['leg', leg]]);
  const found = partsFrom(layout, parts);
  expect(found.map((part) => [part.name, part.left.length, part.pieces.map((piece) => `${piece.name} ${piece.tag} ${piece.x_mm} ${piece.end_mm}`)])).toEqual([
    ['Top', 1, []],
    ['Leg', 0, ['Leg 1 of 4 W-2 0 700', 'Leg 2 of 4 W-1 800 1500']],
  ]);
});

it('says of a part whether pieces or blanks lie nowhere', () => {
  const left = (part: string, count: number) => ({ part, count, reason: 'No board is wide enough.' });
  const layout = { placements: [], unplaced: [left('leg', 2), left('rail', 1), left('top', 3)], board_sizes: {} } as never;
  const parts = new Map([['leg', { ...leg, blank_holds: 2 }], ['rail', { ...leg, blank_holds: 3 }], ['top', { ...top, blank_holds: 1 }]]);
  expect(partsFrom(layout, parts).map((part) => part.left[0]!.words)).toEqual(['2 blanks not placed.', '1 blank not placed.', '3 not placed.']);
});

it.each([[null, 'not known yet'], [0, 'none'], [0.04, 'under 0.1 %'], [3.64, '3.6 %'], [12.3, '12 %']])('says a gap of %s', (gap_pct, words) =>
  expect(gapWords({ gap_pct })).toBe(words));

it('says how near the pieces of a group come from', () => {
  const board_sizes = { b10: { tag: 'W-10', length_mm: 1, width_mm: 1 }, b2: { tag: 'W-2', length_mm: 1, width_mm: 1 } };
  expect(togetherWords({ kept_together: [{ group: 'Fronts', level: 'tone', stocks: ['b10', 'b2'] }], board_sizes })).toEqual(['Fronts: from boards alike in colour (W-2, W-10).']);
  expect(togetherWords({ board_sizes } as never)).toEqual([]);
});
