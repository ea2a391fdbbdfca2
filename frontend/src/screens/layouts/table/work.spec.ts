import { describe, expect, it } from 'vitest';
import type { LayoutRow, PartRow } from '../../../api/rows';
import { changed, keptOut, opened, placementsOf, redone, undone, type Piece } from './work';

const MORE = { extra_length_mm: 25, extra_width_mm: 6, extra_thickness_mm: 5, joint_loss_mm: 3 };
const part = (over: Partial<PartRow>): PartRow =>
  ({ id: 'leg', name: 'Leg', quantity: 2, cut_count: 0, length_mm: 700, width_mm: 50, thickness_mm: 45, grain: 'length', strip_count: 1, show_faces: 'one', ...over }) as PartRow;
const placed = (over: object) => ({ board: 'b', part: 'leg', piece: 1, strip: 0, x_mm: 25, y_mm: 0, length_mm: 725, width_mm: 56, face: 'A', turned: false, pinned: false, ...over });
const layout = (...placements: object[]) => ({ id: 'l', excluded: [], placements }) as unknown as Pick<LayoutRow, 'id' | 'placements' | 'excluded'>;

describe('a layout laid on the table', () => {
  it('has what was placed on its boards and the rest beside, at rough size', () => {
    const work = opened(layout(placed({ piece: 2 })), [part({}), part({ id: 'top', quantity: 1, strip_count: 2, width_mm: 100 })], [{ id: 'b' }], MORE);
    expect(work.pieces.map((piece) => [piece.id, piece.board, piece.length_mm, piece.width_mm])).toEqual([
      ['leg 1 0', null, 725, 56], ['leg 2 0', 'b', 725, 56], ['top 1 1', null, 725, 59], ['top 1 2', null, 725, 59],
    ]);
    expect(placementsOf(work)).toEqual([placed({ piece: 2 })]);
  });
  it('has blanks at their own size where one holds several pieces', () => {
    const legs = part({ quantity: 6, cut_count: 2, blank_holds: 2, blank_length_mm: 720, blank_width_mm: 80 });
    const work = opened(layout(placed({ piece: 3, length_mm: 745, width_mm: 86 })), [legs], [{ id: 'b' }], MORE);
    expect(work.pieces.map((piece) => [piece.id, piece.board, piece.length_mm, piece.width_mm])).toEqual([
      ['leg 2 0', null, 745, 86], ['leg 3 0', 'b', 745, 86],
    ]);
  });
  it('leaves out boards that are gone and pieces that are cut; strays take a free number', () => {
    const row = layout(placed({ board: 'gone', piece: 2 }), placed({ piece: 1 }));
    const work = opened(row, [part({ quantity: 3, cut_count: 1 })], [{ id: 'b' }], MORE);
    expect(work.pieces.map((piece) => [piece.id, piece.board])).toEqual([['leg 2 0', 'b'], ['leg 3 0', null]]);
  });
});

describe('steps on the table', () => {
  const start = opened(layout(placed({})), [part({})], [{ id: 'b' }], MORE);
  const moved = (x_mm: number): Piece => ({ ...start.pieces[0]!, x_mm, pinned: true });

  it('can be undone and done again', () => {
    const there = changed(start, [moved(100)], 1000);
    expect(there.pieces[0]).toMatchObject({ x_mm: 100, pinned: true });
    const back = undone(there);
    expect(back.pieces).toEqual(start.pieces);
    expect(redone(back).pieces).toEqual(there.pieces);
    expect(undone(start)).toBe(start);
    expect(changed(back, [moved(50)], 2000).undone).toEqual([]);
  });
  it('count as one while a button is held', () => {
    const held = [101, 102, 103].reduce((work, x, at) => changed(work, [moved(x)], 1000 + at * 70, 'nudge leg 1 0'), start);
    expect(held.done.length).toBe(1);
    expect(undone(held).pieces).toEqual(start.pieces);
    expect(changed(held, [moved(200)], 9000, 'nudge leg 1 0').done.length).toBe(2);
  });
  it('are none where nothing changed, and keep boards out', () => {
    expect(changed(start, [start.pieces[0]!], 1)).toBe(start);
    const out = keptOut(start, 'b', true, 1);
    expect([out.excluded, undone(out).excluded, redone(undone(out)).excluded]).toEqual([['b'], [], ['b']]);
    expect(keptOut(out, 'b', false, 2).excluded).toEqual([]);
  });
});
