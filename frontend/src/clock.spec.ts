import { describe, expect, it } from 'vitest';
import { dayOf, daysBetween, momentWords, spanWords, timeOfDay, today, whenWords } from './clock';

const now = new Date(2027, 2, 10, 9, 30);

describe('when', () => {
  it('says only the time on the same day', () => {
    const later = new Date(2027, 2, 10, 16, 40);
    expect(momentWords(later, now)).toBe(timeOfDay(later));
    expect(whenWords(later, now)).toBe(`at ${timeOfDay(later)}`);
  });
  it.each([
    [new Date(2027, 2, 11, 8, 0), 'tomorrow at '],
    [new Date(2027, 2, 9, 8, 0), 'yesterday at '],
    [new Date(2027, 2, 13, 8, 0), 'on Saturday at '],
    [new Date(2027, 3, 20, 8, 0), 'on '],
  ])('names the day of %s', (moment, start) => {
    expect(whenWords(moment, now).startsWith(start)).toBe(true);
  });
  it('counts calendar days, also over a change of the clocks', () => {
    expect(daysBetween(now, new Date(2027, 2, 11, 0, 5))).toBe(1);
    expect(daysBetween(new Date(2027, 2, 27, 12), new Date(2027, 2, 29, 12))).toBe(2);
  });
  it('keeps a stored day the same day', () => {
    expect(today(dayOf('2027-03-12'))).toBe('2027-03-12');
  });
});

describe('how long', () => {
  it.each([
    [0.5, '30 min'],
    [1, '1 h'],
    [3.33, '3 h 20 min'],
    [24, '24 h'],
    [52, '2 days 4 h'],
    [168, '7 days'],
  ])('%s hours', (hours, words) => expect(spanWords(hours)).toBe(words));
});
