/** What was done to the marks, to be undone and done again. */
import type { MarkRow } from '../../../../api/rows';

/** What the maker decides about a mark; the rest of its row belongs to the store. */
export type Mark = Pick<MarkRow, 'id' | 'face' | 'kind' | 'shape' | 'through' | 'blocks' | 'note'>;

/** Nothing before: added. Nothing after: removed. */
export interface Edit {
  readonly before: Mark | null;
  readonly after: Mark | null;
}

/** What one tap did: edits of marks, and suggestions answered by them or waved away. */
export interface Step {
  readonly edits: readonly Edit[];
  readonly answered: readonly string[];
}

export const MOST_STEPS = 200;

const turnedBack = ({ edits, answered }: Step): Step => ({
  edits: edits.map(({ before, after }) => ({ before: after, after: before })).reverse(),
  answered,
});

export class History {
  private done: Step[] = [];
  private undone: Step[] = [];

  get canUndo(): boolean {
    return this.done.length > 0;
  }
  get canRedo(): boolean {
    return this.undone.length > 0;
  }

  push(step: Step): void {
    this.done = [...this.done, step].slice(-MOST_STEPS);
    this.undone = [];
  }

  /** The step to carry out now, its edits turned back; what it answered is open again. */
  undo(): Step | null {
    const step = this.done.pop();
    if (!step) return null;
    this.undone.push(step);
    return turnedBack(step);
  }

  redo(): Step | null {
    const step = this.undone.pop();
    if (!step) return null;
    this.done.push(step);
    return step;
  }

  /** A removed mark that comes back gets a new id, as the old one stays dead everywhere; older steps follow it. */
  rename(from: string, to: string): void {
    const named = (mark: Mark | null): Mark | null => (mark?.id === from ? { ...mark, id: to } : mark);
    const all = (steps: Step[]): Step[] =>
      steps.map(({ edits, answered }) => ({ edits: edits.map(({ before, after }) => ({ before: named(before), after: named(after) })), answered }));
    this.done = all(this.done);
    this.undone = all(this.undone);
  }
}
