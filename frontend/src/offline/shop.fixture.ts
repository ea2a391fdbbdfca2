/** A small shop in memory that keeps the server's promises: revisions, one effect a key, 412 with the current row. */
import { Problem, Unreachable } from '../api/problem';
import type { Row } from '../api/rows';
import type { OutboxEntry } from './db';
import type { Photo } from './outbox';

export class FakeShop {
  rows = new Map<string, Row>();
  arrived: OutboxEntry[] = [];
  photos: Photo[] = [];
  signal = true;
  loseReplies = 0;
  refusals = new Map<string, Problem>();
  private replies = new Map<string, Row | null>();

  transport = async (entry: OutboxEntry, photo: Photo | null): Promise<Row | null> => {
    if (!this.signal) throw new Unreachable();
    const refusal = this.refusals.get(entry.row_id);
    if (refusal) throw refusal;
    if (!this.replies.has(entry.key)) this.replies.set(entry.key, this.take(entry, photo));
    if (this.loseReplies > 0) {
      this.loseReplies -= 1;
      throw new Unreachable();
    }
    return this.replies.get(entry.key) ?? null;
  };

  edit(id: string, fields: object): Row {
    const row = this.rows.get(id)!;
    const edited = { ...row, ...fields, revision: row.revision + 1 };
    this.rows.set(id, edited);
    return edited;
  }

  private take(entry: OutboxEntry, photo: Photo | null): Row | null {
    const row = this.rows.get(entry.row_id);
    if (entry.method !== 'POST') {
      if (!row) throw new Problem(404, { title: 'No such row.' });
      if (entry.base?.revision !== row.revision) throw new Problem(412, { title: 'Changed meanwhile.', current: row });
    }
    this.arrived.push(structuredClone(entry));
    if (photo) this.photos.push(photo);
    if (entry.method === 'DELETE') {
      this.rows.delete(entry.row_id);
      return null;
    }
    const made = { ...row, ...entry.body, id: entry.row_id, revision: (row?.revision ?? 0) + 1 } as Row;
    this.rows.set(entry.row_id, made);
    return made;
  }
}
