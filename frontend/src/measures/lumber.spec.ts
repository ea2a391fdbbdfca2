/** The cases that the server's own test run goes through too; made in exact fractions (tests/vectors/make_lumber.py). */
import { describe, expect, it } from 'vitest';
import vectors from '../../../tests/vectors/lumber.json';
import { boardFeet, MM_PER_QUARTER, surfaceMeasure, volumeBoardFeet, volumeM3 } from './lumber';

describe('lumber', () => {
  it.each(vectors.cases)('$length_mm x $width_mm mm of $quarters/4 makes $board_feet board feet', (board) => {
    const { length_mm, width_mm, quarters } = board;
    expect(surfaceMeasure(length_mm, width_mm)).toBe(board.surface_measure);
    expect(boardFeet(board.surface_measure, quarters)).toBeCloseTo(board.board_feet, 9);
    expect(volumeBoardFeet(length_mm, width_mm, quarters * MM_PER_QUARTER)).toBeCloseTo(board.volume_board_feet, 9);
    expect(volumeM3(length_mm, width_mm, quarters * MM_PER_QUARTER)).toBeCloseTo(board.volume_m3, 12);
  });
});
