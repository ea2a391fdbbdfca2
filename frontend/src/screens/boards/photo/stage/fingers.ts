/** One finger presses, slides and lifts; two fingers pinch. A second finger takes back what the first had begun. */
import type { Point, ScreenPx } from '../../../../geometry/point';

export type Pair = readonly [Point<ScreenPx>, Point<ScreenPx>];

export interface FingerMoves {
  press(at: Point<ScreenPx>): void;
  slide(at: Point<ScreenPx>, timeMs: number): void;
  lift(at: Point<ScreenPx>): void;
  /** The press did not count: a second finger came, or the phone took the touch away. */
  drop(): void;
  pinch(before: Pair, after: Pair): void;
}

export class Fingers {
  private readonly down = new Map<number, Point<ScreenPx>>();
  private single: number | null = null;

  constructor(private readonly moves: FingerMoves) {}

  start(id: number, at: Point<ScreenPx>): void {
    this.down.set(id, at);
    if (this.down.size === 1) {
      this.single = id;
      this.moves.press(at);
    } else if (this.single !== null) {
      this.single = null;
      this.moves.drop();
    }
  }

  move(id: number, at: Point<ScreenPx>, timeMs: number): void {
    if (!this.down.has(id)) return;
    if (this.single === id) {
      this.down.set(id, at);
      this.moves.slide(at, timeMs);
    } else if (this.down.size === 2) {
      const before = this.pair();
      this.down.set(id, at);
      this.moves.pinch(before, this.pair());
    } else {
      this.down.set(id, at);
    }
  }

  end(id: number, at: Point<ScreenPx>): void {
    if (!this.down.delete(id)) return;
    if (this.single === id) {
      this.single = null;
      this.moves.lift(at);
    }
  }

  cancel(id: number): void {
    this.down.delete(id);
    if (this.single === id) {
      this.single = null;
      this.moves.drop();
    }
  }

  private pair(): Pair {
    const [a, b] = [...this.down.values()];
    return [a!, b!];
  }
}

/** Slow fingers move a target by less than they move themselves, so that a thick finger can hit one pixel. */
export const SLOW_PX_PER_MS = 0.06;
export const FAST_PX_PER_MS = 0.5;

export function gainAt(speedPxPerMs: number, slowGain: number): number {
  const t = (speedPxPerMs - SLOW_PX_PER_MS) / (FAST_PX_PER_MS - SLOW_PX_PER_MS);
  return slowGain + (1 - slowGain) * Math.min(Math.max(t, 0), 1);
}
