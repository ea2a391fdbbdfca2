import type { Row } from '../api/rows';
import { send } from '../api/send';
import type { OutboxEntry } from './db';
import { KINDS } from './kinds';
import type { Photo } from './outbox';

/** The request for one outbox entry; a repeat is the same request, so the server can tell. */
export function requestFor(entry: OutboxEntry, photo: Photo | null): Request {
  const { path } = KINDS[entry.kind];
  const url = new URL(entry.method === 'POST' ? path : `${path}${entry.row_id}/`, location.origin);
  const headers = new Headers({ 'Idempotency-Key': entry.key });
  if (entry.method !== 'POST' && entry.base) headers.set('If-Match', `"${entry.base.revision}"`);
  let body: BodyInit | undefined;
  if (photo) body = formOf(entry.body, photo);
  else if (entry.method !== 'DELETE') {
    body = JSON.stringify(entry.body);
    headers.set('Content-Type', 'application/json');
  }
  return new Request(url, { method: entry.method, credentials: 'same-origin', headers, body });
}

function formOf(fields: Record<string, unknown>, photo: Photo): FormData {
  const form = new FormData();
  for (const [name, value] of Object.entries(fields)) form.append(name, typeof value === 'object' ? JSON.stringify(value) : String(value));
  form.append('photo', photo.blob, photo.name);
  return form;
}

export async function putToServer(entry: OutboxEntry, photo: Photo | null): Promise<Row | null> {
  const response = await send(requestFor(entry, photo));
  return response.status === 204 ? null : ((await response.json()) as Row);
}
