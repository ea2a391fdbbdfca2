/** Waste learned from what really came out of boards, as the shop averages it; worked out here so that it needs no signal. */
import type { OutcomeRow } from '../../api/rows';

export interface Learned {
  /** Percent of the board's area that did not become pieces. */
  waste_pct: number;
  /** Boards it is the plain average of. */
  count: number;
}

/** By species; woods of which nothing was noted are left out. */
export function learnedWaste(outcomes: readonly Pick<OutcomeRow, 'species' | 'board_mm2' | 'got_mm2'>[]): Map<string, Learned> {
  const bySpecies = new Map<string, number[]>();
  for (const { species, board_mm2, got_mm2 } of outcomes) {
    if (board_mm2 > 0) bySpecies.set(species, [...(bySpecies.get(species) ?? []), 100 * (1 - got_mm2 / board_mm2)]);
  }
  return new Map([...bySpecies].map(([species, each]) => [species, { waste_pct: each.reduce((sum, one) => sum + one, 0) / each.length, count: each.length }]));
}

/** Waste that eats all but a tenth of a board says that something was noted wrong: more is not bought for it. */
const MOST_PCT = 90;

/** How many times the blanks' own area is to be bought. */
export function timesToBuy(learned: Learned | undefined, onTopPct: number): number {
  return learned ? 1 / (1 - Math.min(MOST_PCT, Math.max(0, learned.waste_pct)) / 100) : 1 + onTopPct / 100;
}
