import { Dexie, type EntityTable, type Table } from 'dexie';
import type { Kind, Row, Rows } from '../api/rows';

export type Method = 'POST' | 'PATCH' | 'DELETE';

/** One write that has not reached the shop yet. */
export interface OutboxEntry {
  seq: number;
  /** Idempotency key: the server answers the same key with the same reply, so a repeat does no harm. */
  key: string;
  method: Method;
  kind: Kind;
  row_id: string;
  body: Record<string, unknown>;
  /** Key in `photos` of the bytes that go with it. */
  photo: string | null;
  /** The row as the shop had it when this was written; null while its making is still waiting. */
  base: Row | null;
  state: 'waiting' | 'refused' | 'conflict';
  tries: number;
  made_at: string;
  /** The server's words, when it refused. */
  problem: { status: number; text: string; errors: Record<string, string[]> } | null;
  /** What the shop has now, when both changed it. */
  current: Row | null;
}

/** A row as the shop has it, kept while this device shows its own version on top. */
export interface ShopRow {
  id: string;
  kind: Kind;
  row: Row;
}

/** Bytes rather than a Blob: some browsers refuse to store Blobs, or lose them. */
export interface Bytes {
  bytes: ArrayBuffer;
  type: string;
}

/** A photograph that waits to be sent. */
export interface WaitingPhoto extends Bytes {
  id: string;
  name: string;
}

/** A picture fetched or taken, kept for the next look without signal. */
export interface KeptPicture extends Bytes {
  key: string;
  used_at: number;
}

export const blobOf = ({ bytes, type }: Bytes): Blob => new Blob([bytes], { type });

export class ShopDb extends Dexie {
  declare outbox: EntityTable<OutboxEntry, 'seq'>;
  declare shop_rows: Table<ShopRow, string>;
  declare photos: Table<WaitingPhoto, string>;
  declare pictures: Table<KeptPicture, string>;
  declare meta: Table<{ key: string; value: unknown }, string>;

  constructor(name: string, options?: ConstructorParameters<typeof Dexie>[1]) {
    super(name, options);
    // A ladder: a later version adds a step below and keeps this one, so that what waits on a phone survives.
    this.version(1).stores({
      client: 'id, name',
      commission: 'id, stage',
      part: 'id, commission',
      board: 'id, tag, status',
      reading: 'id, board',
      shot: 'id, board',
      mark: 'id, board',
      layout: 'id, commission',
      surface_plan: 'id, commission',
      step: 'id, plan',
      bench_entry: 'id, step',
      packet: 'id, commission',
      outbox: '++seq, row_id, state',
      shop_rows: 'id',
      photos: 'id',
      pictures: 'key, used_at',
      meta: 'key',
    });
    // Rows of a new kind may have passed by unread: the books are fetched once more.
    this.version(2)
      .stores({ working: 'id, commission, part' })
      .upgrade((change) => change.table('meta').delete('since'));
    this.version(3)
      .stores({ cut: 'id, board' })
      .upgrade((change) => change.table('meta').delete('since'));
    this.version(4)
      .stores({ buying_trip: 'id, commission', offer: 'id, trip' })
      .upgrade((change) => change.table('meta').delete('since'));
    this.version(5)
      .stores({ outcome: 'id, board, layout' })
      .upgrade((change) => change.table('meta').delete('since'));
    this.version(6)
      .stores({ face_picture: 'id, board' })
      .upgrade((change) => change.table('meta').delete('since'));
  }

  rows<K extends Kind>(kind: K): Table<Rows[K], string> {
    return this.table(kind);
  }

  async recall<T>(key: string): Promise<T | undefined> {
    return (await this.meta.get(key))?.value as T | undefined;
  }

  async remember(key: string, value: unknown): Promise<void> {
    await this.meta.put({ key, value });
  }
}

/** The database of the member who uses this device; another member has another, so nothing mixes. */
export let db: ShopDb;

export function useDatabaseOf(memberId: string): ShopDb {
  db?.close();
  db = new ShopDb(`flitchbook-${memberId}`);
  // Another tab with a newer app wants to upgrade: let go, it is reopened on the next use.
  db.on('versionchange', () => db.close({ disableAutoOpen: false }));
  return db;
}
