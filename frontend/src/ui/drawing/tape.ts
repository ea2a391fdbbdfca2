/** Where the lines of a tape fall that lies along a board, and which of them carry a number. */
import type { Units } from '../../api/rows';

export interface TapeLine {
  at_mm: number;
  /** 1: short, 2: longer, 3: numbered. */
  rank: 1 | 2 | 3;
  label: string;
}

const MM_PER_INCH = 25.4;
const LEAST_LINE_GAP_PX = 4;
const LEAST_LABEL_GAP_PX = 46;
const INCH_STEPS = [1, 2, 3, 6, 12, 24, 48, 96];
const MM_STEPS = [10, 20, 50, 100, 200, 500, 1000, 2000];

export function tapeLines(lengthMm: number, pxPerMm: number, units: Units): TapeLine[] {
  const unitMm = units === 'inch' ? MM_PER_INCH : 1;
  const steps = units === 'inch' ? INCH_STEPS : MM_STEPS;
  const stepFor = (gapPx: number) => steps.find((step) => step * unitMm * pxPerMm >= gapPx) ?? steps.at(-1)!;
  const fine = stepFor(LEAST_LINE_GAP_PX);
  const numbered = stepFor(LEAST_LABEL_GAP_PX);
  const lines: TapeLine[] = [];
  // Counted in whole steps, so that no sum of floats drifts along a long board.
  for (let count = 0; count * fine * unitMm <= lengthMm + 1e-6; count += 1) {
    const value = count * fine;
    const isNumbered = value % numbered === 0;
    const rank = isNumbered ? 3 : (value * 2) % numbered === 0 ? 2 : 1;
    lines.push({ at_mm: value * unitMm, rank, label: isNumbered ? String(value) : '' });
  }
  return lines;
}
