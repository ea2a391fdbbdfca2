/** A length for tape, screen or paper. The same rules as the server's, held together by tests/vectors/measures.json. */
import type { Units } from '../api/rows';

const MM_PER_INCH = 25.4;

/** A length taken apart, so that a screen can set a true fraction. */
export interface MeasureParts {
  negative: boolean;
  whole: number;
  top: number;
  bottom: number;
  unit: 'inch' | 'mm';
}

export interface TapeStyle {
  units: Units;
  denominator: number;
}

/** The same units in 64ths, for what moves or fits. */
export const finer = (tape: TapeStyle): TapeStyle => ({ ...tape, denominator: 64 });

export function inchParts(lengthMm: number, denominator: number): MeasureParts {
  // The tiny addition lets an exact half, blurred by float division, still go up.
  const steps = Math.floor((Math.abs(lengthMm) / MM_PER_INCH) * denominator + 0.5 + 1e-9);
  const rest = steps % denominator;
  const shared = rest === 0 ? denominator : greatestCommonDivisor(rest, denominator);
  return {
    negative: lengthMm < 0 && steps > 0,
    whole: (steps - rest) / denominator,
    top: rest / shared,
    bottom: denominator / shared,
    unit: 'inch',
  };
}

/** `29 3/4"` to the nearest 1/denominator inch, or `755 mm`; halves go up. */
export function printLength(lengthMm: number, style: TapeStyle, decimals = 0): string {
  if (style.units === 'metric') return printMillimetres(lengthMm, decimals);
  const parts = inchParts(lengthMm, style.denominator);
  const sign = parts.negative ? '-' : '';
  if (parts.top === 0) return `${sign}${parts.whole}"`;
  return `${sign}${parts.whole > 0 ? `${parts.whole} ` : ''}${parts.top}/${parts.bottom}"`;
}

function printMillimetres(lengthMm: number, decimals: number): string {
  const scale = 10 ** decimals;
  const steps = Math.floor(Math.abs(lengthMm) * scale + 0.5);
  return `${lengthMm < 0 && steps > 0 ? '-' : ''}${(steps / scale).toFixed(decimals)} mm`;
}

/** Shop air in the workshop's own degrees. */
export function printDegrees(tempC: number, units: Units): string {
  return units === 'inch' ? `${Math.round(tempC * 1.8 + 32)} °F` : `${Math.round(tempC)} °C`;
}

export const toCelsius = (degrees: number, units: Units) => (units === 'inch' ? (degrees - 32) / 1.8 : degrees);
export const fromCelsius = (tempC: number, units: Units) => (units === 'inch' ? tempC * 1.8 + 32 : tempC);

function greatestCommonDivisor(a: number, b: number): number {
  return b === 0 ? a : greatestCommonDivisor(b, a % b);
}
