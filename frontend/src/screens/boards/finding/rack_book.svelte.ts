/**
 * The whole rack in memory, read from the device in steps short enough to keep the screen alive, and kept up to date
 * board by board. Searching and sorting ten thousand boards is then a matter of milliseconds.
 */
import { Dexie, RangeSet, type IntervalTree, type ObservabilitySet } from 'dexie';
import type { BoardRow, MarkRow, ReadingRow, ShotRow } from '../../../api/rows';
import { grouped } from '../../../grouped';
import type { ShopDb } from '../../../offline/db';
import { byTag, rackLine, type RackLine } from './rack_line';

const STEP = 250;
const SETTLE_MS = 60;
const OF_A_BOARD = ['shot', 'mark', 'reading'] as const;
type Attached = ShotRow | MarkRow | ReadingRow;

export class RackBook {
  /** By tag. */
  lines = $state.raw<readonly RackLine[]>([]);
  /** Boards read so far, of `total`; the lines come when all are there. */
  read = $state(0);
  total = $state(0);
  isOpen = $state(false);

  private db: ShopDb | undefined;
  private readonly byId = new Map<string, RackLine>();
  /** The board of each shot, mark and reading: a removed row cannot be asked any more. */
  private readonly boardOf = new Map<string, string>();
  private dirty = new Set<string>();
  private loading: Promise<void> | null = null;
  private timer: ReturnType<typeof setTimeout> | undefined;
  private readonly listener = (parts: ObservabilitySet) => void this.note(parts);

  /** Reads the member's rack, or does nothing where it is open already. */
  open(db: ShopDb): Promise<void> {
    if (this.db === db && this.loading) return this.loading;
    this.close();
    this.db = db;
    // Listens first, so that nothing slips in between.
    Dexie.on('storagemutated', this.listener);
    this.loading = this.readAll(db);
    return this.loading;
  }

  close(): void {
    clearTimeout(this.timer);
    Dexie.on.storagemutated.unsubscribe(this.listener);
    this.db = undefined;
    this.loading = null;
    this.byId.clear();
    this.boardOf.clear();
    this.dirty.clear();
    this.lines = [];
    this.isOpen = false;
    this.read = 0;
  }

  private async readAll(db: ShopDb): Promise<void> {
    this.total = await db.rows('board').count();
    let after = '';
    for (;;) {
      const boards = await db.rows('board').where('id').above(after).limit(STEP).toArray();
      if (this.db !== db) return;
      if (boards.length === 0) break;
      after = boards.at(-1)!.id;
      // Boards come by id, and so do the rows that lie on them: one stretch of each index.
      const [shots, marks, readings] = await Promise.all([
        db.rows('shot').where('board').between(boards[0]!.id, after, true, true).toArray(),
        db.rows('mark').where('board').between(boards[0]!.id, after, true, true).toArray(),
        db.rows('reading').where('board').between(boards[0]!.id, after, true, true).toArray(),
      ]);
      if (this.db !== db) return;
      this.enter(boards, shots, marks, readings);
      this.read += boards.length;
    }
    this.show();
    this.isOpen = true;
    if (this.dirty.size > 0) this.refreshSoon();
  }

  private enter(boards: BoardRow[], shots: ShotRow[], marks: MarkRow[], readings: ReadingRow[]): void {
    const [shotsOf, marksOf, readingsOf] = [grouped(shots, boardId), grouped(marks, boardId), grouped(readings, boardId)];
    for (const row of [...shots, ...marks, ...readings]) this.boardOf.set(row.id, row.board);
    for (const board of boards) {
      const { id } = board;
      this.byId.set(id, rackLine(board, shotsOf.get(id) ?? [], marksOf.get(id) ?? [], readingsOf.get(id) ?? []));
    }
  }

  private show(): void {
    this.lines = [...this.byId.values()].sort(byTag);
  }

  /** Something was written, here or in another tab: which boards does it touch? */
  private async note(parts: ObservabilitySet): Promise<void> {
    const { db } = this;
    if (!db) return;
    const touched = keysIn(parts[partName(db, 'board')]);
    if (touched === 'all') return this.readAnew(db);
    for (const id of touched) this.dirty.add(id);
    for (const kind of OF_A_BOARD) {
      const keys = keysIn(parts[partName(db, kind)]);
      if (keys === 'all') return this.readAnew(db);
      for (const key of keys) if (this.boardOf.has(key)) this.dirty.add(this.boardOf.get(key)!);
      const unknown = keys.filter((key) => !this.boardOf.has(key));
      if (unknown.length === 0) continue;
      const rows = (await db.table(kind).bulkGet(unknown)) as (Attached | undefined)[];
      for (const row of rows) if (row) this.dirty.add(row.board);
    }
    if (this.dirty.size > 0) this.refreshSoon();
  }

  private readAnew(db: ShopDb): void {
    this.close();
    void this.open(db);
  }

  private refreshSoon(): void {
    clearTimeout(this.timer);
    if (this.isOpen) this.timer = setTimeout(() => void this.refresh(), SETTLE_MS);
  }

  private async refresh(): Promise<void> {
    const { db } = this;
    if (!db) return;
    const ids = [...this.dirty];
    this.dirty = new Set();
    for (let at = 0; at < ids.length; at += STEP) {
      const some = ids.slice(at, at + STEP);
      const [boards, shots, marks, readings] = await Promise.all([
        db.rows('board').bulkGet(some),
        db.rows('shot').where('board').anyOf(some).toArray(),
        db.rows('mark').where('board').anyOf(some).toArray(),
        db.rows('reading').where('board').anyOf(some).toArray(),
      ]);
      if (this.db !== db) return;
      some.filter((_, index) => !boards[index]).forEach((id) => this.byId.delete(id));
      this.enter(boards.filter((board) => board !== undefined), shots, marks, readings);
    }
    this.show();
  }
}

const boardId = (row: Attached) => row.board;
const partName = (db: ShopDb, table: string) => `idb://${db.name}/${table}/`;

/** The primary keys of a part; "all" where a whole range was wiped. */
function keysIn(part: IntervalTree | undefined): string[] | 'all' {
  if (!part) return [];
  const keys: string[] = [];
  for (const node of RangeSet(part)) {
    if (node.from !== node.to) return 'all';
    keys.push(String(node.from));
  }
  return keys;
}

export const rackBook = new RackBook();
