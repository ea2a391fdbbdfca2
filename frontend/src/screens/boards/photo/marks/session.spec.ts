import { describe, expect, it } from 'vitest';
import type { MarkShape } from '../../../../api/rows';
import { History, type Mark, MOST_STEPS } from './history';
import { MarkSession, type Suggestion } from './session.svelte';

const KNOT: MarkShape = { type: 'ellipse', cx_mm: 100, cy_mm: 70, rx_mm: 20, ry_mm: 10 };
const BIGGER: MarkShape = { ...KNOT, rx_mm: 30 };

/** A store that answers at once, as the device's own does. */
function kept(face: 'A' | 'B' = 'A') {
  const rows = new Map<string, Mark>();
  const log: string[] = [];
  const answered = new Set<string>();
  const session: MarkSession = new MarkSession(face, {
    onadd: (mark) => put('add', mark),
    onchange: (mark) => put('change', mark),
    onremove: (mark) => {
      rows.delete(mark.id);
      log.push('remove');
    },
    onanswer: (keys, isAnswered) => keys.forEach((key) => (isAnswered ? answered.add(key) : answered.delete(key))),
  });
  function put(what: string, mark: Mark): void {
    if (what === 'add' && rows.has(mark.id)) throw new Error('added twice');
    rows.set(mark.id, mark);
    log.push(what);
  }
  return { rows, log, answered, session, answer: () => session.adopt([...rows.values()]) };
}

describe('marks while they are edited', () => {
  it('shows a mark at once and keeps it when the store answers', () => {
    const { session, answer, log } = kept();
    session.add('knot', KNOT);
    expect(session.marks).toHaveLength(1);
    expect(session.selected?.through).toBe(true);
    answer();
    expect(session.marks).toHaveLength(1);
    session.change(session.selectedId!, { shape: BIGGER });
    expect(session.selected?.shape).toEqual(BIGGER);
    session.change(session.selectedId!, { shape: { ...BIGGER } });
    expect(log).toEqual(['add', 'change']);
  });

  it('undoes and redoes, with a new id for a mark that comes back', () => {
    const { session, answer, log, rows } = kept();
    session.add('knot', KNOT);
    const first = session.selectedId!;
    answer();
    session.change(first, { shape: BIGGER });
    session.remove(first);
    answer();
    expect(session.marks).toHaveLength(0);
    session.undo();
    answer();
    const second = session.selectedId!;
    expect(second).not.toBe(first);
    session.undo();
    expect(session.selected?.shape).toEqual(KNOT);
    expect(session.selectedId).toBe(second);
    session.undo();
    answer();
    expect([rows.size, session.canUndo]).toEqual([0, false]);
    session.redo();
    session.redo();
    session.redo();
    answer();
    expect([rows.size, session.canRedo]).toEqual([0, false]);
    expect(log).toEqual(['add', 'change', 'remove', 'add', 'change', 'remove', 'add', 'change', 'remove']);
  });

  it('shows what goes through from the other face, and nothing else of it', () => {
    const { session } = kept('B');
    const other = { face: 'A', kind: 'knot', shape: KNOT, blocks: 'all', note: '' } as const;
    session.adopt([{ ...other, id: '1', through: true }, { ...other, id: '2', through: false }]);
    expect(session.marks.map((mark) => mark.id)).toEqual(['1']);
  });

  it('follows the store when another phone removes or changes a mark', () => {
    const { session, rows, answer } = kept();
    session.add('knot', KNOT);
    answer();
    const id = session.selectedId!;
    rows.set(id, { ...rows.get(id)!, note: 'loose' });
    answer();
    expect(session.selected?.note).toBe('loose');
    session.change(id, { shape: BIGGER });
    rows.delete(id);
    answer();
    expect(session.marks).toHaveLength(0);
    expect(session.selected).toBeNull();
  });
});

describe('suggestions', () => {
  const suggested: Suggestion[] = [
    { key: 'far', kind: 'check', shape: { type: 'line', points: [[900, 40], [1000, 44]], width_mm: 3 } },
    { key: 'near', kind: 'knot', shape: KNOT },
  ];

  it('are no marks until they are accepted, and come from the butt end on', () => {
    const { session, rows, answered } = kept();
    session.offer(suggested, []);
    expect(session.marks).toHaveLength(0);
    expect(session.suggestions.map(({ key }) => key)).toEqual(['near', 'far']);
    session.accept([session.suggestions[0]!]);
    expect([...rows.values()].map(({ kind, shape }) => ({ kind, shape }))).toEqual([{ kind: 'knot', shape: KNOT }]);
    expect([...answered]).toEqual(['near']);
    expect(session.suggestions.map(({ key }) => key)).toEqual(['far']);
  });

  it('are accepted all at once and undone as one step', () => {
    const { session, rows, answered } = kept();
    session.offer(suggested, []);
    session.accept(session.suggestions);
    expect([rows.size, session.suggestions.length]).toEqual([2, 0]);
    session.offer(suggested, [...answered]);
    session.undo();
    expect([rows.size, answered.size, session.suggestions.length]).toEqual([0, 0, 2]);
    session.redo();
    expect([rows.size, answered.size]).toEqual([2, 2]);
    session.undo();
    expect([rows.size, answered.size]).toEqual([0, 0]);
  });

  it('are dismissed, and come back with undo', () => {
    const { session, rows } = kept();
    session.offer(suggested, ['near']);
    expect(session.suggestions.map(({ key }) => key)).toEqual(['far']);
    session.dismiss(session.suggestions);
    expect([session.suggestions.length, rows.size]).toEqual([0, 0]);
    session.undo();
    expect(session.considered?.key).toBe('far');
  });

  it('do not come back while an older answer of the store arrives', () => {
    const { session } = kept();
    session.offer(suggested, []);
    session.dismiss([suggested[0]!]);
    session.dismiss([suggested[1]!]);
    session.offer(suggested, ['far']);
    expect(session.suggestions).toHaveLength(0);
    session.offer(suggested, ['far', 'near']);
    expect(session.suggestions).toHaveLength(0);
  });
});

describe('history', () => {
  it('forgets what was undone once something new is done, and the oldest steps', () => {
    const history = new History();
    const mark = { id: '1' } as Mark;
    for (let i = 0; i < MOST_STEPS + 5; i += 1) history.push({ edits: [{ before: null, after: mark }], answered: [] });
    let steps = 0;
    while (history.undo()) steps += 1;
    expect(steps).toBe(MOST_STEPS);
    expect(history.canRedo).toBe(true);
    history.push({ edits: [{ before: null, after: mark }], answered: [] });
    expect(history.canRedo).toBe(false);
    expect(new History().undo()).toBeNull();
    expect(new History().redo()).toBeNull();
  });
});
