/** Placing the four corners: which is next, where they are, and the way back. */
import { clamp, type PhotoPx, photoPx, type Point } from '../../../../geometry/point';
import { asPhotoQuad } from '../../../../geometry/homography';
import { crossed, inOrder, type Quad } from '../../../../geometry/quad';
import { type Slip, slipOf } from '../../../../geometry/slip';

/** Where in the photo the butt end is. */
export type ButtSide = 'left' | 'bottom' | 'right' | 'top';
const SIDES: readonly ButtSide[] = ['left', 'bottom', 'right', 'top'];

/** The corner's two words as the eye sees them in this photo, for each side that the butt end may be on. */
const SEEN: Record<ButtSide, readonly [lower: string, upper: string]> = {
  left: ['lower', 'upper'],
  bottom: ['right', 'left'],
  right: ['upper', 'lower'],
  top: ['left', 'right'],
};

export function cornerWords(corner: number, side: ButtSide): string {
  const [lower, upper] = SEEN[side];
  return `${corner === 0 || corner === 3 ? 'Butt end' : 'Far end'}, ${corner < 2 ? lower : upper} corner`;
}

const FILL = 0.8;
const LEAST_SPREAD = 0.14;

/** A board in the middle of the photo, along its longer side, wide enough for fingers to tell the corners apart. */
export function proposed(widthPx: number, heightPx: number, lengthMm: number, widthMm: number, side: ButtSide): Quad<PhotoPx> {
  const across = side === 'left' || side === 'right';
  const [longRoom, wideRoom] = across ? [widthPx, heightPx] : [heightPx, widthPx];
  const spread = clamp((longRoom * FILL * widthMm) / lengthMm, wideRoom * LEAST_SPREAD, wideRoom * FILL) / 2;
  const reach = (longRoom * FILL) / 2;
  const lying: [number, number][] = [[-reach, spread], [reach, spread], [reach, -spread], [-reach, -spread]];
  const turned = (x: number, y: number): [number, number] =>
    ({ left: [x, y], bottom: [y, -x], right: [-x, -y], top: [-y, x] })[side] as [number, number];
  return asPhotoQuad(lying.map(([x, y]) => turned(x, y)).map(([x, y]) => [x + widthPx / 2, y + heightPx / 2]));
}

export function buttSideOf([a, b, c, d]: Quad<PhotoPx>): ButtSide {
  const x = b.x + c.x - a.x - d.x;
  const y = b.y + c.y - a.y - d.y;
  if (Math.abs(x) >= Math.abs(y)) return x > 0 ? 'left' : 'right';
  return y < 0 ? 'bottom' : 'top';
}

interface Moment {
  readonly corners: Quad<PhotoPx>;
  readonly placed: readonly boolean[];
  readonly active: number;
}

interface Shot {
  readonly widthPx: number;
  readonly heightPx: number;
  readonly lengthMm: number;
  readonly widthMm: number;
}

export class Placing {
  private now = $state.raw<Moment>() as Moment;
  private past = $state.raw<readonly Moment[]>([]);
  private side: ButtSide;

  constructor(private readonly shot: Shot, known: [number, number][] | null) {
    this.side = shot.heightPx > shot.widthPx ? 'bottom' : 'left';
    if (known && known.length === 4) {
      this.now = { corners: asPhotoQuad(known), placed: [true, true, true, true], active: 0 };
    } else {
      this.now = { corners: this.propose(), placed: [false, false, false, false], active: 0 };
    }
  }

  get corners(): Quad<PhotoPx> {
    return this.now.corners;
  }
  get placed(): readonly boolean[] {
    return this.now.placed;
  }
  get active(): number {
    return this.now.active;
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
    return buttSideOf(this.now.corners);
  }
  /** The corners to keep, in order; or in words why they cannot be. */
  get result(): Quad<PhotoPx> | { refusal: string } {
    return inOrder(this.now.corners, this.shot.lengthMm, this.shot.widthMm);
  }
  get slip(): Slip | null {
    const result = this.result;
    return 'refusal' in result ? null : slipOf(result, this.shot.lengthMm, this.shot.widthMm);
  }

  select(corner: number): void {
    this.now = { ...this.now, active: corner };
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
    const corners = this.now.corners.map((p, i) => (i === this.now.active ? inPhoto : p)) as unknown as Quad<PhotoPx>;
    this.now = { ...this.now, corners };
  }

  /** The active corner is where it should be; the next one that is not yet placed becomes active. */
  settle(): void {
    const placed = this.now.placed.map((was, i) => was || i === this.now.active);
    const next = placed.indexOf(false);
    this.now = { ...this.now, placed, active: next < 0 ? this.now.active : next };
  }

  nudge(dx: number, dy: number): void {
    this.remember();
    const p = this.now.corners[this.now.active]!;
    this.move(photoPx(p.x + dx, p.y + dy));
    this.now = { ...this.now, placed: this.now.placed.map((was, i) => was || i === this.now.active) };
  }

  /** Before the first corner: the proposal turns a quarter. After: the butt end changes over to the other end. */
  turn(): void {
    this.remember();
    if (this.nonePlaced) {
      this.side = SIDES[(SIDES.indexOf(this.side) + 1) % 4]!;
      this.now = { ...this.now, corners: this.propose() };
      return;
    }
    const swap = <T>(four: readonly T[]): T[] => [2, 3, 0, 1].map((i) => four[i]!);
    this.now = {
      corners: swap(this.now.corners) as unknown as Quad<PhotoPx>,
      placed: swap(this.now.placed),
      active: (this.now.active + 2) % 4,
    };
  }

  get isCrossed(): boolean {
    return this.allPlaced && crossed(this.now.corners);
  }

  /** Two neighbours change places, so that the outline no longer cuts itself; the first corner stays. */
  uncross(): void {
    const [a, b, c, d] = this.now.corners;
    const round = ([[a, b, d, c], [a, c, b, d]] as const).find((quad) => !crossed(quad));
    if (!round) return;
    this.remember();
    this.now = { ...this.now, corners: round };
  }

  private propose(): Quad<PhotoPx> {
    const { widthPx, heightPx, lengthMm, widthMm } = this.shot;
    return proposed(widthPx, heightPx, lengthMm, widthMm, this.side);
  }
}
