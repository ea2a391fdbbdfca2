/** Rows as they come over `/api/changes/` and as they are kept on the device. Lengths in mm. */
export interface Row {
  id: string;
  revision: number;
  created_at: string;
  updated_at: string;
}

export type Face = 'A' | 'B';
export type Point = [number, number];
export type Units = 'inch' | 'metric';

export interface Workshop {
  id: string;
  revision: number;
  name: string;
  maker_name: string;
  phone: string;
  email: string;
  address: string;
  website: string;
  units: Units;
  inch_denominator: 16 | 32;
  paper: 'letter' | 'a4';
  currency: string;
  kerf_mm: number;
  end_trim_mm: number;
  extra_length_mm: number;
  extra_width_mm: number;
  extra_thickness_mm: number;
  joint_loss_mm: number;
}

export interface Member {
  id: string;
  name: string;
  role: 'owner' | 'helper';
}

export interface ClientRow extends Row {
  name: string;
  email: string;
  phone: string;
  address: string;
  notes: string;
}

export const STAGES = ['enquiry', 'quoted', 'agreed', 'making', 'finishing', 'delivered', 'in_use'] as const;
export type Stage = (typeof STAGES)[number];

export interface CommissionRow extends Row {
  title: string;
  piece: string;
  client: string | null;
  client_name?: string;
  home_place: string;
  home_rh_dry_pct: number | null;
  home_rh_damp_pct: number | null;
  home_temp_c: number | null;
  wanted_on: string | null;
  stage: Stage;
  notes: string;
  price?: string | null;
}

export interface PartRow extends Row {
  commission: string;
  name: string;
  quantity: number;
  length_mm: number;
  width_mm: number;
  thickness_mm: number;
  species: string;
  grain: 'length' | 'width' | 'any';
  show_faces: 'both' | 'one' | 'none';
  strip_count: number;
  note: string;
  position: number;
}

export interface BoardRow extends Row {
  tag: string;
  species: string;
  length_mm: number;
  width_mm: number;
  thickness_mm: number;
  thickness_quarters: number | null;
  price?: string | null;
  source: string;
  place: string;
  flitch: string;
  notes: string;
  status: 'in_rack' | 'used' | 'gone';
}

export interface ReadingRow extends Row {
  board: string;
  mc_pct: number;
  read_on: string;
  meter: string;
  note: string;
}

export interface ShotRow extends Row {
  board: string;
  face: Face;
  state: 'received' | 'ready' | 'squared' | 'failed';
  problem: string;
  width_px: number | null;
  height_px: number | null;
  corners: Point[] | null;
  homography: number[][] | null;
  residual_mm: number | null;
  slip_mm: number | null;
  mm_per_px: number | null;
  squared_width_px: number | null;
  squared_height_px: number | null;
}

export type MarkKind =
  | 'knot' | 'check' | 'split' | 'wane' | 'sapwood' | 'bark_pocket' | 'worm_holes' | 'pitch'
  | 'stain' | 'pith' | 'snipe' | 'other' | 'figure';
export type MarkShape =
  | { type: 'ellipse'; cx_mm: number; cy_mm: number; rx_mm: number; ry_mm: number }
  | { type: 'line'; points: Point[]; width_mm: number }
  | { type: 'outline'; points: Point[] };
/** "all": no part may lie on it; "show": only parts whose seen face it would be on; "none": never in the way. */
export type Blocks = 'all' | 'show' | 'none';

export interface MarkRow extends Row {
  board: string;
  face: Face;
  kind: MarkKind;
  shape: MarkShape;
  through: boolean;
  blocks: Blocks;
  note: string;
}

export interface Placement {
  board: string;
  part: string;
  piece: number;
  strip: number | null;
  x_mm: number;
  y_mm: number;
  length_mm: number;
  width_mm: number;
  face: Face | null;
}

export interface LayoutRow extends Row {
  commission: string;
  boards: string[];
  aim: 'looks' | 'yield';
  seconds: number;
  state: 'queued' | 'running' | 'done' | 'failed';
  problem: string;
  value: number | null;
  bound: number | null;
  proved_best: boolean;
  placements: Placement[];
  unplaced: { part: string; count: number; reason: string }[];
  cuts: unknown;
  board_sizes: Record<string, { length_mm: number; width_mm: number }>;
}

export interface SurfacePlanRow extends Row {
  commission: string;
  name: string;
  finish_class: string;
  coats: number;
  start_grit: number;
}

export const STEP_KINDS = ['sand', 'raise_grain', 'dust', 'coat', 'abrade', 'cure', 'other'] as const;
export type StepKind = (typeof STEP_KINDS)[number];

export interface StepRow extends Row {
  plan: string;
  position: number;
  kind: StepKind;
  title: string;
  detail: string;
  wait_hours: number;
  window_hours: number | null;
  hands_on_minutes: number;
}

export interface BenchEntryRow extends Row {
  step: string;
  done_at: string;
  temp_c: number | null;
  rh_pct: number | null;
  note: string;
  early_reason: string;
}

export interface PacketRow extends Row {
  commission: string;
  state: 'queued' | 'running' | 'done' | 'failed';
  problem: string;
  paper: 'letter' | 'a4';
  made_at: string | null;
}

export interface Rows {
  client: ClientRow;
  commission: CommissionRow;
  part: PartRow;
  board: BoardRow;
  reading: ReadingRow;
  shot: ShotRow;
  mark: MarkRow;
  layout: LayoutRow;
  surface_plan: SurfacePlanRow;
  step: StepRow;
  bench_entry: BenchEntryRow;
  packet: PacketRow;
}
export type Kind = keyof Rows;
/** What the maker gives when making a row; the rest the device or the shop fills in. */
export type Draft<K extends Kind> = Omit<Rows[K], keyof Row>;
