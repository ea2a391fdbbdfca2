/** The words of the trade for every code the app handles; the same in print. */
import type { Blocks, BoardRow, CommissionRow, MarkKind, PartRow, Stage, StepKind } from './api/rows';
import type { GlyphName } from './ui/glyphs';

type Words<T extends string> = Record<T, string>;

export const STAGE_WORDS: Words<Stage> = {
  enquiry: 'Enquiry',
  quoted: 'Quoted',
  agreed: 'Agreed',
  making: 'Making',
  finishing: 'Finishing',
  delivered: 'Delivered',
  in_use: 'In use',
};

export const STATUS_WORDS: Words<BoardRow['status']> = { in_rack: 'In the rack', used: 'Used', gone: 'Sold or burnt' };

export const GRAIN_WORDS: Record<PartRow['grain'], { word: string; glyph: GlyphName }> = {
  length: { word: 'along the length', glyph: 'grain_length' },
  width: { word: 'across, along the width', glyph: 'grain_width' },
  any: { word: 'either way', glyph: 'grain_any' },
};

export const SHOW_WORDS: Record<PartRow['show_faces'], { word: string; glyph: GlyphName }> = {
  both: { word: 'both faces show', glyph: 'show_both' },
  one: { word: 'one face shows', glyph: 'show_one' },
  none: { word: 'hidden', glyph: 'show_none' },
};

export const MARK_WORDS: Words<MarkKind> = {
  knot: 'Knot',
  check: 'Check',
  split: 'Split',
  wane: 'Wane',
  sapwood: 'Sapwood',
  bark_pocket: 'Bark pocket',
  worm_holes: 'Worm holes',
  pitch: 'Pitch',
  stain: 'Stain',
  pith: 'Pith',
  snipe: 'Snipe',
  other: 'Other',
  figure: 'Prized figure',
};

export const BLOCKS_WORDS: Words<Blocks> = {
  all: 'no part may lie here',
  show: 'not where it would be seen',
  none: 'blocks nothing',
};

export const STEP_WORDS: Words<StepKind> = {
  sand: 'Sand',
  raise_grain: 'Raise the grain',
  dust: 'Dust off',
  coat: 'Coat',
  abrade: 'Abrade between coats',
  cure: 'Let it cure',
  other: 'Other',
};

export interface HomeAir {
  key: string;
  word: string;
  dry_pct: number;
  damp_pct: number;
  temp_c: number;
}

/** Where to start when the client has no hygrometer. Common practice, no source; the numbers stay editable. */
export const HOME_AIRS: HomeAir[] = [
  { key: 'cold', word: 'Heated all winter, cold outside', dry_pct: 25, damp_pct: 55, temp_c: 21 },
  { key: 'mild', word: 'Heated a little, mild winters', dry_pct: 35, damp_pct: 60, temp_c: 20 },
  { key: 'cooled', word: 'Damp summers, air-conditioned', dry_pct: 40, damp_pct: 60, temp_c: 23 },
  { key: 'desert', word: 'Dry all year', dry_pct: 20, damp_pct: 40, temp_c: 23 },
  { key: 'coast', word: 'By the sea, windows open', dry_pct: 50, damp_pct: 70, temp_c: 22 },
];

export const homeAirOf = (row: Pick<CommissionRow, 'home_rh_dry_pct' | 'home_rh_damp_pct'>): HomeAir | undefined =>
  HOME_AIRS.find((air) => air.dry_pct === row.home_rh_dry_pct && air.damp_pct === row.home_rh_damp_pct);

export const counted = (count: number, one: string, many = `${one}s`): string => `${count} ${count === 1 ? one : many}`;
