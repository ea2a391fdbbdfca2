/** Whether a board is dry enough for the home it goes to, as the shop answers it. */
import type { components } from '../../../api/schema';
import { counted } from '../../../words';

export type Dryness = components['schemas']['Dryness'];

export const drynessPath = (board: string, commission: string) => `/api/boards/${board}/dryness/?commission=${commission}`;

/** In two or three words; nothing is promised where nobody can say. */
export function verdictOf({ ready, days }: Pick<Dryness, 'ready' | 'days'>): string {
  if (ready) return 'Ready';
  if (days === null) return 'Not ready';
  return days <= 0 ? 'Measure again' : `${counted(Math.ceil(days), 'day')} yet`;
}

export interface Stick {
  from_pct: number;
  to_pct: number;
  ticks: number[];
}

/** A stretch of the moisture scale that holds the reading and the target, in even steps of at least two percent. */
export function stickFor(values: readonly number[]): Stick {
  const low = Math.max(0, Math.floor((Math.min(...values) - 1) / 2) * 2);
  const high = Math.max(low + 6, Math.ceil((Math.max(...values) + 1) / 2) * 2);
  const step = high - low > 20 ? 10 : high - low > 12 ? 4 : 2;
  const ticks: number[] = [];
  for (let tick = Math.ceil(low / step) * step; tick <= high; tick += step) ticks.push(tick);
  return { from_pct: low, to_pct: high, ticks };
}
