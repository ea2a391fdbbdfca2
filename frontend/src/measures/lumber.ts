/** Lumber as it is tallied and sold. The same rules as the server's, held together by tests/vectors/lumber.json. */

const MM_PER_INCH = 25.4;
const MM_PER_FOOT = 304.8;
const MM3_PER_BOARD_FOOT = 144 * MM_PER_INCH ** 3;
export const MM_PER_QUARTER = MM_PER_INCH / 4;
/** A board kept to the millimetre may be half a millimetre short of the foot it was sold as. */
const SHORT_OF_A_FOOT_MM = 0.5;

/** Whole square feet of one board: inches of width by whole feet of length / 12; halves go to the even number. */
export function surfaceMeasure(lengthMm: number, widthMm: number): number {
  const wholeFeet = Math.floor((lengthMm + SHORT_OF_A_FOOT_MM) / MM_PER_FOOT);
  // Counted in 64ths of an inch, so that halves are halves.
  const share = Math.round((widthMm / MM_PER_INCH) * 64) * wholeFeet;
  const unit = 12 * 64;
  const whole = Math.floor(share / unit);
  const rest = share - whole * unit;
  return rest * 2 > unit || (rest * 2 === unit && whole % 2 === 1) ? whole + 1 : whole;
}

/** Board feet as a yard tallies one board; stock under 4/4 counts as 4/4. */
export const boardFeet = (surfaceMeasureSqft: number, quarters: number): number => (surfaceMeasureSqft * Math.max(quarters, 4)) / 4;

export const volumeBoardFeet = (lengthMm: number, widthMm: number, thicknessMm: number): number =>
  (lengthMm * widthMm * thicknessMm) / MM3_PER_BOARD_FOOT;

export const volumeM3 = (lengthMm: number, widthMm: number, thicknessMm: number): number => (lengthMm * widthMm * thicknessMm) / 1e9;
