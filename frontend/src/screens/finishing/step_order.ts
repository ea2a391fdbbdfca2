/** Positions are numbers with room between them, so that moving one step writes one row. */
type Placed = { position: number };

/** The new position of the step at `at`, moved one place up (-1) or down (1). */
export function between(steps: Placed[], at: number, by: -1 | 1): number {
  const near = steps[at + by];
  const far = steps[at + 2 * by];
  if (!near) return steps[at]!.position;
  return far ? (near.position + far.position) / 2 : near.position + by;
}

/** A position right behind the step at `at`; -1 stands for the very start. */
export function placeAfter(steps: Placed[], at: number): number {
  const before = steps[at];
  const after = steps[at + 1];
  if (!before) return after ? after.position - 1 : 1;
  return after ? (before.position + after.position) / 2 : before.position + 1;
}
