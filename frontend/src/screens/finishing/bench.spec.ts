import { describe, expect, it } from 'vitest';
import type { BenchEntryRow, CommissionRow, StepRow, SurfacePlanRow } from '../../api/rows';
import { readinessAt, tasksOf } from './bench';

const commission = (id: string, stage: CommissionRow['stage']) => ({ id, stage, title: id }) as CommissionRow;
const plan = (id: string, of: string) => ({ id, commission: of, finish_class: 'shellac', name: '' }) as SurfacePlanRow;
const step = (id: string, of: string, position: number, wait_hours = 0) =>
  ({ id, plan: of, position, kind: 'coat', title: id, wait_hours, window_hours: null, created_at: '' }) as StepRow;
const entry = (of: string, done_at: string) => ({ id: `e-${of}`, step: of, done_at, temp_c: 20, rh_pct: 50 }) as BenchEntryRow;

const rows = {
  commissions: [commission('desk', 'finishing'), commission('chest', 'delivered')],
  plans: [plan('p', 'desk'), plan('q', 'chest'), plan('r', 'desk')],
  steps: [step('s3', 'p', 3, 4), step('s1', 'p', 1), step('s2', 'p', 2, 2), step('t1', 'q', 1), step('u1', 'r', 1)],
  entries: [entry('s1', '2027-03-01T08:00:00Z'), entry('u1', '2027-03-01T08:00:00Z')],
};

describe('the bench', () => {
  it('shows the first step not done of every plan in work', () => {
    const tasks = tasksOf(rows, () => 'solvent');
    expect(tasks.map((task) => [task.step.id, task.done, task.steps])).toEqual([['s2', 1, 3]]);
    expect(tasks[0]!.before?.id).toBe('s1');
    expect(tasks[0]!.turn?.earliest.toISOString()).toBe('2027-03-01T10:00:00.000Z');
  });

  it('comes back to a step that was left out', () => {
    const skipped = { ...rows, entries: [...rows.entries, entry('s3', '2027-03-01T12:00:00Z')] };
    expect(tasksOf(skipped, () => 'solvent')[0]!.step.id).toBe('s2');
  });

  it.each([
    ['2027-03-01T09:59:00Z', 'drying'],
    ['2027-03-01T10:00:00Z', 'now'],
    ['2027-03-01T12:01:00Z', 'late'],
  ])('at %s it is %s', (now, readiness) => {
    const turn = { before: entry('s1', ''), earliest: new Date('2027-03-01T10:00:00Z'), latest: new Date('2027-03-01T12:00:00Z') };
    expect(readinessAt(turn, new Date(now))).toBe(readiness);
  });

  it('has nothing to wait for before the first step', () => {
    expect(readinessAt(null, new Date())).toBe('now');
  });
});
