/** What was done to the marks, to be undone and done again. */
import type { MarkRow } from '../../../../api/rows';

/** What the maker decides about a mark; the rest of its row belongs to the store. */
export type Mark = Pick<MarkRow, 'id' | 'face' | 'kind' | 'shape' | 'through' | 'blocks' | 'note'>;

/** Nothing before: added. Nothing after: removed. */
export interface Edit {
  readonly before: Mark | null;
  readonly after: Mark | null;
}

export const MOST_STEPS = 200;

export class History {
  private done: Edit[] = [];
  private undone: Edit[] = [];

  get canUndo(): boolean {
    return this.done.length > 0;
  }
  get canRedo(): boolean {
    return this.undone.length > 0;
  }

  push(edit: Edit): void {
    this.done = [...this.done, edit].slice(-MOST_STEPS);
    this.undone = [];
  }

  /** The edit to carry out now, or null. */
  undo(): Edit | null {
    const edit = this.done.pop();
    if (!edit) return null;
    this.undone.push(edit);
    return { before: edit.after, after: edit.before };
  }

  redo(): Edit | null {
    const edit = this.undone.pop();
    if (!edit) return null;
    this.done.push(edit);
    return edit;
  }

  /** A removed mark that comes back gets a new id, as the old one stays dead everywhere; older steps follow it. */
  rename(from: string, to: string): void {
    const named = (mark: Mark | null): Mark | null => (mark?.id === from ? { ...mark, id: to } : mark);
    const all = (edits: Edit[]): Edit[] => edits.map(({ before, after }) => ({ before: named(before), after: named(after) }));
    this.done = all(this.done);
    this.undone = all(this.undone);
  }
}
