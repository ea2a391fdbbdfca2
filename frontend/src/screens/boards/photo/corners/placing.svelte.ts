/** Placing the corners of a board, or the ticks of a stretch of it: which is next, where they are, and the way back. */
import { boardMm, clamp, type PhotoPx, photoPx, type Point } from '../../../../geometry/point';
import { asPhotoQuad } from '../../../../geometry/homography';
import { crossed, inOrder, type Quad } from '../../../../geometry/quad';
import { fitted, type Fit, type Reference } from '../../../../geometry/reference';
import { type Slip, slipOf } from '../../../../geometry/slip';
import { buttSideOf, type ButtSide, type Place, proposed, SIDES } from './sides';

/** Corners that the shop found in the photograph; `sure` from 0 to 1. */
export interface Found {
  readonly corners: readonly (readonly [number, number])[];
  readonly sure: number;
  /** As two scale cards on the board measured it. */
  readonly length_mm?: number | null;
  readonly width_mm?: number | null;
}

/** Of a proposal so sure, the corners count as placed: they only want a look. Measured by the vision benchmark. */
const SURE = 0.7;
/** A point that misses by less is as good as a finger and a tape are; common practice, no source. */
const WORTH_MM = 1;

interface Moment {
  /** The four corners, then whatever more was ticked. */
  readonly points: readonly Point<PhotoPx>[];
  readonly places: readonly Place[];
  readonly placed: readonly boolean[];
  readonly active: number;
  /** Only a stretch of the board is in the photo. */
  readonly isStretch: boolean;
}

interface Shot {
  readonly widthPx: number;
  readonly heightPx: number;
  readonly lengthMm: number;
  readonly widthMm: number;
}

/** What is kept: four corners of the whole board, or points at known places of a stretch. */
export type Kept = { readonly corners: [number, number][] } | { readonly points: { px: [number, number]; mm: [number, number] }[] };

interface Start {
  readonly corners?: readonly (readonly [number, number])[] | null | undefined;
  readonly points?: readonly { readonly px: readonly number[]; readonly mm: readonly number[] }[] | null | undefined;
  readonly found?: Found | null | undefined;
}

export class Placing {
  private now = $state.raw<Moment>() as Moment;
  private past = $state.raw<readonly Moment[]>([]);
  private side: ButtSide;
  private hasFound = $state(false);

  constructor(private readonly shot: Shot, start: Start = {}) {
    this.side = shot.heightPx > shot.widthPx ? 'bottom' : 'left';
    const places = this.placesOf(0, shot.lengthMm);
    const fresh = { points: this.propose(), places, placed: [false, false, false, false], active: 0, isStretch: false };
    const { corners, points, found } = start;
    if (points && points.length >= 4) {
      this.now = {
        points: points.map(({ px }) => photoPx(px[0]!, px[1]!)),
        places: points.map(({ mm }): Place => ({ xMm: mm[0]!, edge: mm[1]! < shot.widthMm / 2 ? 'lower' : 'upper' })),
        placed: points.map(() => true),
        active: 0,
        isStretch: true,
      };
    } else if (corners?.length === 4) {
      this.now = { ...fresh, points: asPhotoQuad(corners), placed: [true, true, true, true] };
    } else {
      this.now = fresh;
      this.take(found);
    }
  }

  /** The shop's proposal, as long as nothing was done by hand yet. */
  take(found: Found | null | undefined): void {
    if (found?.corners.length !== 4 || this.hasFound || this.canUndo || !this.nonePlaced) return;
    this.hasFound = true;
    const isSure = found.sure >= SURE;
    this.now = { ...this.now, points: asPhotoQuad(found.corners), placed: [isSure, isSure, isSure, isSure], active: 0 };
  }

  get points(): readonly Point<PhotoPx>[] {
    return this.now.points;
  }
  get places(): readonly Place[] {
    return this.now.places;
  }
  get corners(): Quad<PhotoPx> {
    return this.now.points.slice(0, 4) as unknown as Quad<PhotoPx>;
  }
  get placed(): readonly boolean[] {
    return this.now.placed;
  }
  get active(): number {
    return this.now.active;
  }
  get isStretch(): boolean {
    return this.now.isStretch;
  }
  /** The corners began where the shop found them. */
  get isFound(): boolean {
    return this.hasFound && !this.isStretch;
  }
  get stretch(): readonly [number, number] {
    const along = this.now.places.map(({ xMm }) => xMm);
    return [Math.min(...along), Math.max(...along)];
  }
  get canUndo(): boolean {
    return this.past.length > 0;
  }
  get allPlaced(): boolean {
    return this.now.placed.every(Boolean);
  }
  get nonePlaced(): boolean {
    return !this.now.placed.some(Boolean);
  }
  get buttSide(): ButtSide {
    return buttSideOf(this.corners);
  }
  /** Points on the photo with where each is on the board. */
  private get references(): Reference[] {
    return this.now.points.map((px, i) => ({ px, mm: this.mmOf(this.now.places[i]!) }));
  }
  /** How the points of a stretch fit together; null for the whole board, whose four corners always do. */
  get fit(): Fit | { refusal: string } | null {
    return this.isStretch ? fitted(this.references, this.shot.lengthMm, this.shot.widthMm) : null;
  }
  /** The point of a stretch that the others say is off the most, where it is worth a word. */
  get worst(): { point: number; mm: number; isCertain: boolean } | null {
    const fit = this.fit;
    if (!fit || 'refusal' in fit || !this.allPlaced) return null;
    const greatest = Math.max(...fit.residualsMm);
    if (greatest < WORTH_MM) return null;
    // Least squares smears one mistake over all points: the culprit is the one without which the others agree. With fewer
    // than four points on its edge they agree without any of them, and nobody can tell.
    const without = this.references.map((_, i) => this.disagreementWithout(i));
    const [least, next] = [...without].sort((a, b) => a - b);
    const isCertain = next! > Math.max(3 * least!, WORTH_MM);
    const point = isCertain ? without.indexOf(least!) : fit.residualsMm.indexOf(greatest);
    return { point, mm: fit.residualsMm[point]!, isCertain };
  }
  private disagreementWithout(point: number): number {
    const fit = fitted(this.references.filter((_, i) => i !== point), this.shot.lengthMm, this.shot.widthMm);
    return 'refusal' in fit ? Infinity : Math.max(...fit.residualsMm);
  }
  /** Why what is placed cannot be kept; null when it can. */
  get refusal(): string | null {
    const result = this.fit ?? this.whole;
    return 'refusal' in result ? result.refusal : null;
  }
  /** What to keep; null while it cannot be. */
  get kept(): Kept | null {
    if (this.isStretch) {
      const fit = this.fit;
      if (!fit || 'refusal' in fit) return null;
      return { points: fit.references.map(({ px, mm }) => ({ px: [px.x, px.y], mm: [mm.x, mm.y] })) };
    }
    const whole = this.whole;
    return 'refusal' in whole ? null : { corners: whole.map(({ x, y }) => [x, y]) };
  }
  private get whole(): Quad<PhotoPx> | { refusal: string } {
    return inOrder(this.corners, this.shot.lengthMm, this.shot.widthMm);
  }
  get slip(): Slip | null {
    if (this.isStretch) return null;
    const whole = this.whole;
    return 'refusal' in whole ? null : slipOf(whole, this.shot.lengthMm, this.shot.widthMm);
  }

  select(point: number): void {
    this.now = { ...this.now, active: point };
  }

  /** Begin a move that one undo takes back. */
  remember(): void {
    this.past = [...this.past, this.now];
  }

  /** Take back what was begun since `remember`. */
  undo(): void {
    const before = this.past.at(-1);
    if (!before) return;
    this.past = this.past.slice(0, -1);
    this.now = before;
  }

  move(to: Point<PhotoPx>): void {
    const inPhoto = photoPx(clamp(to.x, 0, this.shot.widthPx), clamp(to.y, 0, this.shot.heightPx));
    this.now = { ...this.now, points: this.now.points.map((p, i) => (i === this.now.active ? inPhoto : p)) };
  }

  /** The active point is where it should be; the next one that is not yet placed becomes active. */
  settle(): void {
    const placed = this.now.placed.map((was, i) => was || i === this.now.active);
    const next = placed.indexOf(false);
    this.now = { ...this.now, placed, active: next < 0 ? this.now.active : next };
  }

  nudge(dx: number, dy: number): void {
    this.remember();
    const p = this.now.points[this.now.active]!;
    this.move(photoPx(p.x + dx, p.y + dy));
    this.now = { ...this.now, placed: this.now.placed.map((was, i) => was || i === this.now.active) };
  }

  /** Before the first corner: the start turns a quarter. After: the butt end changes over to the other end. */
  turn(): void {
    this.remember();
    if (this.nonePlaced && !this.hasFound) {
      this.side = SIDES[(SIDES.indexOf(this.side) + 1) % 4]!;
      this.now = { ...this.now, points: [...this.propose(), ...this.now.points.slice(4)] };
      return;
    }
    const swap = <T>(all: readonly T[]): T[] => [...[2, 3, 0, 1].map((i) => all[i]!), ...all.slice(4)];
    const active = this.now.active < 4 ? (this.now.active + 2) % 4 : this.now.active;
    this.now = { ...this.now, points: swap(this.now.points), placed: swap(this.now.placed), active };
  }

  get isCrossed(): boolean {
    return this.allPlaced && crossed(this.corners);
  }

  /** Two neighbours change places, so that the outline no longer cuts itself; the first corner stays. */
  uncross(): void {
    const [a, b, c, d] = this.corners;
    const round = ([[a, b, d, c], [a, c, b, d]] as const).find((quad) => !crossed(quad));
    if (!round) return;
    this.remember();
    this.now = { ...this.now, points: [...round, ...this.now.points.slice(4)] };
  }

  /** The photo shows the board from one distance to another; its first four points lie there. */
  showStretch(x0Mm: number, x1Mm: number): void {
    this.remember();
    this.now = { ...this.now, places: [...this.placesOf(x0Mm, x1Mm), ...this.now.places.slice(4)], isStretch: true };
  }

  showWhole(): void {
    this.remember();
    const four = <T>(all: readonly T[]): T[] => all.slice(0, 4);
    this.now = {
      points: four(this.now.points), places: this.placesOf(0, this.shot.lengthMm), placed: four(this.now.placed), active: 0, isStretch: false,
    };
  }

  /** One point more, to be placed next; it begins where the others say it should be. */
  add(place: Place): void {
    this.remember();
    const fit = this.fit;
    const start = fit && !('refusal' in fit) ? fit.inPhoto(this.mmOf(place)) : photoPx(this.shot.widthPx / 2, this.shot.heightPx / 2);
    const inPhoto = photoPx(clamp(start.x, 0, this.shot.widthPx), clamp(start.y, 0, this.shot.heightPx));
    this.now = {
      ...this.now, points: [...this.now.points, inPhoto], places: [...this.now.places, place], placed: [...this.now.placed, false], active: this.now.points.length,
    };
  }

  setPlace(point: number, place: Place): void {
    this.remember();
    this.now = { ...this.now, places: this.now.places.map((was, i) => (i === point ? place : was)) };
  }

  /** Takes away a point beyond the first four. */
  drop(point: number): void {
    if (point < 4) return;
    this.remember();
    const without = <T>(all: readonly T[]): T[] => all.filter((_, i) => i !== point);
    this.now = { ...this.now, points: without(this.now.points), places: without(this.now.places), placed: without(this.now.placed), active: 0 };
  }

  private mmOf({ xMm, edge }: Place): Reference['mm'] {
    return boardMm(xMm, edge === 'lower' ? 0 : this.shot.widthMm);
  }

  private placesOf(x0Mm: number, x1Mm: number): Place[] {
    return [
      { xMm: x0Mm, edge: 'lower' }, { xMm: x1Mm, edge: 'lower' }, { xMm: x1Mm, edge: 'upper' }, { xMm: x0Mm, edge: 'upper' },
    ];
  }

  private propose(): Quad<PhotoPx> {
    const { widthPx, heightPx, lengthMm, widthMm } = this.shot;
    return proposed(widthPx, heightPx, lengthMm, widthMm, this.side);
  }
}
