import { describe, expect, it } from 'vitest';
import type { ShotRow } from '../../../api/rows';
import { shotWork } from './shot_work';

const shot = (fields: Partial<ShotRow>) => ({ revision: 3, state: 'ready', corners: null, problem: '', ...fields }) as ShotRow;

describe('work on a photograph', () => {
  it('is told from the device to the squared picture', () => {
    expect(shotWork(shot({ revision: 0, state: 'received' }))?.words).toContain('on this device');
    expect(shotWork(shot({ state: 'received' }))?.isRunning).toBe(true);
    expect(shotWork(shot({ state: 'ready' }))?.words).toContain('waits for its corners');
    expect(shotWork(shot({ state: 'squaring', corners: [[0, 0], [9, 0], [9, 5], [0, 5]] }))?.isRunning).toBe(true);
    expect(shotWork(shot({ state: 'squared' }))).toBeNull();
  });

  it('fails in the words of the shop', () => {
    const failed = shotWork(shot({ state: 'failed', problem: 'The corners cross. Go round the board along its edge.' }));
    expect(failed).toEqual({ words: 'The corners cross. Go round the board along its edge.', isRunning: false, hasFailed: true });
    expect(shotWork(shot({ state: 'failed' }))?.words).toContain('take another');
  });
});
