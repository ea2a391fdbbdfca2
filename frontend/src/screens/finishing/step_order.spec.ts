import { expect, it } from 'vitest';
import { between, placeAfter } from './step_order';

const steps = [1, 2, 3, 4].map((position) => ({ position }));

it.each([
  [1, -1, 0],
  [2, -1, 1.5],
  [0, 1, 2.5],
  [2, 1, 5],
  [0, -1, 1],
  [3, 1, 4],
] as const)('the step at %i moved by %i comes to %d', (at, by, position) => {
  expect(between(steps, at, by)).toBe(position);
});

it.each([
  [-1, 0],
  [0, 1.5],
  [3, 5],
])('a step added after %i comes to %d', (at, position) => {
  expect(placeAfter(steps, at)).toBe(position);
});

it('starts an empty plan at 1', () => expect(placeAfter([], -1)).toBe(1));
