/** The wood a commission still needs, by species and thickness, and what each board adds to it. */
import type { BoardRow, PartRow, Units, Workshop } from '../../api/rows';
import { MM_PER_QUARTER, volumeBoardFeet, volumeM3 } from '../../measures/lumber';
import { blanksFor, roughSize, type Allowances } from '../../measures/rough';
import { timesToBuy, type Learned } from './learned_waste';

/** Rough thicknesses that yards sell by quarters of an inch. */
const QUARTERS = [4, 5, 6, 8, 10, 12, 16];
/** A board half a millimetre thin still does, as in layouts. */
const SLACK_MM = 0.5;

export interface Need {
  species: string;
  /** The least thickness that does: a quarter thickness, or whole millimetres. */
  thickness_mm: number;
  quarters: number | null;
  /** Length x width of all blanks, with the shop's own waste. */
  area_mm2: number;
  /** Names of the parts that come from it. */
  parts: string[];
  /** What the waste was learned from; without it, it is the workshop's usual share on top. */
  learned?: Learned;
}

/** Sizes of a board, in the rack or at the dealer's. */
export type Stock = Pick<BoardRow, 'id' | 'species' | 'length_mm' | 'width_mm' | 'thickness_mm'>;

type NeedingPart = Pick<PartRow, 'name' | 'species' | 'quantity' | 'length_mm' | 'width_mm' | 'thickness_mm' | 'grain' | 'strip_count'> &
  Partial<Pick<PartRow, 'blank_holds' | 'blank_length_mm' | 'blank_width_mm'>>;
type Figures = Allowances & Pick<Workshop, 'units' | 'waste_pct'>;

export function needsOf(parts: readonly NeedingPart[], workshop: Figures, learned: ReadonlyMap<string, Learned> = new Map()): Need[] {
  const needs = new Map<string, Need>();
  for (const part of parts) {
    const rough = roughSize(part, workshop);
    const quarters = workshop.units === 'inch' ? quartersFor(rough.thickness_mm) : null;
    const thickness_mm = quarters === null ? Math.ceil(rough.thickness_mm - 1e-6) : quarters * MM_PER_QUARTER;
    const key = `${part.species}\n${thickness_mm}`;
    const known = learned.get(part.species);
    // A phone without signal may still hold the workshop's settings from before there was such a figure.
    const withWaste = timesToBuy(known, workshop.waste_pct ?? 0);
    const need = needs.get(key) ?? { species: part.species, thickness_mm, quarters, area_mm2: 0, parts: [], ...(known && { learned: known }) };
    need.area_mm2 += rough.length_mm * rough.width_mm * rough.count * blanksFor(part.quantity, part.blank_holds) * withWaste;
    if (!need.parts.includes(part.name)) need.parts.push(part.name);
    needs.set(key, need);
  }
  return [...needs.values()].sort((a, b) => a.species.localeCompare(b.species) || a.thickness_mm - b.thickness_mm);
}

export const quartersFor = (thicknessMm: number): number =>
  QUARTERS.find((quarters) => quarters * MM_PER_QUARTER + SLACK_MM >= thicknessMm) ?? Math.ceil(thicknessMm / MM_PER_QUARTER);

/** Square millimetres still missing for each need, once the boards are shared out. */
export class Shares {
  readonly lacking: Map<Need, number>;

  constructor(private readonly needs: readonly Need[]) {
    this.lacking = new Map(needs.map((need) => [need, need.area_mm2]));
  }

  /** Gives a board to the thickest need it can serve that still lacks wood, so that thick boards are not planed to chips. */
  take(board: Stock): void {
    const need = this.needFor(board);
    if (need) this.lacking.set(need, Math.max(0, this.lackingOf(need) - areaOf(board)));
  }

  /** What the board would add, without taking it. */
  wouldAdd(board: Stock): { need: Need; area_mm2: number } | null {
    const need = this.needFor(board);
    return need ? { need, area_mm2: Math.min(areaOf(board), this.lackingOf(need)) } : null;
  }

  lackingOf(need: Need): number {
    return this.lacking.get(need) ?? 0;
  }

  private needFor(board: Stock): Need | undefined {
    const lacking = fitting(this.needs, board).filter((need) => this.lackingOf(need) > 0);
    return lacking.sort((a, b) => b.thickness_mm - a.thickness_mm)[0];
  }
}

const areaOf = (board: Stock): number => board.length_mm * board.width_mm;
const fitting = (needs: readonly Need[], board: Stock): Need[] =>
  needs.filter((need) => need.species === board.species && board.thickness_mm + SLACK_MM >= need.thickness_mm);

/** Why a board adds nothing: its wood, its thickness, or because there is enough. */
export function whyNothing(needs: readonly Need[], board: Stock): 'wood' | 'thin' | 'enough' {
  if (!needs.some((need) => need.species === board.species)) return 'wood';
  return fitting(needs, board).length === 0 ? 'thin' : 'enough';
}

/** `7.4 bf` or `0.018 m³` of wood so thick. */
export function amountWords(areaMm2: number, thicknessMm: number, units: Units): string {
  if (units === 'inch') return `${volumeBoardFeet(areaMm2, 1, thicknessMm).toFixed(1)} bf`;
  return `${volumeM3(areaMm2, 1, thicknessMm).toFixed(3)} m³`;
}
