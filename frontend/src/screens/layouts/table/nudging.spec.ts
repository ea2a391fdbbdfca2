import { expect, it } from 'vitest';
import { nudged } from './nudging';

it('goes by a millimetre or ten', () => {
  expect(nudged({ x_mm: 25, y_mm: 7 }, 'far', false, 'metric')).toEqual({ x_mm: 26, y_mm: 7 });
  expect(nudged({ x_mm: 25, y_mm: 7 }, 'butt', true, 'metric')).toEqual({ x_mm: 15, y_mm: 7 });
  expect(nudged({ x_mm: 25, y_mm: 7 }, 'lower', false, 'metric')).toEqual({ x_mm: 25, y_mm: 6 });
});
it('goes from mark to mark of an inch tape, without drifting', () => {
  let place = { x_mm: 0, y_mm: 0 };
  for (let step = 0; step < 160; step += 1) place = nudged(place, 'far', false, 'inch');
  expect(place.x_mm).toBe(254);
  expect(nudged({ x_mm: 0, y_mm: 0 }, 'upper', true, 'inch')).toEqual({ x_mm: 0, y_mm: 25 });
});
