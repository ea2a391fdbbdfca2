/** Which stretches of a face its shots cover, where they leave gaps and where they lie over one another. */

export interface Stretch {
  readonly x0Mm: number;
  readonly x1Mm: number;
}

/** A hair between two stretches is no gap; a tape reading is not finer. */
const WORTH_MM = 2;

export interface Cover {
  readonly gaps: readonly Stretch[];
  readonly overlaps: readonly Stretch[];
}

export function coverOf(stretches: readonly Stretch[], lengthMm: number): Cover {
  const sorted = [...stretches].sort((a, b) => a.x0Mm - b.x0Mm || a.x1Mm - b.x1Mm);
  const gaps: Stretch[] = [];
  const overlaps: Stretch[] = [];
  let reached = 0;
  for (const { x0Mm, x1Mm } of sorted) {
    if (x0Mm - reached >= WORTH_MM) gaps.push({ x0Mm: reached, x1Mm: x0Mm });
    else if (reached - x0Mm >= WORTH_MM) overlaps.push({ x0Mm, x1Mm: Math.min(reached, x1Mm) });
    reached = Math.max(reached, x1Mm);
  }
  if (lengthMm - reached >= WORTH_MM) gaps.push({ x0Mm: reached, x1Mm: lengthMm });
  return { gaps, overlaps };
}
