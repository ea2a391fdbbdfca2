import { describe, expect, it } from 'vitest';
import vectors from '../../../../tests/vectors/turns.json';
import { turnOf, type Done, type Drying, type PlanStep } from './turns';

const steps = vectors.steps as PlanStep[];

describe('turns, by the cases shared with the server', () => {
  it.each(vectors.cases)('$name', ({ step, log, drying, turn }) => {
    const found = turnOf(step, steps, log as Done[], drying as Drying);
    if (turn === null) {
      expect(found).toBeNull();
      return;
    }
    const off = (moment: Date, text: string) => Math.abs(moment.getTime() - new Date(text).getTime()) / 1000;
    expect(found!.before.step).toBe(turn.before);
    expect(off(found!.earliest, turn.earliest)).toBeLessThanOrEqual(vectors.tolerance_s);
    if (turn.latest === null) expect(found!.latest).toBeNull();
    else expect(off(found!.latest!, turn.latest)).toBeLessThanOrEqual(vectors.tolerance_s);
  });
});
