/** The marks of one face while they are edited: rows from the store, and on top what the finger just did. */
import type { Face, MarkKind, MarkShape, Suggestion as SuggestedRow } from '../../../../api/rows';
import { newId } from '../../../../offline/ids';
import { type Edit, History, type Mark, type Step } from './history';
import { KINDS } from './kinds';
import { middleOf } from './shape';

export interface Store {
  onadd(mark: Mark): void;
  onchange(mark: Mark): void;
  onremove(mark: Mark): void;
  /** Suggestions were accepted or dismissed; or, undone, are open again. */
  onanswer?(keys: readonly string[], isAnswered: boolean): void;
}

/** A mark that the shop's computer thinks it sees; none until somebody accepts it. */
export type Suggestion = Pick<SuggestedRow, 'key' | 'kind' | 'shape'>;

const decided = ({ id, face, kind, shape, through, blocks, note }: Mark): Mark => ({ id, face, kind, shape, through, blocks, note });

function same(a: unknown, b: unknown): boolean {
  if (a === b || typeof a !== 'object' || typeof b !== 'object' || !a || !b) return a === b;
  const keys = Object.keys(a);
  return keys.length === Object.keys(b).length && keys.every((k) => same(a[k as never], b[k as never]));
}

export class MarkSession {
  selectedId = $state<string | null>(null);
  private rows = $state.raw<readonly Mark[]>([]);
  /** By id: the mark as it is now, or null when it was removed; until the store says the same. */
  private ahead = $state.raw<ReadonlyMap<string, Mark | null>>(new Map());
  private readonly seen = new Set<string>();
  private offered = $state.raw<readonly Suggestion[]>([]);
  private answered = $state.raw<ReadonlySet<string>>(new Set());
  /** By key: answered or open again, until the store says the same. */
  private answersAhead = $state.raw<ReadonlyMap<string, boolean>>(new Map());
  /** The suggestion that is looked at. */
  consideredKey = $state<string | null>(null);
  private readonly history = new History();
  private steps = $state(0);

  constructor(private readonly face: Face, private readonly store: Store) {}

  /** Marks of this face, and those of the other face that go through the board. */
  readonly marks = $derived.by(() => {
    const stored = this.rows.filter((row) => !this.ahead.has(row.id));
    const mine = [...this.ahead.values()].filter((mark) => mark !== null);
    return [...stored, ...mine].filter((mark) => mark.face === this.face || mark.through);
  });
  readonly selected = $derived(this.marks.find((mark) => mark.id === this.selectedId) ?? null);
  /** Suggestions that nobody answered yet, from the butt end on. */
  readonly suggestions = $derived(
    this.offered
      .filter(({ key }) => !(this.answersAhead.get(key) ?? this.answered.has(key)))
      .sort((a, b) => middleOf(a.shape).x - middleOf(b.shape).x),
  );
  readonly considered = $derived(this.suggestions.find(({ key }) => key === this.consideredKey) ?? null);
  readonly canUndo = $derived(this.steps >= 0 && this.history.canUndo);
  readonly canRedo = $derived(this.steps >= 0 && this.history.canRedo);

  /** Rows as the store has them now. */
  adopt(rows: readonly Mark[]): void {
    // A mark that did not change stays the same object, so that nothing is drawn anew for it.
    const known = new Map(this.rows.map((row) => [row.id, row]));
    const now = new Map(
      rows.map((row) => {
        const [was, is] = [known.get(row.id), decided(row)];
        return [row.id, was && same(was, is) ? was : is];
      }),
    );
    const ahead = new Map(this.ahead);
    for (const [id, mark] of ahead) {
      const row = now.get(id);
      const gone = !row && (mark === null || this.seen.has(id));
      if (gone || (row && mark && same(row, mark))) ahead.delete(id);
    }
    for (const id of now.keys()) this.seen.add(id);
    this.rows = [...now.values()];
    this.ahead = ahead;
  }

  /** Suggestions as the store has them now, and the keys of those answered. */
  offer(suggestions: readonly Suggestion[], answered: readonly string[]): void {
    const now = new Set(answered);
    this.offered = suggestions;
    this.answered = now;
    this.answersAhead = new Map([...this.answersAhead].filter(([key, is]) => now.has(key) !== is));
  }

  add(kind: MarkKind, shape: MarkShape): void {
    const mark = this.made(kind, shape);
    this.begin({ edits: [{ before: null, after: mark }], answered: [] });
    this.selectedId = mark.id;
  }

  /** Makes marks of suggestions, in one step. */
  accept(suggestions: readonly Suggestion[]): void {
    if (suggestions.length === 0) return;
    const edits = suggestions.map(({ kind, shape }): Edit => ({ before: null, after: this.made(kind, shape) }));
    this.begin({ edits, answered: suggestions.map(({ key }) => key) });
    this.selectedId = null;
  }

  dismiss(suggestions: readonly Suggestion[]): void {
    if (suggestions.length > 0) this.begin({ edits: [], answered: suggestions.map(({ key }) => key) });
  }

  private made(kind: MarkKind, shape: MarkShape): Mark {
    const { through, blocks } = KINDS[kind];
    return { id: newId(), face: this.face, kind, shape, through, blocks, note: '' };
  }

  private begin(step: Step): void {
    this.history.push(step);
    this.carryOut(step, true, true);
  }

  change(id: string, fields: Partial<Omit<Mark, 'id' | 'face'>>): void {
    const before = this.marks.find((mark) => mark.id === id);
    if (!before) return;
    const after = { ...decided(before), ...fields };
    if (!same(decided(before), after)) this.begin({ edits: [{ before: decided(before), after }], answered: [] });
  }

  remove(id: string): void {
    const before = this.marks.find((mark) => mark.id === id);
    if (before) this.begin({ edits: [{ before: decided(before), after: null }], answered: [] });
  }

  undo(): void {
    const step = this.history.undo();
    if (step) this.carryOut(step, false, false);
  }

  redo(): void {
    const step = this.history.redo();
    if (step) this.carryOut(step, false, true);
  }

  private carryOut({ edits, answered }: Step, isNew: boolean, isAnswered: boolean): void {
    for (const edit of edits) this.edit(edit, isNew);
    this.steps += 1;
    if (answered.length === 0) return;
    this.answersAhead = new Map([...this.answersAhead, ...answered.map((key) => [key, isAnswered] as const)]);
    this.consideredKey = isAnswered ? null : (answered.length === 1 ? answered[0]! : null);
    this.store.onanswer?.(answered, isAnswered);
  }

  private edit({ before, after }: Edit, isNew: boolean): void {
    let mark = after;
    if (!before && mark && !isNew) {
      const id = newId();
      this.history.rename(mark.id, id);
      mark = { ...mark, id };
    }
    const ahead = new Map(this.ahead);
    if (mark) ahead.set(mark.id, mark);
    else if (before) ahead.set(before.id, null);
    this.ahead = ahead;
    if (!before && mark) this.store.onadd(mark);
    else if (before && mark) this.store.onchange(mark);
    else if (before) this.store.onremove(before);
    this.selectedId = mark ? mark.id : this.selectedId === before?.id ? null : this.selectedId;
  }
}
