/** The air noted last, offered again for a few hours: a shop does not change faster. */
export interface ShopAir {
  temp_c: number | null;
  rh_pct: number | null;
}

const KEY = 'flitchbook.air';
const GOOD_FOR_MS = 6 * 3_600_000;

export function keptAir(now = Date.now()): ShopAir {
  try {
    const kept = JSON.parse(localStorage.getItem(KEY) ?? 'null') as (ShopAir & { at: number }) | null;
    if (kept && now - kept.at < GOOD_FOR_MS) return { temp_c: kept.temp_c, rh_pct: kept.rh_pct };
  } catch {
    // What cannot be read is not offered.
  }
  return { temp_c: null, rh_pct: null };
}

export function keepAir(air: ShopAir, now = Date.now()): void {
  localStorage.setItem(KEY, JSON.stringify({ ...air, at: now }));
}
