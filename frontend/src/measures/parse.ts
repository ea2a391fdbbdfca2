/**
 * Reads a length as people write it; refuses what could be read in two ways. The same rules as the server's, held
 * together by tests/vectors/measures.json.
 */
import type { Units } from '../api/rows';

/** Always whole numbers, so that one division at the end gives the nearest millimetres there are. */
interface Ratio {
  top: number;
  bottom: number;
}

interface Piece {
  value: Ratio;
  unit: LengthUnit | null;
  hasFraction: boolean;
}

type LengthUnit = 'in' | 'ft' | 'mm' | 'cm' | 'm';

const LONGEST_MM = 10_000_000;
const LONGEST_TEXT = 40;
/** 1 in = 25.4 mm exactly = 127/5. */
const SIZES: Record<LengthUnit, Ratio> = {
  in: { top: 127, bottom: 5 },
  ft: { top: 1524, bottom: 5 },
  mm: { top: 1, bottom: 1 },
  cm: { top: 10, bottom: 1 },
  m: { top: 1000, bottom: 1 },
};
const SPELLINGS: Record<LengthUnit, string[]> = {
  in: ['in', 'inch', 'inches', '"'],
  ft: ['ft', 'foot', 'feet', "'"],
  mm: ['mm', 'millimetre', 'millimetres', 'millimeter', 'millimeters'],
  cm: ['cm', 'centimetre', 'centimetres', 'centimeter', 'centimeters'],
  m: ['m', 'metre', 'metres', 'meter', 'meters'],
};
const UNIT_WORDS = new Map<string, LengthUnit>(
  Object.entries(SPELLINGS).flatMap(([unit, words]) => words.map((word) => [word, unit as LengthUnit] as const)),
);
const PLAIN_FRACTIONS: Record<string, string> = {
  '¼': '1/4', '½': '1/2', '¾': '3/4', '⅓': '1/3', '⅔': '2/3', '⅕': '1/5', '⅖': '2/5', '⅗': '3/5', '⅘': '4/5',
  '⅙': '1/6', '⅚': '5/6', '⅛': '1/8', '⅜': '3/8', '⅝': '5/8', '⅞': '7/8', '⅒': '1/10',
};
const PIECE = new RegExp(
  '(?:(?<loneTop>[0-9]+) ?/ ?(?<loneBottom>[0-9]+)' +
    '|(?<number>[0-9][0-9.,]*|[.,][0-9]+)(?:(?: | ?- ?)(?<top>[0-9]+) ?/ ?(?<bottom>[0-9]+))?)' +
    ' ?(?<unit>[a-z]+\\.?|\'|")?',
  'y',
);

/** A length that cannot be read for certain; the message says what would work. */
export class MeasureError extends Error {}

/** Millimetres of `29 3/4`, `29-3/4"`, `2' 5 3/4"`, `755 mm`, `75,5 cm`. `units` is what a bare number means. */
export function parseLength(text: string, units: Units, options: { zeroOk?: boolean } = {}): number {
  const tidy = tidied(text);
  if (tidy.length > LONGEST_TEXT) throw new MeasureError(`That is too long to be a length. Write it like ${example(units)}.`);
  if (!tidy) throw new MeasureError(`No length given. Write it like ${example(units)}.`);
  const shown = text.trim();
  if (tidy.startsWith('-')) throw new MeasureError(`"${shown}" is below zero. A length must be more than zero.`);
  const read = readLength(tidy, shown, units);
  const lengthMm = read.top / read.bottom;
  if (lengthMm === 0 && !options.zeroOk) throw new MeasureError('A length must be more than zero.');
  if (lengthMm >= LONGEST_MM) throw new MeasureError('That is 10 km or more, longer than any board. Check the unit.');
  return lengthMm;
}

/** Lower case, one kind of quote, dash, space and slash; `29¾` becomes `29 3/4`. */
function tidied(text: string): string {
  return text
    .replace(/[¼½¾⅓⅔⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞⅒]/g, (sign) => ` ${PLAIN_FRACTIONS[sign]}`)
    .replace(/[′’‘ʹ´`]/g, "'")
    .replace(/[″”“ʺ]/g, '"')
    .replace(/[–—−‐‑]/g, '-')
    .replace(/[⁄∕]/g, '/')
    .replace(/''/g, '"')
    .toLowerCase()
    .replace(/\s+/g, ' ')
    .trim();
}

function readLength(tidy: string, shown: string, units: Units): Ratio {
  const pieces: Piece[] = [];
  let rest = tidy;
  while (rest) {
    PIECE.lastIndex = 0;
    const found = PIECE.exec(rest)?.groups;
    if (!found || found.number === '.' || found.number === ',') {
      throw new MeasureError(`"${shown}" is not a length. Write it like ${example(units)}.`);
    }
    const hasFraction = Boolean(found.top || found.loneTop);
    pieces.push({ value: readNumber(found, shown), unit: readUnit(found, shown), hasFraction });
    rest = rest.slice(PIECE.lastIndex).trimStart();
    // Feet and inches are often joined by a dash: 2'-5 3/4".
    if (rest.startsWith('-') && pieces.at(-1)?.unit === 'ft') rest = rest.slice(1).trimStart();
  }
  const [first, second] = pieces;
  if (pieces.length === 1) return onePiece(first!, shown, units);
  return feetAndInches(pieces, first!, second!, shown);
}

function onePiece(piece: Piece, shown: string, units: Units): Ratio {
  if (piece.unit) return times(piece.value, SIZES[piece.unit]);
  if (units === 'inch') return times(piece.value, SIZES.in);
  if (piece.hasFraction) {
    throw new MeasureError(`"${shown}" has a fraction but no unit. Write ${shown}" for inches, or millimetres like 755.`);
  }
  return piece.value;
}

function feetAndInches(pieces: Piece[], feet: Piece, inches: Piece, shown: string): Ratio {
  const inchesFollow = feet.unit === 'ft' && (inches.unit === 'in' || inches.unit === null);
  if (pieces.length > 2 || !inchesFollow) {
    throw new MeasureError(`"${shown}" could mean more than one length. Write one, like 2' 5 3/4" or 755 mm.`);
  }
  if (feet.value.top % feet.value.bottom !== 0) {
    throw new MeasureError(`"${shown}" has part of a foot and inches too. Write whole feet before inches.`);
  }
  if (inches.value.top / inches.value.bottom >= 12) {
    throw new MeasureError(`"${shown}" has 12 inches or more after the feet. Write ${example('inch')} or fewer inches.`);
  }
  return plus(times(feet.value, SIZES.ft), times(inches.value, SIZES.in));
}

function readUnit(found: Record<string, string | undefined>, shown: string): LengthUnit | null {
  if (!found.unit) return null;
  const unit = UNIT_WORDS.get(found.unit.replace(/\.$/, ''));
  if (!unit) throw new MeasureError(`"${found.unit}" in "${shown}" is not a unit known here. Use in, ft, mm, cm or m.`);
  if (unit === 'mm' && found.number && /^[1-9][0-9]{0,2}\.[0-9]{3}$/.test(found.number)) {
    throw new MeasureError(`"${shown}" could be thousands. Write it without the point, or with fewer decimals.`);
  }
  return unit;
}

function readNumber(found: Record<string, string | undefined>, shown: string): Ratio {
  if (found.loneTop) return readFraction(found.loneTop, found.loneBottom!, shown);
  const whole = readDecimal(found.number!, shown);
  if (!found.top) return whole;
  const part = readFraction(found.top, found.bottom!, shown);
  if (!/^[0-9]+$/.test(found.number!)) {
    throw new MeasureError(`"${shown}" mixes a decimal with a fraction. Write one or the other.`);
  }
  if (part.top >= part.bottom) throw new MeasureError(`In "${shown}" the fraction is one or more. Write it like 29 3/4.`);
  return plus(whole, part);
}

function readFraction(top: string, bottom: string, shown: string): Ratio {
  const parts = Number(bottom.slice(0, 4));
  if (parts < 1 || parts > 128) {
    throw new MeasureError(`"${shown}" has a fraction no tape shows. Write halves to 128ths, like 3/4.`);
  }
  return { top: Number(top), bottom: Number(bottom) };
}

/** Decimal point or comma; groups of thousands only where both signs make them certain. */
function readDecimal(digits: string, shown: string): Ratio {
  if (/^[1-9][0-9]{0,2}(,[0-9]{3})+$/.test(digits)) {
    throw new MeasureError(`"${shown}" could be thousands or a decimal. Write it without the comma, or with a point.`);
  }
  let plain = digits;
  if (/^[0-9]{1,3}(,[0-9]{3})+\.[0-9]+$/.test(digits)) plain = digits.replaceAll(',', '');
  else if (/^[0-9]{1,3}(\.[0-9]{3})+,[0-9]+$/.test(digits)) plain = digits.replaceAll('.', '').replace(',', '.');
  else if (!/^[0-9]*[.,]?[0-9]*$/.test(digits)) {
    throw new MeasureError(`"${shown}" has more than one decimal sign. Write it like 755.5.`);
  }
  const [whole, decimals = ''] = plain.replace(',', '.').split('.');
  return { top: Number(`${whole}${decimals}`), bottom: 10 ** decimals.length };
}

const times = (a: Ratio, b: Ratio): Ratio => ({ top: a.top * b.top, bottom: a.bottom * b.bottom });
const plus = (a: Ratio, b: Ratio): Ratio => ({ top: a.top * b.bottom + b.top * a.bottom, bottom: a.bottom * b.bottom });

export function example(units: Units): string {
  return units === 'inch' ? '29 3/4 or 2\' 5 3/4"' : '755 mm, 75.5 cm or 0.755 m';
}
