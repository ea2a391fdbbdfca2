import { describe, expect, it } from 'vitest';
import { screenPx } from '../../../../geometry/point';
import { Fingers, gainAt } from './fingers';

function recorded(): { log: string[]; fingers: Fingers } {
  const log: string[] = [];
  const fingers = new Fingers({
    press: (p) => log.push(`press ${p.x}`),
    slide: (p) => log.push(`slide ${p.x}`),
    lift: (p) => log.push(`lift ${p.x}`),
    drop: () => log.push('drop'),
    pinch: ([a, b], [c, d]) => log.push(`pinch ${b.x - a.x} to ${d.x - c.x}`),
  });
  return { log, fingers };
}

describe('fingers', () => {
  it('one finger presses, slides, lifts', () => {
    const { log, fingers } = recorded();
    fingers.start(1, screenPx(10, 0));
    fingers.move(1, screenPx(12, 0), 5);
    fingers.end(1, screenPx(13, 0));
    expect(log).toEqual(['press 10', 'slide 12', 'lift 13']);
  });

  it('a second finger takes the press back, and the one that stays counts for nothing', () => {
    const { log, fingers } = recorded();
    fingers.start(1, screenPx(10, 0));
    fingers.start(2, screenPx(20, 0));
    fingers.move(2, screenPx(30, 0), 5);
    fingers.end(2, screenPx(30, 0));
    fingers.move(1, screenPx(50, 0), 9);
    fingers.end(1, screenPx(50, 0));
    expect(log).toEqual(['press 10', 'drop', 'pinch 10 to 20']);
  });

  it('a touch that the phone takes away is dropped, and strangers are ignored', () => {
    const { log, fingers } = recorded();
    fingers.move(7, screenPx(1, 1), 0);
    fingers.end(7, screenPx(1, 1));
    fingers.start(1, screenPx(10, 0));
    fingers.cancel(1);
    expect(log).toEqual(['press 10', 'drop']);
  });

  it('is fine when slow and direct when fast', () => {
    expect(gainAt(0, 0.2)).toBe(0.2);
    expect(gainAt(0.06, 0.2)).toBeCloseTo(0.2);
    expect(gainAt(0.28, 0.2)).toBeCloseTo(0.6);
    expect(gainAt(5, 0.2)).toBe(1);
  });
});
