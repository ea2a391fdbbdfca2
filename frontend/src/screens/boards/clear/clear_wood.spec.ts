import { expect, it } from 'vitest';
import { drawnAreas, shareWords, worthTelling } from './clear_wood';

const AREA = { x_mm: 100, y_mm: 0, length_mm: 1200, width_mm: 150 };

it('writes each area with its number and size', () => {
  expect(drawnAreas([AREA], { units: 'metric', denominator: 16 })).toEqual([{ ...AREA, id: '0', label: '1: 1200 mm × 150 mm' }]);
  expect(drawnAreas([{ ...AREA, length_mm: 50.8, width_mm: 31.75 }], { units: 'inch', denominator: 16 })[0]!.label).toBe('1: 2″ × 1 1/4″');
});

it('leaves out slivers and stubs', () => {
  const [sliver, stub] = [{ ...AREA, width_mm: 20 }, { ...AREA, length_mm: 100 }];
  expect(worthTelling([AREA, sliver, stub])).toEqual([AREA]);
});

it('never rounds a share up to all of the wood', () => {
  expect([1, 0.999, 0.29, 0].map(shareWords)).toEqual(['100 %', '99 %', '29 %', '0 %']);
});
