/** What a board costs, as dealers say it: for the board, or for so much wood. */
import type { OfferRow, Units } from '../../api/rows';
import { boardFeet, MM_PER_QUARTER, surfaceMeasure, volumeM3 } from '../../measures/lumber';

type Sizes = Pick<OfferRow, 'length_mm' | 'width_mm' | 'thickness_mm' | 'thickness_quarters'>;

/** What a yard would tally the board as: board feet, or cubic metres. */
export function tallyOf({ length_mm, width_mm, thickness_mm, thickness_quarters }: Sizes, units: Units): number {
  if (units === 'metric') return volumeM3(length_mm, width_mm, thickness_mm);
  return boardFeet(surfaceMeasure(length_mm, width_mm), thickness_quarters ?? Math.max(4, Math.round(thickness_mm / MM_PER_QUARTER)));
}

export const tallyWords = (tally: number, units: Units): string => (units === 'inch' ? `${Math.round(tally * 100) / 100} bf` : `${tally.toFixed(3)} m³`);
export const unitWords = (units: Units): string => (units === 'inch' ? 'a board foot' : 'a cubic metre');

/** Cents, so that a running cost adds up to what is paid. */
export const cents = (price: string | null | undefined): number => Math.round(Number(price ?? 0) * 100);
export const moneyWords = (inCents: number, currency: string): string => `${(inCents / 100).toFixed(2)} ${currency}`.trim();
