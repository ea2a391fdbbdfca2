/** Values of a working in the workshop's own units: typed ones, and those of an answer. */
import type { components } from '../../api/schema';
import type { Units } from '../../api/rows';
import { spanWords } from '../../clock';
import { finer, printLength, type TapeStyle } from '../../measures/print';

export type FigureKind = components['schemas']['FigureKind'];
export type FieldKind = components['schemas']['WorkingFieldKind'];

export interface Figure {
  kind: FigureKind;
  value: number | null;
  text?: string;
  unit?: string;
  /** Digits after the point; none given: as it was written. */
  digits?: number;
  fine?: boolean;
}

interface Counted {
  unit: string;
  /** How many of this unit make one of the service's. */
  each: number;
  /** Digits, where the service's would say too much or too little. */
  digits?: number;
}

// Exact by definition (NIST SP 811): pound 0.45359237 kg, foot 0.3048 m, US gallon 231 cubic inches.
const LB_KG = 0.45359237;
const LBF_N = LB_KG * 9.80665;
const SQ_FT_M2 = 0.3048 ** 2;
const QUART_L = (231 * 0.254 ** 3) / 4;
const PSI_MPA = LBF_N / 25.4 ** 2;

const METRIC: Partial<Record<FigureKind, Counted>> = {
  mass: { unit: 'kg', each: 1 },
  grams: { unit: 'g', each: 1 },
  area: { unit: 'm²', each: 1 },
  volume: { unit: 'litres', each: 1 },
  force: { unit: 'N', each: 1 },
  pressure: { unit: 'MPa', each: 1 },
  stiffness: { unit: 'GPa', each: 1 },
  density: { unit: 'kg/m³', each: 1 },
};

const INCH: Partial<Record<FigureKind, Counted>> = {
  mass: { unit: 'lb', each: 1 / LB_KG },
  grams: { unit: 'oz', each: 16 / (LB_KG * 1000), digits: 1 },
  area: { unit: 'sq ft', each: 1 / SQ_FT_M2 },
  volume: { unit: 'quarts', each: 1 / QUART_L },
  force: { unit: 'lbf', each: 1 / LBF_N },
  pressure: { unit: 'psi', each: 1 / PSI_MPA, digits: 0 },
  stiffness: { unit: 'million psi', each: 1 / PSI_MPA / 1000 },
  density: { unit: 'lb/ft³', each: (0.3048 ** 3) / LB_KG },
};

/** From a week on, hours would only pretend to be known. */
const WEEK_H = 7 * 24;

/** A number and its unit, apart, so that a screen can set the number large. */
export interface Printed {
  number: string;
  unit: string;
}

export function printFigure(figure: Figure, tape: TapeStyle): Printed {
  const { kind, value, digits, fine = false } = figure;
  if (kind === 'text' || value === null) return { number: figure.text ?? '', unit: '' };
  if (kind === 'length') return { number: printSmall(value, tape, fine), unit: '' };
  if (kind === 'temperature') return { number: rounded(tape.units === 'inch' ? value * 1.8 + 32 : value, digits), unit: tape.units === 'inch' ? '°F' : '°C' };
  if (kind === 'hours') return { number: spanWords(value < WEEK_H ? value : Math.round(value / 24) * 24), unit: '' };
  if (kind === 'angle') return { number: `${rounded(value, digits)}°`, unit: '' };
  if (kind === 'percent') return { number: rounded(value, digits), unit: '%' };
  const counted = (tape.units === 'inch' ? INCH : METRIC)[kind];
  if (counted) return { number: rounded(value * counted.each, digits === undefined ? undefined : (counted.digits ?? digits)), unit: counted.unit };
  return { number: String(Number(rounded(value, digits))), unit: figure.unit ?? '' };
}

export function figureWords(figure: Figure, tape: TapeStyle): string {
  const { number, unit } = printFigure(figure, tape);
  return unit ? `${number} ${unit}` : number;
}

/** Whether a length is too small to be told in the marks used; zero itself is told. */
export function isTooSmall(lengthMm: number, tape: TapeStyle, fine: boolean): boolean {
  const half = tape.units === 'metric' ? (fine ? 0.05 : 0.5) : 25.4 / (fine ? 64 : tape.denominator) / 2;
  return lengthMm !== 0 && Math.abs(lengthMm) < half * (1 - 1e-9);
}

export function smallestWords(tape: TapeStyle, fine: boolean): string {
  if (tape.units === 'metric') return fine ? 'under 0.1 mm' : 'under 1 mm';
  return `under 1/${fine ? 64 : tape.denominator}″`;
}

function printSmall(lengthMm: number, tape: TapeStyle, fine: boolean): string {
  if (Math.abs(lengthMm) > 1e-6 && isTooSmall(lengthMm, tape, fine)) return smallestWords(tape, fine);
  return printLength(lengthMm, fine ? finer(tape) : tape, fine ? 1 : 0);
}

function rounded(value: number, digits: number | undefined): string {
  if (digits === undefined) return String(Number(value.toFixed(2)));
  const text = value.toFixed(digits);
  return Number(text) === 0 ? (0).toFixed(digits) : text;
}

/** The unit a field's number is typed in; a length is typed with the tape's own field. */
export function typedUnit(kind: FieldKind, ownUnit: string, units: Units): string {
  if (kind === 'temperature') return units === 'inch' ? '°F' : '°C';
  if (kind === 'angle') return 'degrees';
  if (kind === 'percent') return '%';
  if (kind === 'number') return ownUnit;
  return (units === 'inch' ? INCH : METRIC)[kind as FigureKind]?.unit ?? '';
}

const TYPED_DIGITS = 2;

/** A value of the service as it is typed here, rounded as a person would write it. */
export function toTyped(value: number, kind: FieldKind, units: Units): number {
  const typed = kind === 'temperature' && units === 'inch' ? value * 1.8 + 32 : value * (units === 'inch' ? (INCH[kind as FigureKind]?.each ?? 1) : 1);
  return Math.round(typed * 10 ** TYPED_DIGITS) / 10 ** TYPED_DIGITS;
}

export function fromTyped(typed: number, kind: FieldKind, units: Units): number {
  if (units === 'metric') return typed;
  return kind === 'temperature' ? (typed - 32) / 1.8 : typed / (INCH[kind as FigureKind]?.each ?? 1);
}
