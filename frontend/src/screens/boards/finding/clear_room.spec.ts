/** The cases that the server's own test run goes through too; made by trying every place (make_clear_room.py). */
import { describe, expect, it } from 'vitest';
import vectors from '../../../../../tests/vectors/clear_room.json';
import type { MarkRow } from '../../../api/rows';
import { hasRoom, MARGINS_MM, spoiltBy } from './clear_room';

it('counts with the margins of the shop', () => {
  expect(MARGINS_MM).toEqual(vectors.margins_mm);
});

describe('clear room', () => {
  it.each(vectors.cases.map((board, at) => ({ at, board })))('of board $at', ({ board }) => {
    const spoilt = spoiltBy(board.marks as unknown as MarkRow[]);
    for (const room of board.rooms) expect([room, hasRoom(board, spoilt, room, board.end_trim_mm)]).toEqual([room, room.fits]);
  });

  it('is the whole board without marks, less its ends', () => {
    const board = { length_mm: 1000, width_mm: 200 };
    expect(hasRoom(board, [], { length_mm: 950, width_mm: 200 }, 25)).toBe(true);
    expect(hasRoom(board, [], { length_mm: 951, width_mm: 200 }, 25)).toBe(false);
  });
});
