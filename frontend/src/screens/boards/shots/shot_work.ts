/** What the shop's computer is doing with a photograph, in words. */
import type { ShotRow } from '../../../api/rows';
import { isSquare } from '../../../offline/pictures';

export interface ShotWork {
  readonly words: string;
  /** The shop's computer is at it: worth asking often. */
  readonly isRunning: boolean;
  /** It did not work; the words say what would. */
  readonly hasFailed: boolean;
}

const still = (words: string): ShotWork => ({ words, isRunning: false, hasFailed: false });
const running = (words: string): ShotWork => ({ words, isRunning: true, hasFailed: false });

/** Null once there is nothing to wait for. */
export function shotWork(shot: ShotRow): ShotWork | null {
  if (shot.revision === 0) return still('Kept on this device; goes to the shop as soon as there is a signal.');
  switch (shot.state) {
    case 'received':
      return running('The shop has it and is reading it.');
    case 'ready':
      return isSquare(shot) ? null : still('The shop has read it. It waits for its corners.');
    case 'squaring':
      return running('Being squared up by the shop.');
    case 'failed':
      return { words: shot.problem || 'The shop could not work on this photograph. Set its corners again, or take another.', isRunning: false, hasFailed: true };
    default:
      return null;
  }
}
