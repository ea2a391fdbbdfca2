import { describe, expect, it } from 'vitest';
import type { Units } from '../api/rows';
import vectors from '../../../tests/vectors/measures.json';
import { MeasureError, parseLength } from './parse';
import { fromCelsius, printDegrees, printLength, toCelsius } from './print';

describe('lengths, by the cases shared with the server', () => {
  it.each(vectors.parse)('reads $text ($unit)', ({ text, unit, mm }) => {
    expect(Math.abs(parseLength(text, unit as Units) - mm)).toBeLessThanOrEqual(vectors.tolerance_mm);
  });

  it.each(vectors.refuse)('refuses "$text" ($unit) and says why', ({ text, unit, says }) => {
    expect(() => parseLength(text, unit as Units)).toThrow(MeasureError);
    expect(() => parseLength(text, unit as Units)).toThrow(says);
  });

  it.each(vectors.print)('prints $mm mm as $text', ({ mm, unit, denominator, decimals, text }) => {
    expect(printLength(mm, { units: unit as Units, denominator }, decimals)).toBe(text);
  });

  it('reads back every mark of a 32nds tape exactly', () => {
    for (let steps = 1; steps <= 32 * 20; steps += 1) {
      const lengthMm = (steps * 127) / (32 * 5);
      const printed = printLength(lengthMm, { units: 'inch', denominator: 32 });
      expect(parseLength(printed, 'inch')).toBe(lengthMm);
    }
  });
});

describe('shop air', () => {
  it('uses the degrees of the workshop', () => {
    // NIST SP 811, appendix B.8: t(°F) = 1.8 t(°C) + 32.
    expect(printDegrees(20, 'inch')).toBe('68 °F');
    expect(printDegrees(20, 'metric')).toBe('20 °C');
    expect(toCelsius(fromCelsius(-3.5, 'inch'), 'inch')).toBeCloseTo(-3.5, 9);
  });
});
