/** What the bench shows: for every surface plan in work its next step, and what that waits for. */
import type { BenchEntryRow, CommissionRow, StepRow, SurfacePlanRow } from '../../api/rows';
import { grouped } from '../../grouped';
import { db } from '../../offline/db';
import { turnOf, type Drying, type Turn } from './turns';

export interface BenchTask {
  commission: CommissionRow;
  plan: SurfacePlanRow;
  step: StepRow;
  /** The step whose drying holds this one back. */
  before: StepRow | null;
  turn: Turn<BenchEntryRow> | null;
  /** How many of the plan's steps are done, and how many there are. */
  done: number;
  steps: number;
}

export type Readiness = 'now' | 'drying' | 'late';

const AWAY = new Set(['delivered', 'in_use']);

export const inOrder = (steps: StepRow[]): StepRow[] =>
  [...steps].sort((a, b) => a.position - b.position || a.created_at.localeCompare(b.created_at));

export function readinessAt(turn: Turn | null, now: Date): Readiness {
  if (!turn || turn.earliest <= now) return turn?.latest && turn.latest < now ? 'late' : 'now';
  return 'drying';
}

export interface BenchRows {
  commissions: CommissionRow[];
  plans: SurfacePlanRow[];
  steps: StepRow[];
  entries: BenchEntryRow[];
}

export async function benchRows(): Promise<BenchRows> {
  const [commissions, plans, steps, entries] = await Promise.all([
    db.rows('commission').toArray(),
    db.rows('surface_plan').toArray(),
    db.rows('step').toArray(),
    db.rows('bench_entry').toArray(),
  ]);
  return { commissions, plans, steps, entries };
}

export function tasksOf(rows: BenchRows, dryingOf: (finish: string) => Drying): BenchTask[] {
  const stepsOf = grouped(rows.steps, (step) => step.plan);
  const entriesOf = grouped(rows.entries, (entry) => entry.step);
  const commissions = new Map(rows.commissions.map((commission) => [commission.id, commission]));
  return rows.plans.flatMap((plan) => {
    const commission = commissions.get(plan.commission);
    const steps = inOrder(stepsOf.get(plan.id) ?? []);
    const step = steps.find((one) => !entriesOf.has(one.id));
    if (!commission || AWAY.has(commission.stage) || !step) return [];
    const log = steps.flatMap((one) => entriesOf.get(one.id) ?? []);
    const turn = turnOf(step.id, steps, log, dryingOf(plan.finish_class));
    const before = turn ? (steps.find((one) => one.id === turn.before.step) ?? null) : null;
    return [{ commission, plan, step, before, turn, done: steps.length - steps.filter((one) => !entriesOf.has(one.id)).length, steps: steps.length }];
  });
}
