import { expect, it } from 'vitest';
import type { ReadingRow, ShotRow } from '../../api/rows';
import { bestShot, latestReading } from './rack';

const shot = (id: string, state: ShotRow['state'], created_at: string) => ({ id, state, created_at, corners: null }) as ShotRow;

it('shows the newest squared shot, else the newest', () => {
  expect(bestShot([])).toBeNull();
  expect(bestShot([shot('a', 'ready', '2027-01-01'), shot('b', 'ready', '2027-01-02')])?.id).toBe('b');
  const mixed = [shot('a', 'squared', '2027-01-01'), shot('b', 'ready', '2027-01-03'), shot('c', 'squared', '2027-01-02')];
  expect(bestShot(mixed)?.id).toBe('c');
});

it('takes the last reading of the last day', () => {
  const readings = [
    { mc_pct: 9, read_on: '2027-01-02', created_at: '2027-01-02T08:00' },
    { mc_pct: 8, read_on: '2027-01-02', created_at: '2027-01-02T17:00' },
    { mc_pct: 12, read_on: '2026-12-01', created_at: '2027-01-05T08:00' },
  ] as ReadingRow[];
  expect(latestReading(readings)?.mc_pct).toBe(8);
});
