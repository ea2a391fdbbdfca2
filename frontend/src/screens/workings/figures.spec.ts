import { describe, expect, it } from 'vitest';
import type { TapeStyle } from '../../measures/print';
import { figureWords, fromTyped, toTyped, type FieldKind, type Figure } from './figures';

const INCH: TapeStyle = { units: 'inch', denominator: 16 };
const METRIC: TapeStyle = { units: 'metric', denominator: 16 };
const figure = (kind: Figure['kind'], value: number, more: Partial<Figure> = {}): Figure => ({ kind, value, ...more });

describe('an answer in the units of the shop', () => {
  // Conversions exact by definition (NIST SP 811); 2403 N and 1.38 MPa are values of tests/tables.
  it.each<[Figure, string, string]>([
    [figure('length', 755.65), '756 mm', '29 3/4"'],
    [figure('length', 13.1, { fine: true }), '13.1 mm', '33/64"'],
    [figure('length', 0.1, { fine: true }), '0.1 mm', 'under 1/64″'],
    [figure('length', 0.04, { fine: true }), 'under 0.1 mm', 'under 1/64″'],
    [figure('length', 0, { fine: true }), '0.0 mm', '0"'],
    [figure('length', -1.5, { fine: true }), '-1.5 mm', '-1/16"'],
    [figure('percent', 42.04, { digits: 1 }), '42.0 %', '42.0 %'],
    [figure('angle', 14.0019, { digits: 2 }), '14.00°', '14.00°'],
    [figure('temperature', 20), '20 °C', '68 °F'],
    [figure('mass', 0.45359237, { digits: 1 }), '0.5 kg', '1.0 lb'],
    [figure('grams', 28.349523125, { digits: 0 }), '28 g', '1.0 oz'],
    [figure('volume', 3.785411784, { digits: 2 }), '3.79 litres', '4.00 quarts'],
    [figure('force', 2403, { digits: 0 }), '2403 N', '540 lbf'],
    [figure('pressure', 1.378951, { digits: 2 }), '1.38 MPa', '200 psi'],
    [figure('stiffness', 6.894757, { digits: 2 }), '6.89 GPa', '1.00 million psi'],
    [figure('density', 752, { digits: 0 }), '752 kg/m³', '47 lb/ft³'],
    [figure('hours', 36), '36 h', '36 h'],
    [figure('hours', 52), '2 days 4 h', '2 days 4 h'],
    [figure('hours', 26 * 24 + 5), '26 days', '26 days'],
    [figure('number', 8, { unit: 'board feet', digits: 2 }), '8 board feet', '8 board feet'],
    // What was typed is told as it was written.
    [figure('percent', 8), '8 %', '8 %'],
    [figure('mass', 22.6796185), '22.68 kg', '50 lb'],
    [{ kind: 'text', value: null, text: 'it stands' }, 'it stands', 'it stands'],
  ])('%o', (one, metric, inch) => {
    expect(figureWords(one, METRIC)).toBe(metric);
    expect(figureWords(one, INCH)).toBe(inch);
  });

  it('never prints a minus before nothing', () => {
    expect(figureWords(figure('percent', -0.01, { digits: 1 }), METRIC)).toBe('0.0 %');
  });
});

describe('a typed number', () => {
  it.each<[FieldKind, number, number]>([
    ['temperature', 20, 68],
    ['mass', 22.6796185, 50],
    ['area', 1, 10.76],
    ['percent', 8.5, 8.5],
    ['angle', 30, 30],
  ])('%s is written in the units of an inch shop', (kind, kept, typed) => {
    expect(toTyped(kept, kind, 'inch')).toBeCloseTo(typed, 9);
    expect(fromTyped(toTyped(kept, kind, 'inch'), kind, 'inch')).toBeCloseTo(kept, 2);
    expect(toTyped(kept, kind, 'metric')).toBeCloseTo(kept, 2);
    expect(fromTyped(typed, kind, 'metric')).toBe(typed);
  });
});
