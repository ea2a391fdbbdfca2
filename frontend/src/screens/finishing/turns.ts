/** When a step may start, worked out on the phone: the same as shopapi/craft/turns.py, by shared cases. */
import type { BenchEntryRow, StepRow } from '../../api/rows';

export type Drying = 'reaction' | 'water' | 'solvent';
export type PlanStep = Pick<StepRow, 'id' | 'position' | 'kind' | 'wait_hours' | 'window_hours'>;
export type Done = Pick<BenchEntryRow, 'step' | 'done_at' | 'temp_c' | 'rh_pct'>;

export interface Turn<D extends Done = Done> {
  before: D;
  earliest: Date;
  /** Latest sensible start; null: no limit. */
  latest: Date | null;
}

const HOUR_MS = 3_600_000;
const REFERENCE_TEMP_C = 20;
const REFERENCE_RH_PCT = 50;
/** Above this the model would only run off to infinity. */
const DAMPEST_COUNTED_PCT = 90;

/** The turn of a step; null where nothing was done before it. Steps left out in between still count with their waits. */
export function turnOf<D extends Done>(stepId: string, steps: PlanStep[], log: D[], drying: Drying): Turn<D> | null {
  const byId = new Map(steps.map((step) => [step.id, step]));
  const step = byId.get(stepId);
  if (!step) return null;
  const before = log
    .filter((done) => (byId.get(done.step)?.position ?? Infinity) < step.position)
    .reduce<D | null>((last, done) => (last && time(last) >= time(done) ? last : done), null);
  if (!before) return null;
  const from = byId.get(before.step)!.position;
  const ticked = new Set(log.map((done) => done.step));
  const leftOut = [...steps]
    .sort((a, b) => a.position - b.position)
    .filter((other) => from < other.position && other.position < step.position && !ticked.has(other.id));
  const tempC = before.temp_c ?? REFERENCE_TEMP_C;
  const rhPct = before.rh_pct ?? REFERENCE_RH_PCT;
  let moment = time(before);
  for (const other of leftOut) moment += waitHours(other, tempC, rhPct, drying) * HOUR_MS;
  const latest = leftOut.length > 0 ? null : latestHours(step, tempC, rhPct, drying);
  return {
    before,
    earliest: new Date(moment + waitHours(step, tempC, rhPct, drying) * HOUR_MS),
    latest: latest === null ? null : new Date(moment + latest * HOUR_MS),
  };
}

function time(done: Done): number {
  return new Date(done.done_at).getTime();
}

function waitHours(step: PlanStep, tempC: number, rhPct: number, drying: Drying): number {
  return step.wait_hours * scaleOf(step, tempC, rhPct, drying);
}

/** A window only widens: warm air must not forbid what the label allows. */
function latestHours(step: PlanStep, tempC: number, rhPct: number, drying: Drying): number | null {
  if (step.window_hours === null) return null;
  const widened = step.wait_hours ? Math.max(1, scaleOf(step, tempC, rhPct, drying)) : 1;
  return Math.max(waitHours(step, tempC, rhPct, drying), step.window_hours * widened);
}

function scaleOf(step: PlanStep, tempC: number, rhPct: number, drying: Drying): number {
  if (step.kind === 'other') return 1;
  const water = step.kind === 'sand' || step.kind === 'raise_grain' || step.kind === 'dust';
  const factor = dryingFactor(water ? 'water' : drying, tempC, Math.min(rhPct, DAMPEST_COUNTED_PCT));
  return step.kind === 'cure' ? Math.max(1, factor) : factor;
}

/** How many times longer drying takes in this air than at 20 °C and 50 % RH: the model told in shopapi/craft/finish.py. */
function dryingFactor(drying: Drying, tempC: number, rhPct: number): number {
  const byTenDegrees = 2 ** ((REFERENCE_TEMP_C - tempC) / 10);
  if (drying === 'solvent') return byTenDegrees;
  if (drying === 'reaction') return byTenDegrees * (1 + Math.max(0, rhPct - REFERENCE_RH_PCT) / 100);
  const room = (temp: number, rh: number) => saturationPressureHpa(temp) * (100 - rh);
  return room(REFERENCE_TEMP_C, REFERENCE_RH_PCT) / room(tempC, rhPct);
}

/** Magnus formula over water, as in shopapi/craft/moisture/air.py. */
function saturationPressureHpa(tempC: number): number {
  return 6.112 * Math.exp((17.62 * tempC) / (243.12 + tempC));
}
