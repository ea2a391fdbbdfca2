import { expect, it } from 'vitest';
import { labelsOn, labelsPath, sheetWords, type LabelSheet } from './sheets';

const SHEET: LabelSheet = {
  key: 'letter-3x10', paper: 'letter', columns: 3, rows: 10, width_mm: 66.7, height_mm: 25.4, left_mm: 4.8, top_mm: 12.7, across_mm: 69.8, down_mm: 25.4,
};

it('tells a sheet by what can be counted and measured on it', () => {
  expect(sheetWords(SHEET, { units: 'inch', denominator: 16 })).toBe('Letter, 3 across, 10 down, 2 5/8″ × 1″');
  expect(sheetWords({ ...SHEET, paper: 'a4', width_mm: 63.5, height_mm: 38.1 }, { units: 'metric', denominator: 16 })).toBe('A4, 3 across, 10 down, 64 mm × 38 mm');
  expect(labelsOn(SHEET)).toBe(30);
});

it('asks for the boards in their order, from the first label that is left', () => {
  expect(labelsPath(['b', 'a'], SHEET, 4)).toBe('/api/labels/?boards=b,a&sheet=letter-3x10&start=4');
});

it('gives the measures of a sheet of ones own', () => {
  const { key, ...measures } = SHEET;
  const path = labelsPath(['a'], { ...measures, columns: 2, base: key }, 1);
  expect(Object.fromEntries(new URL(path, 'https://shop.example').searchParams)).toEqual({
    boards: 'a', sheet: 'letter-3x10', start: '1', columns: '2', rows: '10', width_mm: '66.7 mm', height_mm: '25.4 mm', left_mm: '4.8 mm', top_mm: '12.7 mm', across_mm: '69.8 mm', down_mm: '25.4 mm',
  });
});
