/** The marks of one face while they are edited: rows from the store, and on top what the finger just did. */
import type { Face, MarkKind, MarkShape } from '../../../../api/rows';
import { newId } from '../../../../offline/ids';
import { type Edit, History, type Mark } from './history';
import { KINDS } from './kinds';

export interface Store {
  onadd(mark: Mark): void;
  onchange(mark: Mark): void;
  onremove(mark: Mark): void;
}

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

  add(kind: MarkKind, shape: MarkShape): void {
    const { through, blocks } = KINDS[kind];
    const mark: Mark = { id: newId(), face: this.face, kind, shape, through, blocks, note: '' };
    this.carryOut({ before: null, after: mark }, true);
    this.selectedId = mark.id;
  }

  change(id: string, fields: Partial<Omit<Mark, 'id' | 'face'>>): void {
    const before = this.marks.find((mark) => mark.id === id);
    if (!before) return;
    const after = { ...decided(before), ...fields };
    if (!same(decided(before), after)) this.carryOut({ before: decided(before), after }, true);
  }

  remove(id: string): void {
    const before = this.marks.find((mark) => mark.id === id);
    if (before) this.carryOut({ before: decided(before), after: null }, true);
  }

  undo(): void {
    const edit = this.history.undo();
    if (edit) this.carryOut(edit, false);
  }

  redo(): void {
    const edit = this.history.redo();
    if (edit) this.carryOut(edit, false);
  }

  private carryOut({ before, after }: Edit, isNew: boolean): void {
    if (isNew) this.history.push({ before, after });
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
    this.steps += 1;
    if (!before && mark) this.store.onadd(mark);
    else if (before && mark) this.store.onchange(mark);
    else if (before) this.store.onremove(before);
    this.selectedId = mark ? mark.id : this.selectedId === before?.id ? null : this.selectedId;
  }
}
