/** Rows as they come over `/api/changes/` and are kept on the device: the schema's own types, every field present. */
import type { components } from './schema';

type Schemas = components['schemas'];
/** A response carries every field; the schema marks those optional that a request may leave out. */
type Whole<T> = { -readonly [K in keyof T]-?: T[K] };
/** Fields a helper's rows lack. */
type OwnersOnly<T, K extends keyof T> = Whole<Omit<T, K>> & { -readonly [P in K]?: T[P] };

export interface Row {
  id: string;
  revision: number;
  created_at: string;
  updated_at: string;
}

export type Point = [number, number];
export type Member = Whole<Schemas['Member']>;
export type Workshop = Whole<Schemas['WorkshopSettings']>;
export type Units = Workshop['units'];
export type Token = Schemas['Token'];

export type ClientRow = Whole<Schemas['Client']>;
export type CommissionRow = OwnersOnly<Schemas['Commission'], 'price' | 'client' | 'notes'>;
export type PartRow = Whole<Schemas['Part']>;
export type BoardRow = OwnersOnly<Schemas['Board'], 'price'>;
export type CutRow = Whole<Schemas['Cut']>;
export type CutPiece = Schemas['CutPiece'];
export type ReadingRow = Whole<Schemas['Reading']>;
export type LayoutRow = Whole<Schemas['Layout']>;
export type SurfacePlanRow = Whole<Schemas['SurfacePlan']>;
export type StepRow = Whole<Schemas['Step']>;
export type BenchEntryRow = Whole<Schemas['BenchEntry']>;
export type PacketRow = Whole<Schemas['Packet']>;
export type WorkingRow = Whole<Schemas['Working']>;
export type OutcomeRow = Whole<Schemas['Outcome']>;
export type Waste = Schemas['Waste'];
export type BuyingTripRow = Whole<Schemas['BuyingTrip']>;
export type OfferRow = OwnersOnly<Schemas['Offer'], 'price'>;

/** A place in the photo and on the face as it is looked at: from the butt end, from the lower edge. */
export interface ShotPoint {
  px: Point;
  mm: Point;
}

/** "received": the photograph is on this device or the shop has not read it yet. */
export type ShotRow = Omit<Whole<Schemas['Shot']>, 'corners' | 'points' | 'proposal' | 'width_px' | 'height_px'> & {
  corners: Point[] | null;
  /** Of a stretch of the board, in place of corners; missing until the shop has read the photograph. */
  points?: ShotPoint[] | null;
  /** Corners that the shop found; null where it found none. */
  proposal?: (Omit<NonNullable<Schemas['Shot']['proposal']>, 'corners'> & { corners: Point[] }) | null;
  width_px: number | null;
  height_px: number | null;
};

export type MarkShape =
  | { type: 'ellipse'; cx_mm: number; cy_mm: number; rx_mm: number; ry_mm: number }
  | { type: 'line'; points: Point[]; width_mm: number }
  | { type: 'outline'; points: Point[] };
export type MarkRow = Omit<Whole<Schemas['Mark']>, 'shape'> & { shape: MarkShape };
/** A face as its shots show it together, and the marks its wood suggests; made by the shop. */
export type FacePictureRow = Omit<Whole<Schemas['FacePicture']>, 'suggestions'> & { suggestions: Suggestion[] };
/** No mark until somebody accepts it. */
export type Suggestion = Omit<Schemas['Suggestion'], 'shape'> & { shape: MarkShape };
export type Face = MarkRow['face'];
export type MarkKind = MarkRow['kind'];
/** "all": no part may lie on it; "show": only parts whose seen face it would be on; "none": never in the way. */
export type Blocks = MarkRow['blocks'];
export type StepKind = StepRow['kind'];
export type Stage = CommissionRow['stage'];
export type Placement = Schemas['Placement'];

export const STAGES: readonly Stage[] = ['enquiry', 'quoted', 'agreed', 'making', 'finishing', 'delivered', 'in_use'];

export interface Rows {
  client: ClientRow;
  commission: CommissionRow;
  part: PartRow;
  board: BoardRow;
  reading: ReadingRow;
  shot: ShotRow;
  mark: MarkRow;
  face_picture: FacePictureRow;
  cut: CutRow;
  layout: LayoutRow;
  surface_plan: SurfacePlanRow;
  step: StepRow;
  bench_entry: BenchEntryRow;
  packet: PacketRow;
  buying_trip: BuyingTripRow;
  offer: OfferRow;
  working: WorkingRow;
  outcome: OutcomeRow;
}
export type Kind = keyof Rows;
